package org.kornspur.api.kafka;

import java.util.OptionalLong;
import org.kornspur.api.problem.NotReadyDetail;
import org.kornspur.api.problem.ProblemDocument;
import org.kornspur.api.problem.ProblemException;
import org.kornspur.api.problem.ProblemKind;

/** The answer cannot be given yet or just now; asking again shortly is the remedy. */
public final class NotReady extends ProblemException {
  private final transient NotReadyDetail detail;

  public NotReady(NotReadyDetail detail, int retryAfterSeconds) {
    this(ProblemKind.NOT_READY, detail, retryAfterSeconds);
  }

  private NotReady(ProblemKind kind, NotReadyDetail detail, int retryAfterSeconds) {
    super(ProblemDocument.of(kind, detail), OptionalLong.of(retryAfterSeconds));
    this.detail = detail;
  }

  /** For work that is turned away until what was taken before is done; status 429. */
  static NotReady tooMuch(NotReadyDetail detail, int retryAfterSeconds) {
    return new NotReady(ProblemKind.TOO_MANY_REQUESTS, detail, retryAfterSeconds);
  }

  public NotReadyDetail detail() {
    return detail;
  }
}
