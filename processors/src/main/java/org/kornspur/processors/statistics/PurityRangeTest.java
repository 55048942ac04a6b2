package org.kornspur.processors.statistics;

import java.util.Arrays;

/**
 * Whether one container stands off the others: the range test of analytical purity for free-flowing
 * seed at 1 %.
 *
 * <p>Source: Decree 61/2011 of the Czech Republic, annex 1, table of the greatest range by mean and
 * number of container samples. Means under 99.3 % were not read and are refused.
 */
public final class PurityRangeTest {

  private static final BandedTable FIVE_TO_NINE = BandedTable.read("range-purity-5-9");
  private static final BandedTable TEN_TO_NINETEEN = BandedTable.read("range-purity-10-19");
  private static final BandedTable TWENTY = BandedTable.read("range-purity-20");

  private PurityRangeTest() {}

  /**
   * Judges the range between container samples.
   *
   * @param purityPercent analytical purity of each container sample, percent
   */
  public static Agreement judge(double... purityPercent) {
    if (purityPercent.length < 5) {
      return new Agreement.NotTabulated(new NoTable.NumberOfContainers(purityPercent.length));
    }
    var results = Arrays.stream(purityPercent).summaryStatistics();
    return Agreement.by(
        table(purityPercent.length), results.getAverage(), results.getMax() - results.getMin());
  }

  /** The column for a number of container samples; 20 and more share one. */
  static BandedTable table(int samples) {
    if (samples < 10) {
      return FIVE_TO_NINE;
    }
    return samples < 20 ? TEN_TO_NINETEEN : TWENTY;
  }
}
