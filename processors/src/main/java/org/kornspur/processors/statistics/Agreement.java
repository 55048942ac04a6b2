package org.kornspur.processors.statistics;

import java.util.Optional;
import org.kornspur.ingest.statement.Value.Amount;

/** Whether two values of one lot agree, by a published tolerance. */
public sealed interface Agreement {

  /** A published tolerance holds. */
  sealed interface Tabulated extends Agreement {

    /** How far they lie apart, on the side that counts, in {@link #unit}. */
    double difference();

    /** The most that is tolerated. */
    double tolerated();

    String unit();

    Source source();
  }

  /** They agree. */
  record Agrees(double difference, double tolerated, String unit, Source source)
      implements Tabulated {}

  /** They lie further apart than is tolerated. */
  record Disagrees(double difference, double tolerated, String unit, Source source)
      implements Tabulated {}

  /**
   * No published tolerance holds.
   *
   * @param reason why
   */
  record NotTabulated(NoTable reason) implements Agreement {}

  /** Judges a difference by the row that holds for {@code at}. */
  static Agreement by(BandedTable table, double at, double difference) {
    Optional<BandedTable.Band> row = table.at(at);
    if (row.isEmpty()) {
      return new NotTabulated(
          new NoTable.NoRow(
              table.title(), new Amount(at, ""), new Amount(difference, table.unit())));
    }
    return by(difference, row.get().value(), table.unit(), row.get().source());
  }

  /** Judges a difference by the most that is tolerated. */
  static Agreement by(double difference, double tolerated, String unit, Source source) {
    // a tenth of a percent has no exact binary form: differences are compared in thousandths
    double rounded = Math.round(difference * 1000) / 1000.0;
    return rounded <= tolerated
        ? new Agrees(rounded, tolerated, unit, source)
        : new Disagrees(rounded, tolerated, unit, source);
  }
}
