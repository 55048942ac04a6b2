package org.kornspur.api.kafka;

import java.util.OptionalLong;
import org.kornspur.api.problem.NotReadyDetail;
import org.kornspur.api.problem.ProblemDocument;
import org.kornspur.api.problem.ProblemException;
import org.kornspur.api.problem.ProblemKind;

/** The answer cannot be given yet or just now; asking again shortly is the remedy. */
public final class NotReady extends ProblemException {
  private static final long serialVersionUID = 1L;

  private final transient NotReadyDetail detail;

  public NotReady(NotReadyDetail detail, int retryAfterSeconds) {
    super(ProblemDocument.of(ProblemKind.NOT_READY, detail), OptionalLong.of(retryAfterSeconds));
    this.detail = detail;
  }

  public NotReadyDetail detail() {
    return detail;
  }
}
