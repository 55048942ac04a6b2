package org.kornspur.processors.statistics;

import java.util.Arrays;
import org.apache.commons.statistics.distribution.ChiSquaredDistribution;

/**
 * Whether the containers of a lot differ more among each other than a mixed lot's may: the H value.
 *
 * <p>With N container samples of mean X, W = X (100 - X) f / n for percentages of n seeds and W = X
 * f for counts; V is the variance between the samples; H = V/W - f, reported as 0 where negative. H
 * over the critical value at 1 % means heterogeneous. Formulas and both worked examples were read
 * in a reprinted chapter on seed testing, which cites the International Rules for Seed Testing of
 * 2010, tables 2C and 2D.
 *
 * <p>The critical value is computed as f (q/(N - 1) - 1), where q is the 99 % point of chi-squared
 * with N - 1 degrees of freedom. The one printed cell that could be read, 1.09 for N = 20 and f =
 * 1.2, agrees, and so do the cells known from memory but for one unit of the last digit. Note for
 * the analyst: this critical value belongs to a W without f, so the printed W, which has it, makes
 * the test lenient; the printed formula governs.
 *
 * @param samples number of container samples N
 * @param mean mean of the results
 * @param acceptableVariance W
 * @param observedVariance V
 * @param h the H value, 0 or more
 * @param critical greatest H of a lot that counts as homogeneous
 */
public record Heterogeneity(
    int samples,
    double mean,
    double acceptableVariance,
    double observedVariance,
    double h,
    double critical) {

  /** What was tested; f by the International Rules for seed that is not chaffy, as rye is not. */
  public enum Attribute {
    /** Percent by weight in samples of 1,000 seeds; f from memory, not verified. */
    PURITY(1000, 1.1),
    /** Percent of 100 seeds; f from memory, not verified. */
    GERMINATION(100, 1.1),
    /** Number in the weight of 10,000 seeds; f read in the second worked example. */
    OTHER_SEEDS(10_000, 1.4);

    /** Seeds in each container sample. */
    private final int seedsEach;

    /** Factor f by which a well-mixed lot may still vary beyond chance. */
    private final double factor;

    Attribute(int seedsEach, double factor) {
      this.seedsEach = seedsEach;
      this.factor = factor;
    }

    /** W, the variance that a mixed lot of this mean may have; f is within it. */
    double acceptableVariance(double mean) {
      return this == OTHER_SEEDS ? mean * factor : ofShares(mean, seedsEach, factor);
    }

    /**
     * Whether a lot with this mean is tested at all. Outside 50 to 99.8 % purity, 9 to 99 %
     * germination or under 2 other seeds a sample no H value is reported: International Rules for
     * Seed Testing, from memory, not verified.
     */
    public boolean testable(double mean) {
      return switch (this) {
        case PURITY -> mean >= 50 && mean <= 99.8;
        case GERMINATION -> mean >= 9 && mean <= 99;
        case OTHER_SEEDS -> mean >= 2;
      };
    }
  }

  private static final double LEVEL = 0.99;

  /** Tests a lot of rye by one attribute of each container sample. */
  public static Heterogeneity of(Attribute attribute, double... results) {
    return attribute == Attribute.OTHER_SEEDS
        ? ofCounts(attribute.factor, results)
        : ofPercentages(attribute.seedsEach, attribute.factor, results);
  }

  /**
   * From percentages, one for each container sample.
   *
   * @param seedsEach seeds in each sample
   * @param factor factor f
   * @throws IllegalArgumentException for fewer than two samples, or a mean of 0 or 100
   */
  public static Heterogeneity ofPercentages(int seedsEach, double factor, double... results) {
    double mean = mean(results);
    if (!(mean > 0 && mean < 100)) {
      throw new IllegalArgumentException(
          "Samples that are all 0 or all 100 % leave nothing to compare; the mean is " + mean);
    }
    return from(results, mean, ofShares(mean, seedsEach, factor), factor);
  }

  /**
   * From counts, one for each container sample.
   *
   * @throws IllegalArgumentException for fewer than two samples, or a mean of 0
   */
  public static Heterogeneity ofCounts(double factor, double... results) {
    double mean = mean(results);
    if (!(mean > 0)) {
      throw new IllegalArgumentException("Counts of nothing leave nothing to compare");
    }
    return from(results, mean, mean * factor, factor);
  }

  /** Greatest H of a lot that counts as homogeneous, to two decimals as in print. */
  public static double critical(int samples, double factor) {
    int freedom = samples - 1;
    double q = ChiSquaredDistribution.of(freedom).inverseCumulativeProbability(LEVEL);
    return Math.round(factor * (q / freedom - 1) * 100) / 100.0;
  }

  /** Whether the lot is heterogeneous: to be mixed again, or divided. */
  public boolean heterogeneous() {
    return h > critical;
  }

  /** W of percentages. */
  private static double ofShares(double mean, int seedsEach, double factor) {
    return mean * (100 - mean) / seedsEach * factor;
  }

  private static Heterogeneity from(double[] results, double mean, double acceptable, double f) {
    double squares = Arrays.stream(results).map(x -> (x - mean) * (x - mean)).sum();
    double observed = squares / (results.length - 1);
    double h = Math.max(0, observed / acceptable - f);
    return new Heterogeneity(
        results.length, mean, acceptable, observed, h, critical(results.length, f));
  }

  private static double mean(double[] results) {
    if (results.length < 2) {
      throw new IllegalArgumentException(
          "Heterogeneity needs the results of at least two containers; there are "
              + results.length);
    }
    return Arrays.stream(results).sum() / results.length;
  }
}
