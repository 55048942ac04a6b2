package org.kornspur.api.security.login;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.util.logging.Handler;
import java.util.logging.Level;
import java.util.logging.LogRecord;
import java.util.logging.Logger;
import org.jboss.logmanager.LogContext;

/** Everything that is logged meanwhile at any level, with its parameters and exceptions. */
final class Logged extends Handler {
  private final StringBuffer text = new StringBuffer();
  private final Logger all = LogContext.getLogContext().getLogger("");
  private final Level before = all.getLevel();

  Logged() {
    all.addHandler(this);
    all.setLevel(Level.ALL);
  }

  @Override
  public void publish(LogRecord entry) {
    if (!isLoggable(entry)) {
      return;
    }
    text.append(entry.getMessage());
    if (entry.getParameters() != null) {
      for (Object parameter : entry.getParameters()) {
        text.append(' ').append(parameter);
      }
    }
    if (entry instanceof org.jboss.logmanager.ExtLogRecord formatted) {
      text.append(' ').append(formatted.getFormattedMessage());
    }
    if (entry.getThrown() != null) {
      StringWriter trace = new StringWriter();
      entry.getThrown().printStackTrace(new PrintWriter(trace));
      text.append(' ').append(trace);
    }
    text.append('\n');
  }

  String text() {
    return text.toString();
  }

  @Override
  public void flush() {
    // nothing is held back
  }

  @Override
  public void close() {
    all.setLevel(before);
    all.removeHandler(this);
  }
}
