package org.kornspur.api.packaged;

import java.time.Duration;

/** A moment by which something must be so. */
final class Deadline {

  private final Duration limit;
  private final String expectation;
  private final long start = System.nanoTime();

  private Deadline(Duration limit, String expectation) {
    this.limit = limit;
    this.expectation = expectation;
  }

  static Deadline in(Duration limit, String expectation) {
    return new Deadline(limit, expectation);
  }

  boolean passed() {
    return elapsed().compareTo(limit) > 0;
  }

  Duration elapsed() {
    return Duration.ofNanos(System.nanoTime() - start);
  }

  AssertionError missed(String detail) {
    return new AssertionError(
        "Expected within %d s that %s. After %.1f s: %s"
            .formatted(limit.toSeconds(), expectation, elapsed().toMillis() / 1000.0, detail));
  }
}
