package org.kornspur.ingest.intake;

import java.time.Duration;
import java.time.ZoneOffset;
import org.kornspur.contract.LotDeclared;

/** A lot is declared after its harvest. */
final class LotDeclaredCheck {

  private LotDeclaredCheck() {}

  static void check(LotDeclared lot, Problems into) {
    int latestYear =
        lot.getHeader().getRecordedAt().plus(Duration.ofDays(1)).atZone(ZoneOffset.UTC).getYear();
    if (lot.getCropYear() > latestYear) {
      into.add(
          "cropYear",
          lot.getCropYear(),
          "not later than the year in which it was recorded (" + latestYear + ")",
          "Give the year of harvest; seed is declared as a lot once it is harvested");
    }
  }
}
