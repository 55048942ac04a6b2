package org.kornspur.api.command.cause;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Clock;
import java.time.temporal.ChronoUnit;
import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import java.util.UUID;
import org.kornspur.api.http.JsonBody;
import org.kornspur.api.kafka.ProcessorsClient;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.ParameterProblem;
import org.kornspur.api.problem.ProblemKind;
import org.kornspur.api.problem.RequestReason;
import org.kornspur.api.problem.SigningProblem;
import org.kornspur.api.readmodel.CauseKey;
import org.kornspur.api.readmodel.ReadModel;
import org.kornspur.api.security.Caller;
import org.kornspur.contract.CauseNote;
import org.kornspur.contract.CauseNoteKind;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.problem.Expected;

/**
 * Keeps who took a cause over, what was asked for and what was noted, each with person and time.
 * They lie in a compacted topic and not among the facts, because nothing may be judged by them;
 * each has a key of its own, so that none takes the place of another.
 */
@ApplicationScoped
public class CauseNoteWriter {
  private static final int LONGEST_TEXT = 2_000;

  @Inject ProcessorsClient processors;
  @Inject ReadModel readModel;
  private final Clock clock = Clock.systemUTC();

  /**
   * Keeps a note.
   *
   * @param kind name of its kind
   * @param text what is said; a note and a request are nothing without
   * @throws ApiProblem if the kind is none, or the text is missing or too long
   */
  public CauseNote write(Caller author, CauseKey cause, String kind, Optional<String> text) {
    CauseNoteKind asked = kind(kind);
    CauseNote note =
        CauseNote.newBuilder()
            .setNoteId(UUID.randomUUID().toString())
            .setCause(cause.text())
            .setKind(asked)
            .setWrittenBy(author.personId())
            .setWrittenAt(clock.instant().truncatedTo(ChronoUnit.MILLIS))
            .setText(text(asked, text.map(String::strip).orElse("")))
            .build();
    processors.keep(note);
    // also here at once, so that who wrote it finds it before the topic is read
    readModel.causeNotes().put(note);
    return note;
  }

  private static CauseNoteKind kind(String name) {
    return Arrays.stream(CauseNoteKind.values())
        .filter(kind -> kind.name().equals(name.toUpperCase(Locale.ROOT)))
        .findFirst()
        .orElseThrow(
            () ->
                refused(
                    "kind",
                    name,
                    new ParameterProblem.OneOf(
                        Arrays.stream(CauseNoteKind.values()).map(Enum::name).toList())));
  }

  private static String text(CauseNoteKind kind, String text) {
    boolean isNeeded =
        switch (kind) {
          case NOTE, EVIDENCE_ASKED -> true;
          case TAKEN_OVER, HANDED_BACK -> false;
        };
    if (isNeeded) {
      JsonBody body = new JsonBody();
      body.required("text", text.isEmpty() ? null : text, new Expected.Text());
      body.check();
    }
    if (text.length() > LONGEST_TEXT || text.chars().anyMatch(Character::isISOControl)) {
      throw refused("text", text, new SigningProblem.NotOneLine(LONGEST_TEXT));
    }
    return text;
  }

  private static ApiProblem refused(String field, String given, RequestReason why) {
    return new ApiProblem(ProblemKind.INVALID_PARAMETER, Problem.of(field, given, why));
  }
}
