package org.kornspur.api.kafka;

import org.kornspur.api.problem.NotReadyDetail;
import org.kornspur.api.problem.ProblemLanguage;
import org.kornspur.api.text.Language;

/** The answer cannot be given yet or just now; asking again shortly is the remedy. */
public final class NotReady extends RuntimeException {
  private static final long serialVersionUID = 1L;

  private final transient NotReadyDetail detail;
  private final int retryAfterSeconds;

  public NotReady(NotReadyDetail detail, int retryAfterSeconds) {
    super(ProblemLanguage.words(Language.ENGLISH).plain(detail));
    this.detail = detail;
    this.retryAfterSeconds = retryAfterSeconds;
  }

  public NotReadyDetail detail() {
    return detail;
  }

  public int retryAfterSeconds() {
    return retryAfterSeconds;
  }
}
