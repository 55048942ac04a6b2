package org.kornspur.processors.statistics;

import java.util.Arrays;
import java.util.Optional;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.statistics.Heterogeneity.Attribute;

/**
 * Whether one container stands off the others: the range test for free-flowing seed at 1 %.
 *
 * <p>For purity from 99.3 % on the greatest range is printed in Decree 61/2011 of the Czech
 * Republic, annex 1, table 9, by mean and number of container samples. All else is computed: q √W,
 * where W is the variance that a mixed lot may have and q the 99 % point of the range of the least
 * number of samples of each column. The formula is that of S. R. Miles (1963), without W's factor
 * f, as read in A. R. da Silva, Seed Science Research 30 (2020) 59-63. All 39 cells of the decree
 * that were read agree with it, and the one cell for germination that was, 17 for 15 samples with a
 * mean of 90 %, once it is rounded up; no cell for other seeds was read, and none is rounded.
 */
public final class RangeTest {
  private static final int LEAST_SAMPLES = 5;
  private static final BandedTable FIVE_TO_NINE = BandedTable.read("range-purity-5-9");
  private static final BandedTable TEN_TO_NINETEEN = BandedTable.read("range-purity-10-19");
  private static final BandedTable TWENTY = BandedTable.read("range-purity-20");

  private static final Source COMPUTED =
      new Source("Computed from the range of normal samples at 1 %, not read in print", false);

  private RangeTest() {}

  /**
   * Judges the range between container samples.
   *
   * @param results one for each container sample: percent, or number of other seeds
   */
  public static Agreement judge(Attribute attribute, double... results) {
    if (results.length < LEAST_SAMPLES) {
      return new Agreement.NotTabulated(new NoTable.NumberOfContainers(results.length));
    }
    var found = Arrays.stream(results).summaryStatistics();
    double mean = found.getAverage();
    double range = found.getMax() - found.getMin();
    Optional<BandedTable.Band> printed =
        attribute == Attribute.PURITY ? table(results.length).at(mean) : Optional.empty();
    return printed
        .map(band -> Agreement.by(range, band.value(), unit(attribute), band.source()))
        .orElseGet(
            () ->
                attribute.testable(mean)
                    ? Agreement.by(
                        range, computed(attribute, mean, results.length), unit(attribute), COMPUTED)
                    : noRow(attribute, mean, range));
  }

  /** The column for a number of container samples; 20 and more share one. */
  static BandedTable table(int samples) {
    if (samples < 10) {
      return FIVE_TO_NINE;
    }
    return samples < 20 ? TEN_TO_NINETEEN : TWENTY;
  }

  /** Greatest range of a lot that counts as homogeneous. */
  static double computed(Attribute attribute, double mean, int samples) {
    double q = rangePoint(samples);
    return switch (attribute) {
      case PURITY -> {
        double tenths = Rounding.tenthPercent(mean);
        yield Rounding.tenthPercent(q * Math.sqrt(attribute.acceptableVariance(tenths)));
      }
      case GERMINATION ->
          Math.ceil(q * Math.sqrt(attribute.acceptableVariance(Rounding.wholePercent(mean))));
      case OTHER_SEEDS -> q * Math.sqrt(attribute.acceptableVariance(mean));
    };
  }

  /**
   * 99 % point of the range of 5, 10 or 20 normal values, in standard deviations, to two decimals
   * as the printed cells ask; H. L. Harter, Annals of Mathematical Statistics 31 (1960) 1122-1147,
   * from memory.
   */
  static double rangePoint(int samples) {
    if (samples < 10) {
      return 4.60;
    }
    return samples < 20 ? 5.16 : 5.65;
  }

  private static Agreement noRow(Attribute attribute, double mean, double range) {
    return new Agreement.NotTabulated(
        new NoTable.NoRow(
            COMPUTED.text(), new Amount(mean, ""), new Amount(range, unit(attribute))));
  }

  private static String unit(Attribute attribute) {
    return attribute == Attribute.OTHER_SEEDS ? "seeds" : FIVE_TO_NINE.unit();
  }
}
