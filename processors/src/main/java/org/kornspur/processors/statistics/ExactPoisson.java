package org.kornspur.processors.statistics;

import org.apache.commons.statistics.distribution.GammaDistribution;
import org.apache.commons.statistics.distribution.PoissonDistribution;

/**
 * Counts of rare things over an area or a mass: off-type plants in square metres, seeds in a
 * weighed sample.
 *
 * <p>The interval is that of F. Garwood, "Fiducial limits for the Poisson distribution", Biometrika
 * 28 (1936) 437-442.
 */
public final class ExactPoisson {

  private ExactPoisson() {}

  /**
   * Interval of the rate, in counts for each unit of exposure.
   *
   * @param count things counted; a part of one where counts are worth less than single ones
   * @param exposure what was looked through: square metres, grams
   * @param confidence two-sided, as in 0.95
   * @throws IllegalArgumentException where the count is below 0 or the exposure is not above 0
   */
  public static Interval interval(double count, double exposure, double confidence) {
    Preconditions.probability("confidence", confidence);
    double tail = (1 - confidence) / 2;
    return new Interval(
        lowerLimit(count, exposure, tail), upperLimit(count, exposure, tail), confidence);
  }

  /** One-sided lower limit of the rate; 0 where nothing was counted. */
  public static double lowerLimit(double count, double exposure, double tail) {
    check(count, exposure, tail);
    return count == 0
        ? 0
        : GammaDistribution.of(count, 1).inverseCumulativeProbability(tail) / exposure;
  }

  /** One-sided upper limit of the rate. */
  public static double upperLimit(double count, double exposure, double tail) {
    check(count, exposure, tail);
    return GammaDistribution.of(count + 1, 1).inverseSurvivalProbability(tail) / exposure;
  }

  /** Probability of at most {@code count} where {@code mean} are expected. */
  public static double atMost(int count, double mean) {
    return mean == 0 ? 1 : PoissonDistribution.of(mean).cumulativeProbability(count);
  }

  private static void check(double count, double exposure, double tail) {
    if (!(count >= 0)) {
      throw new IllegalArgumentException("A count is 0 or more; it is " + count);
    }
    Preconditions.positive("exposure", exposure);
    Preconditions.probability("tail", tail);
  }
}
