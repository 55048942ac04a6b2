package org.kornspur.api.engine;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayDeque;
import java.util.Deque;
import org.apache.kafka.streams.errors.StreamsUncaughtExceptionHandler;
import org.jboss.logging.Logger;

/**
 * Replaces a stream thread that died, as after a registry that was away for a while; gives up, so
 * that health tells of it, when threads keep dying.
 */
final class ThreadReplacement implements StreamsUncaughtExceptionHandler {
  private static final Logger LOG = Logger.getLogger(ThreadReplacement.class);
  private static final int MOST_DEATHS = 10;
  private static final Duration WINDOW = Duration.ofMinutes(10);
  private static final Duration PAUSE = Duration.ofSeconds(2);

  private final Deque<Instant> deaths = new ArrayDeque<>();

  @Override
  public synchronized StreamThreadExceptionResponse handle(Throwable cause) {
    Instant now = Instant.now();
    deaths.add(now);
    while (deaths.peek().isBefore(now.minus(WINDOW))) {
      deaths.remove();
    }
    if (deaths.size() > MOST_DEATHS) {
      LOG.errorf(
          cause,
          "A stream thread died for the %d. time within %s; giving up",
          deaths.size(),
          WINDOW);
      return StreamThreadExceptionResponse.SHUTDOWN_CLIENT;
    }
    LOG.warnf(cause, "A stream thread died and is replaced");
    pause();
    return StreamThreadExceptionResponse.REPLACE_THREAD;
  }

  private static void pause() {
    try {
      Thread.sleep(PAUSE.toMillis());
    } catch (InterruptedException interrupted) {
      Thread.currentThread().interrupt();
    }
  }
}
