package org.kornspur.api.security.login;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.ws.rs.core.NewCookie;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.Base64;
import java.util.Optional;
import org.kornspur.api.security.AccessSettings;
import org.kornspur.api.security.Caller;
import org.kornspur.api.security.people.People;
import org.kornspur.api.storage.SymmetricKey;
import org.kornspur.api.time.SteadyClock;

/**
 * Log-ins kept in a cookie: who, and since when, sealed with AES-256-GCM (NIST SP 800-38D) under a
 * key that stands beside the people file. A cookie that was altered, is too old, or is older than
 * the person's last password, roles or log-out, is none.
 */
@ApplicationScoped
public class Sessions {

  /** Name of the cookie. */
  public static final String COOKIE = "kornspur-session";

  private static final int LONGEST_COOKIE = 1_000;

  /** So far clocks of several instances may be apart. */
  private static final Duration MOST_AHEAD = Duration.ofMinutes(1);

  private final People people;
  private final Duration length;
  private final SymmetricKey key;
  private final Clock clock = SteadyClock.ofMachine();

  Sessions(AccessSettings settings, People people) {
    this.people = people;
    this.length = settings.sessionLength();
    Path beside =
        settings
            .peopleFile()
            .map(file -> file.toAbsolutePath().getParent())
            .orElse(settings.dataFolder());
    this.key = SymmetricKey.in(beside.resolve("session.key"));
  }

  /**
   * The cookie for a person who just gave the right password.
   *
   * @param secure whether the request came by TLS; the cookie then only goes that way
   */
  public NewCookie begin(Caller caller, boolean secure) {
    String content = since(caller).toEpochMilli() + " " + caller.personId();
    return cookie(key.seal(content, ""), (int) length.toSeconds(), secure);
  }

  /** The cookie that takes the cookie away. */
  public NewCookie end(boolean secure) {
    return cookie("", 0, secure);
  }

  private static NewCookie cookie(String value, int maxAgeSeconds, boolean secure) {
    return new NewCookie.Builder(COOKIE)
        .value(value)
        .path("/")
        .maxAge(maxAgeSeconds)
        .httpOnly(true)
        .secure(secure)
        .sameSite(NewCookie.SameSite.STRICT)
        .build();
  }

  /** Who a cookie stands for; empty where it stands for nobody any more. */
  Optional<Caller> read(String cookie) {
    return cookie.isEmpty() || cookie.length() > LONGEST_COOKIE
        ? Optional.empty()
        : key.open(cookie, "").flatMap(this::caller);
  }

  private Optional<Caller> caller(String content) {
    int space = content.indexOf(' ');
    Instant since = Instant.ofEpochMilli(Long.parseLong(content.substring(0, space)));
    Instant now = clock.instant();
    if (since.plus(length).isBefore(now)) {
      return Optional.empty();
    }
    return people
        .find(content.substring(space + 1))
        .filter(
            person ->
                !person.disabled()
                    && person.sessionsFrom().toEpochMilli() <= since.toEpochMilli()
                    && !isAhead(since, now, person.sessionsFrom()))
        .map(person -> person.caller(Caller.Proof.SESSION, since));
  }

  /**
   * A log-in from before the clock was set back, while the program was stopped, would outlive a
   * log-out of today. One made since then counts from the last change of the person at least.
   */
  private static boolean isAhead(Instant since, Instant now, Instant sessionsFrom) {
    return since.isAfter(now.plus(MOST_AHEAD)) && since.isAfter(sessionsFrom);
  }

  /**
   * What a page puts into its forms as {@code csrfToken}, and a script into the header {@code
   * X-CSRF-Token}: only who can read a page of the session knows it.
   */
  public String formToken(Caller caller) {
    return Base64.getUrlEncoder()
        .withoutPadding()
        .encodeToString(
            key.mac(
                ("form" + caller.personId()).getBytes(StandardCharsets.UTF_8),
                ByteBuffer.allocate(Long.BYTES).putLong(since(caller).toEpochMilli()).array()));
  }

  boolean isFormToken(Caller caller, String given) {
    return given != null
        && MessageDigest.isEqual(
            formToken(caller).getBytes(StandardCharsets.UTF_8),
            given.getBytes(StandardCharsets.UTF_8));
  }

  private static Instant since(Caller caller) {
    return caller
        .authenticatedAt()
        .orElseThrow(() -> new IllegalStateException("Only who gave a password here has a cookie"));
  }
}
