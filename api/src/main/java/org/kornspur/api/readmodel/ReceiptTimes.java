package org.kornspur.api.readmodel;

import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import org.kornspur.contract.FactHeader;

/** When the log received each fact, by its own clock and not by what the sender claims. */
public interface ReceiptTimes {
  /** Sheets and files are sent within this; common practice, no source. */
  Duration USUAL = Duration.ofDays(2);

  /**
   * A fact that was received long after it was recorded.
   *
   * @param days whole days between the two
   */
  record Late(Instant receivedAt, long days) {}

  /** When a fact was first received; empty where the log kept the time of the sender. */
  Optional<Instant> receivedAt(String factId);

  /** How late a fact was received; empty where that was within {@link #USUAL}. */
  default Optional<Late> late(FactHeader header) {
    return receivedAt(header.getFactId())
        .filter(at -> at.isAfter(header.getRecordedAt().plus(USUAL)))
        .map(at -> new Late(at, Duration.between(header.getRecordedAt(), at).toDays()));
  }
}
