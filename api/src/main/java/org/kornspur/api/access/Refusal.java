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

  static Refusal tooMany(String detail, long seconds) {
    return new Refusal(
        ProblemDocument.of(ProblemKind.TOO_MANY_REQUESTS, detail), OptionalLong.of(seconds));
  }
}
