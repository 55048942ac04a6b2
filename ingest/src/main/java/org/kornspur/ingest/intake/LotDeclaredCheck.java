package org.kornspur.ingest.intake;

import java.time.Duration;
import java.time.ZoneOffset;
import org.kornspur.contract.LotDeclared;
import org.kornspur.ingest.problem.TimeProblem;
import org.kornspur.ingest.statement.Value.Amount;

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
          new TimeProblem.HarvestedAfterRecorded(new Amount(latestYear, "year")));
    }
  }
}
