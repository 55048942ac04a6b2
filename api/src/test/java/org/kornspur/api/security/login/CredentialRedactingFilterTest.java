package org.kornspur.api.security.login;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.logging.Level;
import java.util.logging.LogRecord;
import org.jboss.logmanager.ExtLogRecord;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What no log may hold, in the forms in which libraries write it. */
class CredentialRedactingFilterTest {
  private static final String PAIR = "cXVhbGl0eTphbiBpbnZlbnRlZCBvbmU=";
  private static final String SEALED = "Zm9vYmFy-k_3xQ9aZ";

  private final CredentialRedactingFilter filter = new CredentialRedactingFilter();

  private String logged(String message, Throwable thrown) {
    LogRecord entry = new LogRecord(Level.WARNING, message);
    entry.setThrown(thrown);
    assertThat(filter.isLoggable(entry)).isTrue();
    return ExtLogRecord.wrap(entry).getFormattedMessage() + " " + entry.getThrown();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "Authorization: Basic " + PAIR,
        "authorization=basic " + PAIR + " Host=x",
        "{Authorization=[Basic " + PAIR + "]}",
        "credentials Basic " + PAIR,
        "Authorization: Basic no-base64-" + PAIR + "!",
        "Cookie: language=en; " + Sessions.COOKIE + "=" + SEALED,
        "Set-Cookie: " + Sessions.COOKIE + "=" + SEALED + "; Path=/; HttpOnly",
        "cookie " + Sessions.COOKIE + ": \"" + SEALED + "\""
      })
  void passwordsAndCookiesAreLeftOut(String line) {
    for (String written :
        new String[] {
          logged(line, null), logged("failed", new IllegalStateException("with " + line))
        }) {
      assertThat(written).contains("left out)").doesNotContain(PAIR, SEALED);
    }
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "Basic seed of HYB-01 is owed",
        "The basic category comes first",
        "kornspur-session was no cookie",
        "Authorization: none"
      })
  void allElseStays(String line) {
    assertThat(logged(line, null)).isEqualTo(line + " null");
  }

  @Test
  void parametersAreFilledInBeforeTheSearch() {
    LogRecord entry = new LogRecord(Level.INFO, "{0} {1}");
    entry.setParameters(new Object[] {"Basic", PAIR});
    assertThat(filter.isLoggable(entry)).isTrue();
    assertThat(ExtLogRecord.wrap(entry).getFormattedMessage()).doesNotContain(PAIR);
  }
}
