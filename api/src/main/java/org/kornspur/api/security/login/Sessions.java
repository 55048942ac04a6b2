package org.kornspur.api.security.login;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.ws.rs.core.NewCookie;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.Base64;
import java.util.Optional;
import javax.crypto.Cipher;
import javax.crypto.Mac;
import javax.crypto.spec.GCMParameterSpec;
import javax.crypto.spec.SecretKeySpec;
import org.kornspur.api.security.AccessSettings;
import org.kornspur.api.security.Caller;
import org.kornspur.api.security.people.People;
import org.kornspur.api.storage.SecretFile;

/**
 * Log-ins kept in a cookie: who, and since when, sealed with AES-256-GCM (NIST SP 800-38D) under a
 * key that stands beside the people file. A cookie that was altered, is too old, or is older than
 * the person's last password, roles or log-out, is none.
 */
@ApplicationScoped
public class Sessions {

  /** Name of the cookie. */
  public static final String COOKIE = "kornspur-session";

  private static final int KEY_BYTES = 32;
  private static final int NONCE_BYTES = 12;
  private static final int TAG_BITS = 128;
  private static final int LONGEST_COOKIE = 1_000;
  private static final SecureRandom RANDOM = new SecureRandom();

  private final People people;
  private final Duration length;
  private final SecretKeySpec key;
  private final Clock clock = Clock.systemUTC();

  @Inject
  Sessions(AccessSettings settings, People people) {
    this.people = people;
    this.length = settings.sessionLength();
    Path beside =
        settings
            .peopleFile()
            .map(file -> file.toAbsolutePath().getParent())
            .orElse(settings.dataFolder());
    this.key =
        new SecretKeySpec(SecretFile.loadOrCreate(beside.resolve("session.key"), KEY_BYTES), "AES");
  }

  /**
   * The cookie for a person who just gave the right password.
   *
   * @param secure whether the request came by TLS; the cookie then only goes that way
   */
  public NewCookie begin(Caller caller, boolean secure) {
    return cookie(seal(caller.personId(), since(caller)), (int) length.toSeconds(), secure);
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
        : open(cookie).flatMap(this::caller);
  }

  private Optional<Caller> caller(String content) {
    int space = content.indexOf(' ');
    Instant since = Instant.ofEpochMilli(Long.parseLong(content.substring(0, space)));
    if (since.plus(length).isBefore(clock.instant())) {
      return Optional.empty();
    }
    return people
        .find(content.substring(space + 1))
        .filter(
            person ->
                !person.disabled() && person.sessionsFrom().toEpochMilli() <= since.toEpochMilli())
        .map(person -> person.caller(Caller.Proof.SESSION, since));
  }

  /**
   * What a page puts into its forms as {@code csrfToken}, and a script into the header {@code
   * X-CSRF-Token}: only who can read a page of the session knows it.
   */
  public String formToken(Caller caller) {
    try {
      Mac mac = Mac.getInstance("HmacSHA256");
      mac.init(new SecretKeySpec(key.getEncoded(), "HmacSHA256"));
      mac.update("form".getBytes(StandardCharsets.UTF_8));
      mac.update(caller.personId().getBytes(StandardCharsets.UTF_8));
      mac.update(ByteBuffer.allocate(Long.BYTES).putLong(since(caller).toEpochMilli()).array());
      return Base64.getUrlEncoder().withoutPadding().encodeToString(mac.doFinal());
    } catch (GeneralSecurityException e) {
      throw new IllegalStateException("This Java has no HmacSHA256", e);
    }
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

  private String seal(String personId, Instant since) {
    byte[] nonce = new byte[NONCE_BYTES];
    RANDOM.nextBytes(nonce);
    byte[] content = (since.toEpochMilli() + " " + personId).getBytes(StandardCharsets.UTF_8);
    try {
      byte[] sealed = cipher(Cipher.ENCRYPT_MODE, nonce).doFinal(content);
      return Base64.getUrlEncoder()
          .withoutPadding()
          .encodeToString(
              ByteBuffer.allocate(nonce.length + sealed.length).put(nonce).put(sealed).array());
    } catch (GeneralSecurityException e) {
      throw new IllegalStateException("This Java has no AES-256-GCM", e);
    }
  }

  private Optional<String> open(String cookie) {
    try {
      byte[] bytes = Base64.getUrlDecoder().decode(cookie);
      if (bytes.length <= NONCE_BYTES) {
        return Optional.empty();
      }
      byte[] nonce = java.util.Arrays.copyOf(bytes, NONCE_BYTES);
      byte[] content =
          cipher(Cipher.DECRYPT_MODE, nonce)
              .doFinal(bytes, NONCE_BYTES, bytes.length - NONCE_BYTES);
      return Optional.of(new String(content, StandardCharsets.UTF_8));
    } catch (IllegalArgumentException | GeneralSecurityException notOurs) {
      return Optional.empty();
    }
  }

  private Cipher cipher(int mode, byte[] nonce) throws GeneralSecurityException {
    Cipher cipher = Cipher.getInstance("AES/GCM/NoPadding");
    cipher.init(mode, key, new GCMParameterSpec(TAG_BITS, nonce));
    return cipher;
  }
}
