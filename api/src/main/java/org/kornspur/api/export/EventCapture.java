package org.kornspur.api.export;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.command.fact.FactSubmission;
import org.kornspur.api.command.fact.ReadInput;
import org.kornspur.api.command.fact.SubmissionAnswers;
import org.kornspur.api.command.fact.SubmissionOutcome;
import org.kornspur.api.export.epcis.CaptureDocument;
import org.kornspur.api.export.epcis.FactsFromEpcis;
import org.kornspur.api.export.identity.EventId;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.ProblemJson;
import org.kornspur.api.problem.ProblemKind;
import org.kornspur.api.problem.ProblemLanguage;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.json.JsonText;
import org.kornspur.ingest.json.ReadResult;
import org.kornspur.ingest.problem.Given;
import org.kornspur.ingest.problem.InputProblem;

/** Takes events in as facts, the same way as all facts. */
@ApplicationScoped
public class EventCapture {
  private static final int JOBS_KEPT = 1_000;

  @Inject SiteVocabulary vocabulary;
  @Inject FactSubmission submission;
  @Inject SiteIdentifiers site;
  @Inject CurrentCaller caller;
  @Inject ProblemLanguage language;
  private final Clock clock = Clock.systemUTC();
  private final Map<String, Kept> jobs = new LinkedHashMap<>();

  private record Kept(String personId, Job job) {}

  /** What to do with the good events of a document that holds bad ones. */
  enum ErrorBehaviour {
    ROLLBACK,
    PROCEED
  }

  /**
   * A document that was captured.
   *
   * <p>Source: EPCIS 2.0, section 12.6, "capture job".
   */
  @Schema(description = "A capture job (EPCIS 2.0)")
  @JsonInclude(JsonInclude.Include.NON_NULL)
  public record Job(
      String captureID,
      Instant createdAt,
      Instant finishedAt,
      boolean running,
      @Schema(description = "Whether every event of the document went in") boolean success,
      @Schema(enumeration = {"rollback", "proceed"}) String captureErrorBehaviour,
      @Schema(description = "What is wrong, event by event; the quarantine keeps refused events")
          List<ProblemJson> errors) {}

  /**
   * Captures a document. With {@link ErrorBehaviour#ROLLBACK} nothing goes in if any event cannot
   * be read; those that cannot are kept in the quarantine either way.
   *
   * @throws ApiProblem if the body is no document
   * @throws JsonProcessingException if it is no JSON
   */
  Job capture(byte[] utf8, ErrorBehaviour behaviour) throws IOException {
    Instant createdAt = clock.instant();
    CaptureDocument document = CaptureDocument.ofDocument(vocabulary.inward(parse(utf8)));
    String captureId = UUID.randomUUID().toString();
    List<ReadInput> inputs = new ArrayList<>();
    for (int at = 0; at < document.events().size(); at++) {
      inputs.addAll(
          read(
              document.events().get(at),
              document,
              "capture " + captureId + ", eventList[" + at + "]"));
    }
    boolean anyRefused =
        inputs.stream().anyMatch(input -> input.result() instanceof ReadResult.Refused);
    List<ReadInput> sent =
        anyRefused && behaviour == ErrorBehaviour.ROLLBACK
            ? inputs.stream().filter(input -> input.result() instanceof ReadResult.Refused).toList()
            : inputs;
    List<SubmissionOutcome> outcomes = submission.admit(sent);
    List<ProblemJson> errors = new ArrayList<>();
    for (int at = 0; at < sent.size(); at++) {
      error(outcomes.get(at), sent.get(at).place()).ifPresent(errors::add);
    }
    Job job =
        new Job(
            captureId,
            createdAt,
            clock.instant(),
            false,
            errors.isEmpty(),
            behaviour.name().toLowerCase(Locale.ROOT),
            errors);
    keep(job);
    return job;
  }

  /**
   * Captures one event.
   *
   * @return the event's id here
   * @throws ApiProblem if it is refused
   */
  String captureEvent(byte[] utf8) throws IOException {
    JsonNode event = vocabulary.inward(parse(utf8));
    CaptureDocument alone = CaptureDocument.ofEvent(event);
    List<ReadInput> inputs = read(event, alone, "event " + UUID.randomUUID());
    List<String> factIds =
        submission.admit(inputs).stream()
            .map(outcome -> SubmissionAnswers.receipt(outcome).factId())
            .toList();
    return EventId.ofFact(factIds.get(0));
  }

  /** A job of the caller. */
  synchronized Optional<Job> job(String captureId) {
    return Optional.ofNullable(jobs.get(captureId))
        .filter(kept -> kept.personId().equals(caller.get().personId()))
        .map(Kept::job);
  }

  private synchronized void keep(Job job) {
    jobs.put(job.captureID(), new Kept(caller.get().personId(), job));
    if (jobs.size() > JOBS_KEPT) {
      jobs.remove(jobs.keySet().iterator().next());
    }
  }

  private List<ReadInput> read(JsonNode event, CaptureDocument document, String place) {
    String senderId = caller.get().personId();
    byte[] utf8 = event.toString().getBytes(StandardCharsets.UTF_8);
    return new FactsFromEpcis(site.identifiers(), senderId)
        .read(event, document.factKeys()).stream()
            .map(result -> new ReadInput(result, utf8, place, senderId))
            .toList();
  }

  private Optional<ProblemJson> error(SubmissionOutcome outcome, String place) {
    try {
      SubmissionAnswers.receipt(outcome);
      return Optional.empty();
    } catch (ApiProblem problem) {
      return Optional.of(ProblemJson.of(problem.document(), language.words()).at(place));
    }
  }

  private static JsonNode parse(byte[] utf8) throws IOException {
    try {
      return JsonText.parse(
          StandardCharsets.UTF_8.newDecoder().decode(ByteBuffer.wrap(utf8)).toString());
    } catch (CharacterCodingException noText) {
      throw new ApiProblem(
          ProblemKind.UNREADABLE_BODY,
          Problem.of("", new Given.BytesNotUtf8(utf8.length), new InputProblem.NotUtf8()));
    }
  }
}
