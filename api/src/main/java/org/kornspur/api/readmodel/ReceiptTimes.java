package org.kornspur.api.readmodel;

import java.time.Duration;
import java.time.Instant;
import java.util.Comparator;
import java.util.Optional;
import org.kornspur.contract.FactHeader;
import org.kornspur.standing.LotRelease;

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

  /**
   * Since when a release is as it is. Of one that facts suspended it is when the first of them was
   * received, for that they were recorded earlier is what their sender claims; never before the
   * release itself.
   */
  default Optional<Instant> since(LotRelease release) {
    Optional<Instant> claimed = Optional.ofNullable(release.getSince());
    return release.getCauses().stream()
        .flatMap(factId -> receivedAt(factId).stream())
        .min(Comparator.naturalOrder())
        .filter(received -> claimed.filter(received::isBefore).isEmpty())
        .or(() -> claimed);
  }

  /** How late a fact was received; empty where that was within {@link #USUAL}. */
  default Optional<Late> late(FactHeader header) {
    return receivedAt(header.getFactId())
        .filter(at -> at.isAfter(header.getRecordedAt().plus(USUAL)))
        .map(at -> new Late(at, Duration.between(header.getRecordedAt(), at).toDays()));
  }
}
