package org.kornspur.api.problem;

import java.util.List;
import java.util.Optional;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.intake.ProblemWords;

/**
 * What a problem document says, before it is written in a language.
 *
 * @param detail what is wrong, in an English sentence; empty where problems say it
 */
public record ProblemDocument(
    ProblemKind kind,
    int status,
    String detail,
    List<Problem> problems,
    Optional<String> incident) {

  /** A document without single problems. */
  public static ProblemDocument of(ProblemKind kind, String detail) {
    return of(kind, detail, List.of());
  }

  /** A document with everything that is wrong, and a sentence of its own. */
  public static ProblemDocument of(ProblemKind kind, String detail, List<Problem> problems) {
    return new ProblemDocument(kind, kind.status(), detail, problems, Optional.empty());
  }

  /** A document of one or several problems, whose detail is the sentence of the first. */
  public static ProblemDocument of(ProblemKind kind, List<Problem> problems) {
    return of(kind, "", problems);
  }

  /** What is wrong, in a sentence. */
  public String detail(ProblemWords words) {
    return detail.isEmpty() ? words.summary(problems) : detail;
  }

  ProblemDocument withIncident(String id) {
    return new ProblemDocument(kind, status, detail, problems, Optional.of(id));
  }

  ProblemDocument withStatus(int other) {
    return new ProblemDocument(kind, other, detail, problems, incident);
  }
}
