package org.kornspur.api.kafka;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Optional;
import org.apache.kafka.common.errors.RetriableException;
import org.apache.kafka.streams.errors.StreamsUncaughtExceptionHandler;
import org.jboss.logging.Logger;
import org.kornspur.api.time.SteadyClock;
import org.kornspur.ingest.registry.RegistryUnreachable;

/**
 * Replaces a stream thread that died, as after a registry that was away for a while. Gives up, so
 * that health tells of it, when threads keep dying: sooner where one cause kills them that waiting
 * does not mend.
 */
final class ThreadReplacement implements StreamsUncaughtExceptionHandler {
  private static final Logger LOG = Logger.getLogger(ThreadReplacement.class);
  private static final int MOST_DEATHS = 10;
  private static final int MOST_OF_ONE_CAUSE = 3;
  private static final Duration WINDOW = Duration.ofMinutes(10);
  private static final Duration PAUSE = Duration.ofSeconds(2);

  /** A thread that died of its first records does so within this time of being replaced. */
  private static final Duration QUIET = Duration.ofSeconds(15);

  private final Clock clock;
  private final Duration pause;
  private final Deque<Death> deaths = new ArrayDeque<>();

  private record Death(Instant at, String cause) {}

  ThreadReplacement() {
    this(SteadyClock.ofMachine(), PAUSE);
  }

  ThreadReplacement(Clock clock, Duration pause) {
    this.clock = clock;
    this.pause = pause;
  }

  @Override
  public StreamThreadExceptionResponse handle(Throwable fault) {
    boolean givesUp = givesUpAfter(fault);
    if (givesUp) {
      LOG.error("Stream threads keep dying; giving up", fault);
      return StreamThreadExceptionResponse.SHUTDOWN_CLIENT;
    }
    LOG.warn("A stream thread died and is replaced", fault);
    pause();
    return StreamThreadExceptionResponse.REPLACE_THREAD;
  }

  private synchronized boolean givesUpAfter(Throwable fault) {
    Instant now = clock.instant();
    Death death = new Death(now, causeOf(fault));
    deaths.add(death);
    while (deaths.peek().at().isBefore(now.minus(WINDOW))) {
      deaths.remove();
    }
    long ofThisCause =
        deaths.stream()
            .filter(earlier -> earlier.cause().equals(death.cause()))
            .filter(
                earlier -> earlier.at().isAfter(now.minus(QUIET.multipliedBy(MOST_OF_ONE_CAUSE))))
            .count();
    return deaths.size() > MOST_DEATHS || (!mayPass(fault) && ofThisCause > MOST_OF_ONE_CAUSE);
  }

  /** Why a thread died a moment ago, so that it is not known yet whether it goes on. */
  synchronized Optional<String> unsettled() {
    return Optional.ofNullable(deaths.peekLast())
        .filter(death -> death.at().isAfter(clock.instant().minus(QUIET)))
        .map(Death::cause);
  }

  /** Whether waiting may help: brokers or registry are away. */
  private static boolean mayPass(Throwable fault) {
    for (Throwable cause = fault; cause != null; cause = cause.getCause()) {
      if (cause instanceof RegistryUnreachable || cause instanceof RetriableException) {
        return true;
      }
    }
    return false;
  }

  /** The innermost cause; without numbers, since places and sizes differ from death to death. */
  private static String causeOf(Throwable fault) {
    Throwable innermost = fault;
    while (innermost.getCause() != null) {
      innermost = innermost.getCause();
    }
    return innermost.toString().replaceAll("\\d+", "…");
  }

  private void pause() {
    try {
      Thread.sleep(pause.toMillis());
    } catch (InterruptedException interrupted) {
      Thread.currentThread().interrupt();
    }
  }
}
