package org.kornspur.processors.statistics;

import java.util.ArrayList;
import java.util.List;

/**
 * Off-types in a control plot.
 *
 * <p>The OECD guidelines for control plot tests give, for a standard of varietal purity and a
 * number of plants, the reject number: with so many off-types the lot is held not to conform, at a
 * risk of 5 % of refusing what is just at the standard. The numbers come from the Poisson
 * distribution. The rule was recomputed and agrees with all cells known (from memory: the
 * guidelines' table could not be read). UPOV's table by population standard comes from the exact
 * binomial; its cells for 1 % were read in a national office's guide.
 */
public final class PlotRejectNumbers {

  /** Risk of refusing a lot that is just at the standard. */
  public static final double RISK = 0.05;

  private PlotRejectNumbers() {}

  /**
   * A run of sample sizes with the same greatest number of off-types.
   *
   * @param fromPlants smallest sample size
   * @param toPlants largest sample size
   * @param mostOffTypes off-types with which the variety still agrees with the standard
   */
  public record Run(int fromPlants, int toPlants, int mostOffTypes) {}

  /**
   * Reject number of a control plot.
   *
   * @param plants plants examined
   * @param purityPercent standard of varietal purity, percent, under 100
   * @return fewest off-types with which the lot does not conform
   */
  public static int rejectNumber(int plants, double purityPercent) {
    double expected = plants * offTypeShare(purityPercent);
    int least = 1;
    while (1 - ExactPoisson.atMost(least - 1, expected) > RISK) {
      least++;
    }
    return least;
  }

  /** Reject number by the exact binomial, to stand beside the Poisson one. */
  public static int exactRejectNumber(int plants, double purityPercent) {
    return ExactBinomial.rejectNumber(plants, offTypeShare(purityPercent), RISK);
  }

  /**
   * Table by sample size for a population standard, as UPOV document TGP/8 prints it.
   *
   * @param standard share of off-types that the standard allows
   * @param acceptance probability of accepting what is just at the standard, as in 0.95
   * @param mostPlants sample size at which the table ends
   */
  public static List<Run> runs(double standard, double acceptance, int mostPlants) {
    List<Run> runs = new ArrayList<>();
    int from = 1;
    int most = ExactBinomial.acceptanceNumber(1, standard, acceptance);
    for (int plants = 2; plants <= mostPlants; plants++) {
      int here = ExactBinomial.acceptanceNumber(plants, standard, acceptance);
      if (here != most) {
        runs.add(new Run(from, plants - 1, most));
        from = plants;
        most = here;
      }
    }
    runs.add(new Run(from, mostPlants, most));
    return List.copyOf(runs);
  }

  private static double offTypeShare(double purityPercent) {
    double share = (100 - purityPercent) / 100;
    Preconditions.probability("share of off-types that the purity leaves", share);
    return share;
  }
}
