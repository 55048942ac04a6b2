package org.kornspur.api.command.fact;

import com.fasterxml.jackson.databind.JsonNode;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.api.http.QuarantineFilter;
import org.kornspur.api.kafka.ProcessorsClient;
import org.kornspur.api.kafka.SiteKeys;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.DecisionProblem;
import org.kornspur.api.problem.ProblemKind;
import org.kornspur.api.problem.RecordDetail;
import org.kornspur.api.problem.RequestGiven;
import org.kornspur.api.query.view.ReceiptView;
import org.kornspur.api.readmodel.QuarantineRow;
import org.kornspur.api.readmodel.ReadModel;
import org.kornspur.api.readmodel.ResultPage;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.visibility.VisibilityService;
import org.kornspur.contract.QuarantineEntry;
import org.kornspur.contract.QuarantineOrigin;
import org.kornspur.contract.QuarantineState;
import org.kornspur.ingest.attestation.SignedActs;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.intake.FactChecks;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.json.FactParser;
import org.kornspur.ingest.json.JsonText;
import org.kornspur.ingest.json.ReadResult;
import org.kornspur.ingest.problem.Given;
import org.kornspur.ingest.problem.RecordProblem;
import org.kornspur.ingest.registry.UnknownSchema;
import org.kornspur.ingest.statement.Statement;
import org.kornspur.ingest.wire.NotWireFormat;
import org.kornspur.ingest.wire.UnknownRecordType;

/** Settles refused input: takes it in after all, or discards it with a reason. */
@ApplicationScoped
public class QuarantineDecisions {
  /** Characters of the reason for a decision, at most. */
  public static final int LONGEST_REASON = 500;

  @Inject ProcessorsClient processors;
  @Inject ReadModel readModel;
  @Inject FactSubmission submission;
  @Inject SubmissionRights admission;
  @Inject SiteKeys keys;
  @Inject VisibilityService visibilityService;
  @Inject CurrentCaller caller;
  private final Clock clock = Clock.systemUTC();

  /** One page of the entries in any of these states; of all where none is named. */
  public ResultPage<QuarantineRow> find(QuarantineFilter.Query query) {
    return readModel
        .quarantine()
        .find(query.states(), row -> isSeen(row.senders()), query.page(), query.size());
  }

  /** Input that waits and names a crop or lot, newest first, as far as it is for the caller. */
  public List<QuarantineRow> waitingThatName(Subject subject) {
    return caller.get().may(Permission.READ_QUARANTINE)
        ? readModel.quarantine().waitingThatName(subject.id()).stream()
            .filter(row -> isSeen(row.senders()))
            .toList()
        : List.of();
  }

  /**
   * One entry, whole.
   *
   * @throws ApiProblem if there is none
   */
  public QuarantineEntry entry(String entryId) {
    return readModel
        .entry(entryId)
        .filter(entry -> isSeen(readModel.quarantine().senders(entryId)))
        .orElseThrow(
            () -> ApiProblem.notFound(new RecordDetail.NoRefusedInput(Given.text(entryId, false))));
  }

  /**
   * The original as a fact in JSON, to be mended; empty where it cannot be read as one. What came
   * by a topic is in the form of the topic.
   */
  public static Optional<JsonNode> fact(QuarantineEntry entry) {
    if (entry.getOrigin() == QuarantineOrigin.TOPIC || entry.getWholeBytes() != null) {
      return Optional.empty();
    }
    try {
      JsonNode read =
          JsonText.parse(new String(bytes(entry.getOriginalValue()), StandardCharsets.UTF_8));
      return Optional.ofNullable(read).filter(json -> typeOf(json).isPresent());
    } catch (IOException noJson) {
      return Optional.empty();
    }
  }

  /** The type that a fact in JSON says that it is of, where a person may bring such facts. */
  public static Optional<FactType> typeOf(JsonNode fact) {
    return FactType.named(fact.path("type").asText()).filter(type -> !type.isAct());
  }

  /** Who does not see all sees what they sent themselves. */
  private boolean isSeen(Set<String> senders) {
    return visibilityService.visibility().isWhole() || senders.contains(caller.get().personId());
  }

  /**
   * Tries the original again.
   *
   * @param reason why; empty where nothing is said
   * @throws ApiProblem if it is still no good, or settled already
   */
  public ReceiptView replay(String entryId, Optional<String> reason) {
    QuarantineEntry entry = held(entryId);
    byte[] original = bytes(entry.getOriginalValue());
    if (entry.getWholeBytes() != null) {
      throw notReplayable(
          List.of(
              Problem.of(
                  "",
                  new RequestGiven.FirstBytes(original.length, entry.getWholeBytes()),
                  new DecisionProblem.NotWhole(Problem.described(entry.getPlace())))));
    }
    return takeIn(
        entry,
        entry.getOrigin() == QuarantineOrigin.TOPIC
            ? wire(original)
            : json(original, ProblemKind.NOT_REPLAYABLE),
        reason);
  }

  /**
   * Takes in a mended fact in place of the original.
   *
   * @param mended the fact as JSON
   * @param reason why; empty where nothing is said
   * @throws ApiProblem if it is refused, or the entry is settled already
   */
  public ReceiptView replay(String entryId, byte[] mended, Optional<String> reason) {
    QuarantineEntry entry = held(entryId);
    return takeIn(entry, json(mended, ProblemKind.INVALID_FACT), reason);
  }

  /**
   * Discards an entry.
   *
   * @param body an object with the field {@code reason}
   * @return the entry as it now stands
   * @throws ApiProblem if no reason is given, or the entry is settled already
   */
  public QuarantineEntry discard(String entryId, byte[] body) throws IOException {
    String reason = reason(body);
    QuarantineEntry entry = held(entryId);
    QuarantineEntry discarded =
        decided(entry, QuarantineState.DISCARDED, Optional.of(reason)).build();
    processors.quarantine(discarded);
    return discarded;
  }

  private QuarantineEntry.Builder decided(
      QuarantineEntry entry, QuarantineState state, Optional<String> reason) {
    return QuarantineEntry.newBuilder(entry)
        .setState(state)
        .setDecidedBy(caller.get().personId())
        .setDecidedAt(clock.instant().truncatedTo(ChronoUnit.MILLIS))
        .setDecisionReason(reason.orElse(null));
  }

  private QuarantineEntry held(String entryId) {
    QuarantineEntry entry = entry(entryId);
    if (entry.getState() != QuarantineState.HELD) {
      throw new ApiProblem(
          ProblemKind.ALREADY_SETTLED,
          new RecordDetail.Settled(entry.getState(), Optional.ofNullable(entry.getReplayedAs())));
    }
    return entry;
  }

  private ReceiptView takeIn(QuarantineEntry entry, SpecificRecord fact, Optional<String> reason) {
    List<Problem> problems = admission.problemsAtReceipt(fact);
    if (!problems.isEmpty()) {
      throw notReplayable(problems);
    }
    ReceiptView receipt = SubmissionAnswers.receipt(submission.sendAsCaller(fact));
    processors.quarantine(
        decided(entry, QuarantineState.REPLAYED, reason).setReplayedAs(receipt.factId()).build());
    return receipt;
  }

  private static SpecificRecord json(byte[] text, ProblemKind refusal) {
    ReadResult read = FactParser.accept(text);
    if (read instanceof ReadResult.Fact fact) {
      return fact.fact();
    }
    throw new ApiProblem(refusal, ((ReadResult.Refused) read).problems());
  }

  private SpecificRecord wire(byte[] original) {
    try {
      SpecificRecord record = processors.wire().decode(original);
      List<Problem> problems = problemsOf(record);
      if (problems.isEmpty()) {
        return record;
      }
      throw notReplayable(problems);
    } catch (NotWireFormat | UnknownSchema | UnknownRecordType unreadable) {
      throw notReplayable(
          List.of(
              Problem.of(
                  "", new Given.Bytes(original.length), RecordProblem.unreadable(unreadable))));
    }
  }

  private List<Problem> problemsOf(SpecificRecord record) {
    if (FactType.of(record.getSchema()).isEmpty()) {
      return List.of(
          Problem.of(
              "",
              new Given.RecordType(record.getSchema().getFullName()),
              new DecisionProblem.NoFactType()));
    }
    List<Problem> problems = FactChecks.check(record);
    return problems.isEmpty() ? SignedActs.problemsOf(record, keys.trusted()) : problems;
  }

  private static ApiProblem notReplayable(List<Problem> problems) {
    return new ApiProblem(ProblemKind.NOT_REPLAYABLE, problems);
  }

  private static String reason(byte[] body) throws IOException {
    JsonNode json = JsonText.parse(new String(body, StandardCharsets.UTF_8));
    JsonNode reason = json == null ? null : json.get("reason");
    if (reason == null || !reason.isTextual() || reason.textValue().isBlank()) {
      throw reasonProblem(new Given.Absent());
    }
    if (reason.textValue().length() > LONGEST_REASON) {
      throw reasonProblem(new RequestGiven.Characters(reason.textValue().length()));
    }
    return reason.textValue().strip();
  }

  private static ApiProblem reasonProblem(Statement found) {
    return new ApiProblem(
        ProblemKind.INVALID_PARAMETER,
        Problem.of("reason", found, new DecisionProblem.NoReason(LONGEST_REASON)));
  }

  private static byte[] bytes(ByteBuffer buffer) {
    byte[] copy = new byte[buffer.remaining()];
    buffer.duplicate().get(copy);
    return copy;
  }
}
