package org.kornspur.api.engine;

/** The answer cannot be given yet or just now; asking again shortly is the remedy. */
public final class NotReady extends RuntimeException {
  private static final long serialVersionUID = 1L;

  private final int retryAfterSeconds;

  public NotReady(String message, int retryAfterSeconds) {
    super(message);
    this.retryAfterSeconds = retryAfterSeconds;
  }

  public int retryAfterSeconds() {
    return retryAfterSeconds;
  }
}
