package org.kornspur.api.runtime;

import io.quarkus.logging.LoggingFilter;
import java.util.logging.Filter;
import java.util.logging.LogRecord;
import org.apache.kafka.common.errors.NotControllerException;

/**
 * Passes over one line of the broker at its start. Controller and broker start together in one
 * process, and the controller registers itself before it has been elected, if only by its own vote:
 * it refuses itself, writes that down with a stack trace, and registers again 50 ms later. There is
 * nothing to wait for from outside, since the broker does not say that it started before that is
 * done.
 */
@LoggingFilter(name = ControllerNotYetActive.NAME)
public final class ControllerNotYetActive implements Filter {
  static final String NAME = "controller-not-yet-active";

  private static final String REQUESTS_OF_THE_CONTROLLER = "kafka.server.ControllerApis";

  @Override
  public boolean isLoggable(LogRecord line) {
    return !(REQUESTS_OF_THE_CONTROLLER.equals(line.getLoggerName()) && isNotController(line));
  }

  private static boolean isNotController(LogRecord line) {
    Throwable cause = line.getThrown();
    while (cause != null && !(cause instanceof NotControllerException)) {
      cause = cause.getCause();
    }
    return cause != null;
  }
}
