package org.kornspur.processors.statistics;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.statistics.distribution.NormalDistribution;

/**
 * What theory says of the range between replicates of 100 seeds, to stand beside the published
 * table and never to replace it.
 *
 * <p>Two theories, both at a risk of 2.5 %. The normal one takes the range of that many standard
 * normal values, times the binomial standard deviation: S. R. Miles, "Handbook of tolerances and of
 * measures of precision for seed testing", Proceedings of the International Seed Testing
 * Association 28 (1963) 525-686 (from memory, not verified). The exact one counts the ways in which
 * the seedlings that were found can fall on replicates of 100 seeds, as "Expected variance between
 * seed germination test replicate results", Seed Science and Technology 46 (2018) 2, proposes for
 * its exact test.
 */
public final class ReplicateRangeTheory {

  /** Risk of sending a sound test back. */
  public static final double RISK = 0.025;

  private static final int SEEDS = 100;
  private static final NormalDistribution STANDARD_NORMAL = NormalDistribution.of(0, 1);
  private static final int INTEGRATION_STEPS = 2000;
  private static final double INTEGRATION_REACH = 8;

  private ReplicateRangeTheory() {}

  /**
   * A mean at which table and theory are compared.
   *
   * @param meanPercent mean germination in whole percent
   * @param published largest range by the table, which governs
   * @param normal the same by the normal theory, to the nearest whole number
   * @param exact the same by the exact theory
   */
  public record Cell(int meanPercent, int published, int normal, int exact) {

    /** Whether either theory differs from the table. */
    public boolean differs() {
      return published != normal || published != exact;
    }
  }

  /** Every mean that the table for this number of replicates has, beside both theories. */
  public static List<Cell> cells(BandedTable table, int replicates) {
    List<Cell> cells = new ArrayList<>();
    for (BandedTable.Band band : table.bands()) {
      for (int mean = (int) band.to(); mean >= band.from(); mean--) {
        cells.add(
            new Cell(
                mean,
                (int) band.value(),
                Math.toIntExact(Math.round(normal(mean, replicates))),
                exact(mean, replicates)));
      }
    }
    return cells;
  }

  /** Range that normal replicates exceed with the risk; percentage points, not rounded. */
  public static double normal(int meanPercent, int replicates) {
    double low = 0;
    double high = 20;
    while (high - low > 1e-9) {
      double middle = (low + high) / 2;
      if (1 - rangeProbability(middle, replicates) > RISK) {
        low = middle;
      } else {
        high = middle;
      }
    }
    return high * Math.sqrt(meanPercent * (100.0 - meanPercent) / SEEDS);
  }

  /** Smallest range that is exceeded with no more than the risk; percentage points. */
  public static int exact(int meanPercent, int replicates) {
    int seedlings = meanPercent * replicates;
    double all = waysWithin(0, SEEDS, replicates, seedlings);
    int range = 0;
    while (1 - waysOfRange(range, replicates, seedlings) / all > RISK) {
      range++;
    }
    return range;
  }

  /** Ways in which the replicates lie no further apart than {@code range}. */
  static double waysOfRange(int range, int replicates, int seedlings) {
    double ways = 0;
    for (int lowest = 0; lowest <= SEEDS; lowest++) {
      int highest = Math.min(SEEDS, lowest + range);
      // all from lowest up, less those in which none is at lowest: lowest is then truly the lowest
      ways +=
          waysWithin(lowest, highest, replicates, seedlings)
              - waysWithin(lowest + 1, highest, replicates, seedlings);
    }
    return ways;
  }

  private static double waysWithin(int lowest, int highest, int replicates, int seedlings) {
    double[] ways = {1};
    for (int replicate = 0; replicate < replicates; replicate++) {
      double[] next = new double[ways.length + SEEDS];
      for (int before = 0; before < ways.length; before++) {
        for (int here = lowest; here <= highest && ways[before] > 0; here++) {
          next[before + here] += ways[before] * CHOOSE[here];
        }
      }
      ways = next;
    }
    return ways[seedlings];
  }

  private static final double[] CHOOSE = choose();

  private static double[] choose() {
    double[] choose = new double[SEEDS + 1];
    choose[0] = 1;
    for (int k = 1; k <= SEEDS; k++) {
      choose[k] = choose[k - 1] * (SEEDS - k + 1) / k;
    }
    return choose;
  }

  /** P(range of so many standard normal values at most w), by Simpson's rule. */
  private static double rangeProbability(double w, int values) {
    double step = 2 * INTEGRATION_REACH / INTEGRATION_STEPS;
    double sum = 0;
    for (int i = 0; i <= INTEGRATION_STEPS; i++) {
      double x = -INTEGRATION_REACH + i * step;
      double weight = i == 0 || i == INTEGRATION_STEPS ? 1 : i % 2 == 1 ? 4 : 2;
      sum +=
          weight
              * STANDARD_NORMAL.density(x)
              * Math.pow(STANDARD_NORMAL.probability(x, x + w), values - 1.0);
    }
    return values * sum * step / 3;
  }
}
