package org.kornspur.api.security.visibility;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.nio.charset.StandardCharsets;
import java.util.Optional;
import org.kornspur.api.kafka.InternalSecret;
import org.kornspur.api.storage.SymmetricKey;

/**
 * Marks by which a caller goes on where it stopped. How far a list or topic had been read counts
 * what others did since, so a caller without whole visibility is given it encrypted, each time
 * again and filled up to whole blocks: two marks tell nothing, not even whether they are the same.
 * The key comes from the secret that all instances of a site share; each can read the marks of the
 * others.
 */
@ApplicationScoped
public class CursorCipher {

  /** What a mark is for; one of another use is not read. */
  public enum Use {
    LIVE_STREAM,
    EVENT_PAGE
  }

  private static final int BLOCK = 128;
  private static final int LONGEST_MARK = 8_000;

  private final SymmetricKey key;

  @Inject
  public CursorCipher(InternalSecret secret) {
    this(secret.value());
  }

  CursorCipher(String secret) {
    this.key =
        new SymmetricKey(
            new SymmetricKey(secret.getBytes(StandardCharsets.UTF_8))
                .mac("Kornspur bookmarks".getBytes(StandardCharsets.US_ASCII)));
  }

  /** The place as the holder of this visibility is told it. */
  public String told(Visibility visibility, Use use, String place) {
    return visibility.isWhole() ? place : key.seal(filled(place), use.name());
  }

  /** The place that a mark stands for; empty where it is none that this visibility was given. */
  public Optional<String> read(Visibility visibility, Use use, String mark) {
    if (visibility.isWhole()) {
      return Optional.of(mark);
    }
    return mark.length() > LONGEST_MARK
        ? Optional.empty()
        : key.open(mark, use.name()).map(String::strip);
  }

  private static String filled(String place) {
    return place + " ".repeat(BLOCK - place.length() % BLOCK);
  }
}
