package org.kornspur.api.access;

import io.quarkus.logging.LoggingFilter;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.util.logging.Filter;
import java.util.logging.LogRecord;
import java.util.regex.Pattern;
import org.jboss.logmanager.ExtLogRecord;

/**
 * Keeps bearer tokens out of every log. The library that verifies them writes a refused one into
 * its warning whole, and a token that is refused here may be good elsewhere, or here an hour later.
 */
@LoggingFilter(name = TokensLeftOut.NAME)
public final class TokensLeftOut implements Filter {
  static final String NAME = "tokens-left-out";

  private static final String INSTEAD = "(token left out)";

  /**
   * Compact form of RFC 7515: a header in base64url, which is JSON and so begins with eyJ, and
   * dots.
   */
  private static final Pattern TOKEN =
      Pattern.compile(
          "\\beyJ[A-Za-z0-9_-]*(?:\\.[A-Za-z0-9_-]*){1,4}|(?i:\\bbearer)\\s+[A-Za-z0-9._~+/=-]+");

  @Override
  public boolean isLoggable(LogRecord entry) {
    ExtLogRecord formatted = ExtLogRecord.wrap(entry);
    String message = formatted.getFormattedMessage();
    String thrown = entry.getThrown() == null ? "" : text(entry.getThrown());
    if (message != null && TOKEN.matcher(message).find()) {
      say(entry, without(message));
    }
    if (TOKEN.matcher(thrown).find()) {
      say(entry, without(message + System.lineSeparator() + thrown));
      entry.setThrown(null);
    }
    return true;
  }

  private static void say(LogRecord entry, String words) {
    if (entry instanceof ExtLogRecord formatted) {
      formatted.setMessage(words, ExtLogRecord.FormatStyle.NO_FORMAT);
    } else {
      entry.setMessage(words);
    }
    entry.setParameters(null);
  }

  private static String without(String text) {
    return TOKEN.matcher(text).replaceAll(INSTEAD);
  }

  private static String text(Throwable thrown) {
    StringWriter text = new StringWriter();
    thrown.printStackTrace(new PrintWriter(text));
    return text.toString();
  }
}
