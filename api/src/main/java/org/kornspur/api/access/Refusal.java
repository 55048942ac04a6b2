package org.kornspur.api.access;

import java.util.OptionalLong;
import org.kornspur.api.problem.ProblemDocument;
import org.kornspur.api.problem.ProblemKind;

/**
 * Why somebody does not come in.
 *
 * @param retryAfterSeconds when to try again; empty where that would not help
 */
record Refusal(ProblemDocument document, OptionalLong retryAfterSeconds) {

  static Refusal of(ProblemKind kind, String detail) {
    return new Refusal(ProblemDocument.of(kind, detail), OptionalLong.empty());
  }

  /** What an issued password opens: nothing but the address where another is set. */
  static Refusal ofIssuedPassword() {
    return of(
        ProblemKind.OWN_PASSWORD_NEEDED,
        "The administrator issued this password and so knows it too; it serves to set another, and"
            + " for nothing else.");
  }

  static Refusal tooMany(String detail, long seconds) {
    return new Refusal(
        ProblemDocument.of(ProblemKind.TOO_MANY_REQUESTS, detail), OptionalLong.of(seconds));
  }
}
