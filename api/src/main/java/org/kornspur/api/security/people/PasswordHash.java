package org.kornspur.api.security.people;

import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;
import java.security.GeneralSecurityException;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.util.Base64;
import javax.crypto.SecretKeyFactory;
import javax.crypto.spec.PBEKeySpec;

/**
 * A password as it is kept: PBKDF2 with HMAC-SHA-512 (RFC 8018, section 5.2) over a salt of its
 * own. The text form, {@code pbkdf2-sha512$iterations$salt$hash}, names its cost, so that the cost
 * can be raised later.
 *
 * <p>Source of the cost: OWASP Password Storage Cheat Sheet, PBKDF2, 210,000 iterations for
 * HMAC-SHA-512; from memory.
 */
public record PasswordHash(@JsonValue String text) {
  private static final String SCHEME = "pbkdf2-sha512";
  private static final int ITERATIONS = 210_000;
  private static final int SALT_BYTES = 16;
  private static final int HASH_BYTES = 64;
  private static final SecureRandom RANDOM = new SecureRandom();

  /**
   * Compared with where no such person is known, so that both take the same time. No password is
   * known to come to it: its hash was drawn, not derived, which would cost each start a derivation.
   */
  public static final PasswordHash OF_NOBODY =
      new PasswordHash(text(ITERATIONS, drawn(SALT_BYTES), drawn(HASH_BYTES)));

  static PasswordHash of(String password) {
    return of(password, ITERATIONS);
  }

  static PasswordHash of(String password, int iterations) {
    byte[] salt = drawn(SALT_BYTES);
    return new PasswordHash(text(iterations, salt, derive(password, salt, iterations)));
  }

  private static byte[] drawn(int length) {
    byte[] bytes = new byte[length];
    RANDOM.nextBytes(bytes);
    return bytes;
  }

  private static String text(int iterations, byte[] salt, byte[] hash) {
    return String.join("$", SCHEME, Integer.toString(iterations), base64(salt), base64(hash));
  }

  @JsonCreator(mode = JsonCreator.Mode.DELEGATING)
  public PasswordHash {
    String[] parts = text.split("\\$", -1);
    if (parts.length != 4 || !parts[0].equals(SCHEME)) {
      throw new IllegalArgumentException(
          "A password of the people file is not kept as " + SCHEME + "$iterations$salt$hash");
    }
  }

  public boolean matches(String password) {
    String[] parts = text.split("\\$", -1);
    byte[] found =
        derive(password, Base64.getDecoder().decode(parts[2]), Integer.parseInt(parts[1]));
    return MessageDigest.isEqual(found, Base64.getDecoder().decode(parts[3]));
  }

  private static byte[] derive(String password, byte[] salt, int iterations) {
    PBEKeySpec spec = new PBEKeySpec(password.toCharArray(), salt, iterations, HASH_BYTES * 8);
    try {
      return SecretKeyFactory.getInstance("PBKDF2WithHmacSHA512").generateSecret(spec).getEncoded();
    } catch (GeneralSecurityException e) {
      throw new IllegalStateException("This Java has no PBKDF2WithHmacSHA512", e);
    } finally {
      spec.clearPassword();
    }
  }

  private static String base64(byte[] bytes) {
    return Base64.getEncoder().encodeToString(bytes);
  }

  @Override
  public String toString() {
    return "a password hash";
  }
}
