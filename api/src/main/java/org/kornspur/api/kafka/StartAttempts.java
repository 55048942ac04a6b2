package org.kornspur.api.kafka;

import java.time.Duration;
import java.util.Optional;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeoutException;
import org.apache.kafka.common.errors.RetriableException;
import org.kornspur.ingest.registry.RegistryUnreachable;

/**
 * When to try again to start: brokers and a registry that do not answer may only be starting
 * themselves. Each pause is twice the one before, 30 s at most; what does not answer for five
 * minutes is taken not to.
 */
final class StartAttempts {
  private static final Duration FIRST_PAUSE = Duration.ofSeconds(1);
  private static final Duration LONGEST_PAUSE = Duration.ofSeconds(30);
  private static final Duration LIMIT = Duration.ofMinutes(5);

  private final long since = System.nanoTime();
  private Duration pause = FIRST_PAUSE;

  /** How long to wait before the next attempt; none if no attempt would help. */
  Optional<Duration> pauseAfter(Throwable fault) {
    if (!mayPass(fault) || System.nanoTime() - since > LIMIT.toNanos()) {
      return Optional.empty();
    }
    Duration next = pause;
    Duration twice = pause.multipliedBy(2);
    pause = twice.compareTo(LONGEST_PAUSE) < 0 ? twice : LONGEST_PAUSE;
    return Optional.of(next);
  }

  /** What is wrong, in one line. */
  static String words(Throwable fault) {
    Throwable told = fault instanceof ExecutionException ? fault.getCause() : fault;
    return told instanceof Error || told.getMessage() == null ? told.toString() : told.getMessage();
  }

  private static boolean mayPass(Throwable fault) {
    for (Throwable cause = fault; cause != null; cause = cause.getCause()) {
      if (cause instanceof TimeoutException
          || cause instanceof RetriableException
          || cause instanceof RegistryUnreachable) {
        return true;
      }
    }
    return false;
  }
}
