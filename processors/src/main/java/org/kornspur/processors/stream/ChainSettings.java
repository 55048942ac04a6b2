package org.kornspur.processors.stream;

import java.time.Duration;
import org.kornspur.ingest.seal.SigningKey;

/**
 * How the log of facts is sealed.
 *
 * @param key signs checkpoints
 * @param mostUnsigned records of a partition after which a checkpoint is signed at once
 * @param longestUnsigned time after which one is signed if there are new records
 */
public record ChainSettings(SigningKey key, int mostUnsigned, Duration longestUnsigned) {

  public ChainSettings {
    if (mostUnsigned < 1 || longestUnsigned.isNegative() || longestUnsigned.isZero()) {
      throw new IllegalArgumentException(
          ("Checkpoints after %s records or %s cannot be kept; give at least one record and a "
                  + "time above zero")
              .formatted(mostUnsigned, longestUnsigned));
    }
  }
}
