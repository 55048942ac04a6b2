package org.kornspur.processors.statistics;

import java.util.Arrays;
import java.util.SplittableRandom;
import org.apache.commons.statistics.distribution.ChiSquaredDistribution;

/**
 * How far counts of several samples of one thing lie apart, against what chance makes of samples of
 * a well-mixed one: Pearson's chi-squared of homogeneity, and its ratio to the degrees of freedom.
 *
 * <p>Intervals are widened by that ratio, never narrowed: of counts that lie apart twice as far the
 * sample is worth half. That is the quasi-likelihood of R. W. M. Wedderburn, Biometrika 61 (1974)
 * 439-447, with exact limits at the effective number as E. L. Korn and B. I. Graubard have them,
 * Survey Methodology 24 (1998) 193-201; both from memory.
 */
public final class Dispersion {
  private static final int SIMULATIONS = 1999;

  /** Below this an expected count is too small for the chi-squared distribution; W. G. Cochran. */
  private static final double LEAST_EXPECTED = 5;

  /** More cannot be simulated while somebody waits. */
  private static final long MOST_SIMULATED = 5_000;

  /** Fixed, so that the same counts have the same answer. */
  private static final long SEED = 61_2011;

  private final double[] found;
  private final double[] among;
  private final boolean isOfShares;
  private final double foundInAll;
  private final double amongAll;

  private Dispersion(double[] found, double[] among, boolean isOfShares) {
    this.found = found;
    this.among = among;
    this.isOfShares = isOfShares;
    this.foundInAll = Arrays.stream(found).sum();
    this.amongAll = Arrays.stream(among).sum();
  }

  /**
   * Of units examined one by one, binomial.
   *
   * @param found units found, for each sample
   * @param examined units examined
   * @throws IllegalArgumentException for fewer than two samples, or counts that do not fit
   */
  public static Dispersion ofShares(int[] found, int[] examined) {
    check(found.length, examined.length);
    for (int i = 0; i < found.length; i++) {
      Preconditions.count(found[i], examined[i]);
    }
    return new Dispersion(doubles(found), doubles(examined), true);
  }

  /**
   * Of things counted over areas or masses, Poisson.
   *
   * @param found things found, for each sample
   * @param exposure what was looked through
   * @throws IllegalArgumentException for fewer than two samples, or what cannot be
   */
  public static Dispersion ofRates(int[] found, double[] exposure) {
    check(found.length, exposure.length);
    Arrays.stream(exposure).forEach(each -> Preconditions.positive("exposure", each));
    return new Dispersion(doubles(found), exposure.clone(), false);
  }

  public int samples() {
    return found.length;
  }

  public int freedom() {
    return found.length - 1;
  }

  /** Share or rate over all samples. */
  public double mean() {
    return foundInAll / amongAll;
  }

  /** Pearson's chi-squared; 0 where nothing was found, or nothing else. */
  public double chiSquared() {
    return chiSquared(found);
  }

  /** How many times as far apart as chance makes them; 1 where they are not further. */
  public double factor() {
    return Math.max(1, chiSquared() / freedom());
  }

  /** Whether the chi-squared distribution is too rough and the probability is simulated. */
  public boolean isSimulated() {
    double rarer = isOfShares ? Math.min(foundInAll, amongAll - foundInAll) : foundInAll;
    double least = Arrays.stream(among).min().orElseThrow() * rarer / amongAll;
    return least < LEAST_EXPECTED && rarer <= MOST_SIMULATED;
  }

  /**
   * Probability of counts as far apart, or further, where all samples are of one well-mixed thing:
   * by chi-squared, or by simulation with the same totals where few are expected.
   */
  public double probability() {
    if (chiSquared() == 0) {
      return 1;
    }
    return isSimulated()
        ? simulated()
        : ChiSquaredDistribution.of(freedom()).survivalProbability(chiSquared());
  }

  /** The interval of the share or rate over all samples, widened by the factor. */
  public Interval interval(double confidence) {
    return isOfShares
        ? share((int) foundInAll, (int) amongAll, factor(), confidence)
        : rate((int) foundInAll, amongAll, factor(), confidence);
  }

  /** Interval of a share where the units examined are worth less than single ones. */
  public static Interval share(int found, int examined, double factor, double confidence) {
    return ExactBinomial.interval(found, examined, factor, confidence);
  }

  /** Interval of a rate where what was counted is worth less than single things. */
  public static Interval rate(int found, double exposure, double factor, double confidence) {
    return ExactPoisson.interval(found / factor, exposure / factor, confidence);
  }

  private double chiSquared(double[] counts) {
    double share = mean();
    double spread = isOfShares ? share * (1 - share) : share;
    if (spread <= 0) {
      return 0;
    }
    double sum = 0;
    for (int i = 0; i < counts.length; i++) {
      double off = counts[i] - among[i] * share;
      sum += off * off / (among[i] * spread);
    }
    return sum;
  }

  private double simulated() {
    SplittableRandom random = new SplittableRandom(SEED);
    double[] upTo = among.clone();
    Arrays.parallelPrefix(upTo, Double::sum);
    boolean isRare = !isOfShares || foundInAll <= amongAll - foundInAll;
    int draws = (int) (isRare ? foundInAll : amongAll - foundInAll);
    double asFar = chiSquared() * (1 - 1e-9);
    int further = 0;
    for (int i = 0; i < SIMULATIONS; i++) {
      double[] drawn = drawn(draws, upTo, random);
      if (!isRare) {
        for (int j = 0; j < drawn.length; j++) {
          drawn[j] = among[j] - drawn[j];
        }
      }
      if (chiSquared(drawn) >= asFar) {
        further++;
      }
    }
    return (1.0 + further) / (1 + SIMULATIONS);
  }

  /** So many drawn by chance from all samples together; of shares without putting back. */
  private double[] drawn(int draws, double[] upTo, SplittableRandom random) {
    double[] drawn = new double[among.length];
    for (int left = draws; left > 0; ) {
      int at = Arrays.binarySearch(upTo, random.nextDouble() * amongAll);
      int sample = Math.min(at < 0 ? -at - 1 : at + 1, among.length - 1);
      if (!isOfShares || random.nextDouble() * among[sample] >= drawn[sample]) {
        drawn[sample]++;
        left--;
      }
    }
    return drawn;
  }

  private static void check(int counts, int wholes) {
    if (counts < 2 || counts != wholes) {
      throw new IllegalArgumentException(
          "Two samples or more are compared, each with what it was counted in; there are "
              + counts
              + " counts and "
              + wholes
              + " wholes");
    }
  }

  private static double[] doubles(int[] counts) {
    return Arrays.stream(counts).asDoubleStream().toArray();
  }
}
