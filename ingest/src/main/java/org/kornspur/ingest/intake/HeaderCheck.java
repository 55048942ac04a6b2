package org.kornspur.ingest.intake;

import java.time.Duration;
import org.kornspur.contract.FactHeader;

/** A fact is written down after it happened, and corrects another than itself. */
final class HeaderCheck {

  /** How far two clocks may differ: a day covers a wrong time zone. Common practice, no source. */
  static final Duration CLOCK_SKEW = Duration.ofHours(24);

  private HeaderCheck() {}

  static void check(FactHeader header, Problems into) {
    if (header.getHappenedAt().isAfter(header.getRecordedAt().plus(CLOCK_SKEW))) {
      into.add(
          "header.happenedAt",
          header.getHappenedAt(),
          "not later than recordedAt (" + header.getRecordedAt() + ") plus 24 h",
          "Check both times and their zones; nothing is recorded before it happened");
    }
    if (header.getCorrection() != null
        && header.getCorrection().getSupersedes().equals(header.getFactId())) {
      into.add(
          "header.correction.supersedes",
          header.getFactId(),
          "the id of an earlier fact, not of this one",
          "Give the correction an id of its own, and name the fact that it corrects");
    }
  }
}
