package org.kornspur.api.security.visibility;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.security.GeneralSecurityException;
import java.security.SecureRandom;
import java.util.Base64;
import java.util.Optional;
import javax.crypto.Cipher;
import javax.crypto.Mac;
import javax.crypto.spec.GCMParameterSpec;
import javax.crypto.spec.SecretKeySpec;
import org.kornspur.api.kafka.InternalSecret;

/**
 * Marks by which a caller goes on where it stopped. How far a list or topic had been read counts
 * what others did since, so a caller without whole visibility is given it encrypted, each time
 * again and filled up to whole blocks: two marks tell nothing, not even whether they are the same.
 * The key comes from the secret that all instances of a site share; each can read the marks of the
 * others.
 *
 * <p>Source: NIST SP 800-38D (GCM), with a random IV of 96 bits.
 */
@ApplicationScoped
public class CursorCipher {

  /** What a mark is for; one of another use is not read. */
  public enum Use {
    LIVE_STREAM,
    EVENT_PAGE
  }

  private static final String CIPHER = "AES/GCM/NoPadding";
  private static final int IV_BYTES = 12;
  private static final int TAG_BITS = 128;
  private static final int BLOCK = 128;
  private static final int LONGEST_MARK = 8_000;

  private final SecretKeySpec key;
  private final SecureRandom random = new SecureRandom();

  @Inject
  public CursorCipher(InternalSecret secret) {
    this(secret.value());
  }

  CursorCipher(String secret) {
    this.key = new SecretKeySpec(derived(secret), "AES");
  }

  private static byte[] derived(String secret) {
    try {
      Mac mac = Mac.getInstance("HmacSHA256");
      mac.init(new SecretKeySpec(secret.getBytes(StandardCharsets.UTF_8), "HmacSHA256"));
      return mac.doFinal("Kornspur bookmarks".getBytes(StandardCharsets.US_ASCII));
    } catch (GeneralSecurityException e) {
      throw new IllegalStateException("This Java has no HmacSHA256", e);
    }
  }

  /** The place as the holder of this visibility is told it. */
  public String told(Visibility visibility, Use use, String place) {
    return visibility.isWhole() ? place : encrypted(use, place);
  }

  /** The place that a mark stands for; empty where it is none that this visibility was given. */
  public Optional<String> read(Visibility visibility, Use use, String mark) {
    return visibility.isWhole() ? Optional.of(mark) : decrypted(use, mark);
  }

  private String encrypted(Use use, String place) {
    byte[] iv = new byte[IV_BYTES];
    random.nextBytes(iv);
    String filled = place + " ".repeat(BLOCK - place.length() % BLOCK);
    try {
      byte[] text =
          cipher(Cipher.ENCRYPT_MODE, use, iv).doFinal(filled.getBytes(StandardCharsets.US_ASCII));
      return Base64.getUrlEncoder()
          .withoutPadding()
          .encodeToString(ByteBuffer.allocate(iv.length + text.length).put(iv).put(text).array());
    } catch (GeneralSecurityException e) {
      throw new IllegalStateException("A mark cannot be encrypted", e);
    }
  }

  private Optional<String> decrypted(Use use, String mark) {
    if (mark.length() > LONGEST_MARK) {
      return Optional.empty();
    }
    try {
      ByteBuffer bytes = ByteBuffer.wrap(Base64.getUrlDecoder().decode(mark));
      if (bytes.remaining() <= IV_BYTES) {
        return Optional.empty();
      }
      byte[] iv = new byte[IV_BYTES];
      bytes.get(iv);
      byte[] text = new byte[bytes.remaining()];
      bytes.get(text);
      byte[] place = cipher(Cipher.DECRYPT_MODE, use, iv).doFinal(text);
      return Optional.of(new String(place, StandardCharsets.US_ASCII).strip());
    } catch (GeneralSecurityException | IllegalArgumentException noneOfOurs) {
      return Optional.empty();
    }
  }

  private Cipher cipher(int mode, Use use, byte[] iv) throws GeneralSecurityException {
    Cipher cipher = Cipher.getInstance(CIPHER);
    cipher.init(mode, key, new GCMParameterSpec(TAG_BITS, iv));
    cipher.updateAAD(use.name().getBytes(StandardCharsets.US_ASCII));
    return cipher;
  }
}
