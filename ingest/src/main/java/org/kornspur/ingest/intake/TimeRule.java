package org.kornspur.ingest.intake;

import java.time.Instant;
import java.time.LocalDate;
import org.kornspur.ingest.problem.TimeProblem;
import org.kornspur.ingest.statement.Value.Amount;

/**
 * The years in which a fact can lie: 1990 to 2100. Hybrid rye is not older; a later year is a slip
 * of the keyboard.
 */
final class TimeRule {

  private static final LocalDate FIRST_DAY = LocalDate.of(1990, 1, 1);
  private static final LocalDate LAST_DAY = LocalDate.of(2100, 12, 31);
  private static final Instant FIRST = Instant.parse("1990-01-01T00:00:00Z");
  private static final Instant END = Instant.parse("2101-01-01T00:00:00Z");

  private TimeRule() {}

  static void check(Instant instant, String path, Problems into) {
    if (instant.isBefore(FIRST) || !instant.isBefore(END)) {
      refuse(instant, path, into);
    }
  }

  static void check(LocalDate day, String path, Problems into) {
    if (day.isBefore(FIRST_DAY) || day.isAfter(LAST_DAY)) {
      refuse(day, path, into);
    }
  }

  private static void refuse(Object value, String path, Problems into) {
    into.add(
        path,
        value,
        new TimeProblem.NotInYears(
            new Amount(FIRST_DAY.getYear(), "year"), new Amount(LAST_DAY.getYear(), "year")));
  }
}
