package org.kornspur.api.problem;

import java.util.List;
import java.util.Optional;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.intake.ProblemWords;
import org.kornspur.ingest.statement.Statement;

/**
 * What a problem document says, before it is written in a language.
 *
 * @param detail what is wrong, in a sentence; empty where problems say it
 */
public record ProblemDocument(
    ProblemKind kind,
    int status,
    Optional<Statement> detail,
    List<Problem> problems,
    Optional<String> incident) {

  /** A document without single problems. */
  public static ProblemDocument of(ProblemKind kind, Statement detail) {
    return of(kind, detail, List.of());
  }

  /** A document with everything that is wrong, and a sentence of its own. */
  public static ProblemDocument of(ProblemKind kind, Statement detail, List<Problem> problems) {
    return of(kind, Optional.of(detail), problems);
  }

  /** A document of one or several problems, whose detail is the sentence of the first. */
  public static ProblemDocument of(ProblemKind kind, List<Problem> problems) {
    return of(kind, Optional.empty(), problems);
  }

  private static ProblemDocument of(
      ProblemKind kind, Optional<Statement> detail, List<Problem> problems) {
    return new ProblemDocument(kind, kind.status(), detail, problems, Optional.empty());
  }

  /** What is wrong, in a sentence. */
  public String detail(ProblemWords words) {
    return detail.map(words::plain).orElseGet(() -> words.summary(problems));
  }

  ProblemDocument withIncident(String id) {
    return new ProblemDocument(kind, status, detail, problems, Optional.of(id));
  }

  ProblemDocument withStatus(int other) {
    return new ProblemDocument(kind, other, detail, problems, incident);
  }
}
