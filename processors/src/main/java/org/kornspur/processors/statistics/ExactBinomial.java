package org.kornspur.processors.statistics;

import org.apache.commons.statistics.distribution.BetaDistribution;
import org.apache.commons.statistics.distribution.BinomialDistribution;

/**
 * Counts of bad units among units examined one by one: plants, ears, seedlings, kernels.
 *
 * <p>All probabilities are exact binomial. The interval is that of C. J. Clopper and E. S. Pearson,
 * "The use of confidence or fiducial limits illustrated in the case of the binomial", Biometrika 26
 * (1934) 404-413.
 */
public final class ExactBinomial {

  private ExactBinomial() {}

  /**
   * Clopper-Pearson interval of the share of bad units.
   *
   * @param bad bad units found
   * @param examined units examined
   * @param confidence two-sided, as in 0.95
   * @return the interval, as shares
   * @throws IllegalArgumentException where the count does not fit the number examined
   */
  public static Interval interval(int bad, int examined, double confidence) {
    return interval(bad, examined, 1, confidence);
  }

  /**
   * The interval where each unit is worth {@code factor} times less than a single one.
   *
   * @param factor 1 or more
   */
  static Interval interval(int bad, int examined, double factor, double confidence) {
    Preconditions.count(bad, examined);
    Preconditions.probability("confidence", confidence);
    double tail = (1 - confidence) / 2;
    double good = (examined - bad) / factor;
    return new Interval(
        lower(bad / factor, good, tail), upper(bad / factor, good, tail), confidence);
  }

  private static double lower(double bad, double good, double tail) {
    if (bad == 0) {
      return 0;
    }
    return good == 0
        ? Math.pow(tail, 1 / bad)
        : BetaDistribution.of(bad, good + 1).inverseCumulativeProbability(tail);
  }

  private static double upper(double bad, double good, double tail) {
    if (good == 0) {
      return 1;
    }
    return bad == 0
        ? -Math.expm1(Math.log(tail) / good)
        : BetaDistribution.of(bad + 1, good).inverseSurvivalProbability(tail);
  }

  /** Probability of at most {@code bad} bad units among {@code examined} at true share. */
  public static double atMost(int bad, int examined, double share) {
    Preconditions.share("true share", share);
    return BinomialDistribution.of(examined, share).cumulativeProbability(bad);
  }

  /** Probability of at least {@code bad} bad units among {@code examined} at true share. */
  public static double atLeast(int bad, int examined, double share) {
    Preconditions.share("true share", share);
    return BinomialDistribution.of(examined, share).survivalProbability(bad - 1);
  }

  /**
   * Acceptance number: the most bad units with which a sample still agrees with the standard, that
   * is the smallest k with P(X at most k) at least {@code acceptance}.
   *
   * <p>This is the rule of UPOV document TGP/8, "The method of uniformity assessment on the basis
   * of off-types", with its acceptance probability of 0.95.
   *
   * @param examined units examined
   * @param standard share of bad units that the standard allows
   * @param acceptance least probability of accepting what is just at the standard, as in 0.95
   */
  public static int acceptanceNumber(int examined, double standard, double acceptance) {
    Preconditions.count(0, examined);
    Preconditions.share("standard", standard);
    Preconditions.probability("probability of acceptance", acceptance);
    BinomialDistribution found = BinomialDistribution.of(examined, standard);
    int most = found.inverseCumulativeProbability(acceptance);
    while (most > 0 && found.cumulativeProbability(most - 1) >= acceptance) {
      most--;
    }
    while (found.cumulativeProbability(most) < acceptance) {
      most++;
    }
    return most;
  }

  /**
   * Reject number: the fewest bad units that speak against the standard, that is the smallest r
   * with P(X at least r) at most {@code risk}. One more than the acceptance number at 1 - risk.
   *
   * @param risk greatest probability of rejecting what is just at the standard, as in 0.05
   */
  public static int rejectNumber(int examined, double standard, double risk) {
    Preconditions.count(0, examined);
    Preconditions.share("standard", standard);
    Preconditions.probability("risk", risk);
    BinomialDistribution found = BinomialDistribution.of(examined, standard);
    int least = found.inverseSurvivalProbability(risk) + 1;
    while (least > 0 && found.survivalProbability(least - 2) <= risk) {
      least--;
    }
    while (found.survivalProbability(least - 1) > risk) {
      least++;
    }
    return least;
  }
}
