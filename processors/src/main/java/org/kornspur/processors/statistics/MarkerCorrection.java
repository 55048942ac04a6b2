package org.kornspur.processors.statistics;

import java.util.List;

/**
 * What a count by a method that errs says of the true share, where the errors of the method are
 * known.
 *
 * <p>W. J. Rogan and B. Gladen, "Estimating prevalence from the results of a screening test",
 * American Journal of Epidemiology 107 (1978) 71-76: true share = (apparent share + specificity -
 * 1) / (sensitivity + specificity - 1). The ends of an exact interval of the apparent share are
 * carried through the same formula and cut to 0 and 1, as J. Reiczigel, J. Földi and L. Ózsvári do,
 * Epidemiology and Infection 138 (2010) 1674-1678. The rates are taken as known; how well the
 * laboratory knows them widens nothing here.
 *
 * @param falsePositive share of the good units that are called bad: 1 - specificity
 * @param falseNegative share of the bad units that are called good: 1 - sensitivity
 */
public record MarkerCorrection(double falsePositive, double falseNegative) {
  /** A method that does not err: a plot. */
  public static final MarkerCorrection NONE = new MarkerCorrection(0, 0);

  /**
   * A number of units counted by one method.
   *
   * @param units units examined
   */
  public record Counted(int units, MarkerCorrection method) {}

  /** A share with its interval. */
  public record Share(double share, Interval interval) {}

  /**
   * @throws IllegalArgumentException where a rate is no share
   */
  public MarkerCorrection {
    Preconditions.share("false-positive rate", falsePositive);
    Preconditions.share("false-negative rate", falseNegative);
  }

  /**
   * The rates of counts by several methods that are put together: the mean of each rate, weighted
   * by the units examined, for of the sum of the counts just that is expected.
   *
   * @throws IllegalArgumentException where nothing was examined
   */
  public static MarkerCorrection together(List<Counted> counts) {
    double units = counts.stream().mapToDouble(Counted::units).sum();
    Preconditions.positive("number of units examined", units);
    return new MarkerCorrection(
        counts.stream().mapToDouble(c -> c.units() * c.method().falsePositive).sum() / units,
        counts.stream().mapToDouble(c -> c.units() * c.method().falseNegative).sum() / units);
  }

  /** Whether the method tells good from bad at all: sensitivity and specificity are over 1. */
  public boolean separates() {
    return falsePositive + falseNegative < 1;
  }

  /**
   * Whether a count can tell that a limit is met: a lot with no bad unit at all must not seem to
   * reach it by the errors of the method alone.
   *
   * @param limit share of bad units
   */
  public boolean canTell(double limit) {
    return separates() && (falsePositive == 0 || falsePositive < limit);
  }

  /** Share that is called bad where {@code share} is bad. */
  public double apparent(double share) {
    return share * (1 - falseNegative) + (1 - share) * falsePositive;
  }

  /**
   * The true share, from 0 to 1.
   *
   * @param apparent share of units that were called bad
   * @throws IllegalArgumentException where the method does not separate
   */
  public double trueShare(double apparent) {
    if (!separates()) {
      throw new IllegalArgumentException(
          "A method that calls "
              + falsePositive
              + " of the good bad and "
              + falseNegative
              + " of the bad good tells nothing");
    }
    double share = (apparent - falsePositive) / (1 - falsePositive - falseNegative);
    return Math.max(0, Math.min(1, share));
  }

  /**
   * The true share with its interval.
   *
   * @param found units called bad
   * @param examined units examined
   * @throws IllegalArgumentException where the method does not separate
   */
  public Share trueShare(int found, int examined, double confidence) {
    Interval apparent = ExactBinomial.interval(found, examined, confidence);
    return new Share(
        trueShare((double) found / examined),
        new Interval(trueShare(apparent.lower()), trueShare(apparent.upper()), confidence));
  }
}
