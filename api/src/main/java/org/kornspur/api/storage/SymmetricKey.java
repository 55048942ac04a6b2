package org.kornspur.api.storage;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.security.SecureRandom;
import java.util.Arrays;
import java.util.Base64;
import java.util.Optional;
import javax.crypto.Cipher;
import javax.crypto.Mac;
import javax.crypto.spec.GCMParameterSpec;
import javax.crypto.spec.SecretKeySpec;

/**
 * A secret of this site, under which texts are sealed and other secrets derived.
 *
 * <p>Sources: NIST SP 800-38D, AES-256-GCM with a random IV of 96 bits; RFC 2104, HMAC, with
 * SHA-256.
 */
public final class SymmetricKey {
  private static final int BYTES = 32;
  private static final int IV_BYTES = 12;
  private static final int TAG_BITS = 128;
  private static final SecureRandom RANDOM = new SecureRandom();

  private final byte[] key;

  public SymmetricKey(byte[] key) {
    this.key = key.clone();
  }

  /** The key that a file keeps, made at the first start. */
  public static SymmetricKey in(Path file) {
    return new SymmetricKey(SecretFile.loadOrCreate(file, BYTES));
  }

  /** A key that dies with the process. */
  public static SymmetricKey random() {
    return new SymmetricKey(randomBytes(BYTES));
  }

  private static byte[] randomBytes(int length) {
    byte[] bytes = new byte[length];
    RANDOM.nextBytes(bytes);
    return bytes;
  }

  /** HMAC of some bytes, 32 bytes long. */
  public byte[] mac(byte[]... parts) {
    try {
      Mac mac = Mac.getInstance("HmacSHA256");
      mac.init(new SecretKeySpec(key, mac.getAlgorithm()));
      for (byte[] part : parts) {
        mac.update(part);
      }
      return mac.doFinal();
    } catch (GeneralSecurityException e) {
      throw new IllegalStateException("This Java has no HmacSHA256", e);
    }
  }

  /**
   * A text that only this key opens, and only for the same use; in base64url.
   *
   * @param use what it is for; may be empty
   */
  public String seal(String text, String use) {
    byte[] iv = randomBytes(IV_BYTES);
    try {
      byte[] sealed =
          cipher(Cipher.ENCRYPT_MODE, iv, use).doFinal(text.getBytes(StandardCharsets.UTF_8));
      return Base64.getUrlEncoder()
          .withoutPadding()
          .encodeToString(
              ByteBuffer.allocate(iv.length + sealed.length).put(iv).put(sealed).array());
    } catch (GeneralSecurityException e) {
      throw new IllegalStateException("This Java has no AES-256-GCM", e);
    }
  }

  /** The text that was sealed; empty where it was not sealed so, or was altered. */
  public Optional<String> open(String sealed, String use) {
    try {
      byte[] bytes = Base64.getUrlDecoder().decode(sealed);
      if (bytes.length <= IV_BYTES) {
        return Optional.empty();
      }
      byte[] text =
          cipher(Cipher.DECRYPT_MODE, Arrays.copyOf(bytes, IV_BYTES), use)
              .doFinal(bytes, IV_BYTES, bytes.length - IV_BYTES);
      return Optional.of(new String(text, StandardCharsets.UTF_8));
    } catch (IllegalArgumentException | GeneralSecurityException notOurs) {
      return Optional.empty();
    }
  }

  private Cipher cipher(int mode, byte[] iv, String use) throws GeneralSecurityException {
    Cipher cipher = Cipher.getInstance("AES/GCM/NoPadding");
    cipher.init(mode, new SecretKeySpec(key, "AES"), new GCMParameterSpec(TAG_BITS, iv));
    cipher.updateAAD(use.getBytes(StandardCharsets.UTF_8));
    return cipher;
  }
}
