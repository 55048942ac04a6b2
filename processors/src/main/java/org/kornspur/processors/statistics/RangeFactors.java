package org.kornspur.processors.statistics;

/**
 * Factors of a Shewhart chart of ranges, for samples of a normal value with three standard
 * deviations to either side: ASTM Manual on Presentation of Data and Control Chart Analysis (MNL
 * 7), table of factors; the same numbers stand in the NIST/SEMATECH e-Handbook of Statistical
 * Methods, 6.3.2.1.
 *
 * @param d2 mean of the range, in standard deviations
 * @param d3 standard deviation of the range, in standard deviations
 */
record RangeFactors(double d2, double d3) {
  /** From samples of two values on. */
  private static final double[] D2 = {
    1.128, 1.693, 2.059, 2.326, 2.534, 2.704, 2.847, 2.970, 3.078
  };

  private static final double[] D3 = {
    0.853, 0.888, 0.880, 0.864, 0.848, 0.833, 0.820, 0.808, 0.797
  };

  static final int LEAST = 2;
  static final int MOST = LEAST + D2.length - 1;

  /**
   * Of samples of so many values.
   *
   * @throws IllegalArgumentException where there are fewer than 2 or more than 10
   */
  static RangeFactors of(int values) {
    if (values < LEAST || values > MOST) {
      throw new IllegalArgumentException(
          "Factors of ranges are held for samples of %d to %d values, not of %d"
              .formatted(LEAST, MOST, values));
    }
    return new RangeFactors(D2[values - LEAST], D3[values - LEAST]);
  }

  /** Lower control limit as a multiple of the mean range (D3 of the tables). */
  double lower() {
    return Math.max(0, 1 - 3 * d3 / d2);
  }

  /** Upper control limit as a multiple of the mean range (D4 of the tables). */
  double upper() {
    return 1 + 3 * d3 / d2;
  }
}
