package org.kornspur.api.security.login;

import io.quarkus.logging.LoggingFilter;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.util.Base64;
import java.util.logging.Filter;
import java.util.logging.LogRecord;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jboss.logmanager.ExtLogRecord;

/**
 * Keeps bearer tokens, passwords of the Basic scheme and cookies of log-ins out of every log. The
 * library that verifies tokens writes a refused one into its warning whole, and a token that is
 * refused here may be good elsewhere, or here an hour later; other libraries write the headers of a
 * request that they stumble on.
 */
@LoggingFilter(name = CredentialRedactingFilter.NAME)
public final class CredentialRedactingFilter implements Filter {
  static final String NAME = "tokens-left-out";

  private static final String INSTEAD = "(token left out)";
  private static final String PASSWORD_INSTEAD = "(password left out)";
  private static final String COOKIE_INSTEAD = "(cookie left out)";

  /**
   * Compact form of RFC 7515: a header in base64url, which is JSON and so begins with eyJ, and
   * dots.
   */
  private static final Pattern TOKEN =
      Pattern.compile(
          "\\beyJ[A-Za-z0-9_-]*(?:\\.[A-Za-z0-9_-]*){1,4}|(?i:\\bbearer)\\s+[A-Za-z0-9._~+/=-]+");

  /** What the Basic scheme sends (RFC 7617), or words that begin with a term of the seed trade. */
  private static final Pattern BASIC =
      Pattern.compile("\\b((?i:basic)\\s+)([A-Za-z0-9+/_-]{2,}={0,2})");

  private static final Pattern BASIC_OF_A_HEADER =
      Pattern.compile("((?i:authorization\\W{1,4}basic)\\s+)[^\\s\"',;\\]}]+");

  private static final Pattern COOKIE =
      Pattern.compile("(" + Sessions.COOKIE + "\"?\\s*[=:]\\s*\"?)[A-Za-z0-9_-]+");

  @Override
  public boolean isLoggable(LogRecord entry) {
    String message = String.valueOf(ExtLogRecord.wrap(entry).getFormattedMessage());
    String said = without(message);
    if (!said.equals(message)) {
      say(entry, said);
    }
    if (entry.getThrown() != null) {
      String thrown = text(entry.getThrown());
      String told = without(thrown);
      if (!told.equals(thrown)) {
        say(entry, said + System.lineSeparator() + told);
        entry.setThrown(null);
      }
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
    String rest = TOKEN.matcher(text).replaceAll(INSTEAD);
    rest = BASIC_OF_A_HEADER.matcher(rest).replaceAll("$1" + PASSWORD_INSTEAD);
    rest =
        BASIC
            .matcher(rest)
            .replaceAll(
                found ->
                    isPersonAndPassword(found.group(2))
                        ? "$1" + PASSWORD_INSTEAD
                        : Matcher.quoteReplacement(found.group()));
    return COOKIE.matcher(rest).replaceAll("$1" + COOKIE_INSTEAD);
  }

  private static boolean isPersonAndPassword(String base64) {
    try {
      byte[] decoded = Base64.getDecoder().decode(base64.replace('-', '+').replace('_', '/'));
      return new String(decoded, StandardCharsets.ISO_8859_1).indexOf(':') >= 0;
    } catch (IllegalArgumentException words) {
      return false;
    }
  }

  private static String text(Throwable thrown) {
    StringWriter text = new StringWriter();
    thrown.printStackTrace(new PrintWriter(text));
    return text.toString();
  }
}
