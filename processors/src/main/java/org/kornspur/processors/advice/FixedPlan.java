package org.kornspur.processors.advice;

import java.util.Optional;
import org.kornspur.processors.statistics.ExactBinomial;
import org.kornspur.processors.statistics.SamplingPlan;

/** The smallest count of fixed size that keeps both risks, by the exact binomial. */
final class FixedPlan {
  private static final int MOST_UNITS = 1_000_000;

  private FixedPlan() {}

  /**
   * Takes the smallest acceptance number with which some size keeps both risks, and the smallest
   * such size.
   *
   * @param acceptable share of bad units at which refusal is an error
   * @param rejectable share of bad units at which acceptance is an error
   * @param alpha greatest producer's risk
   * @param beta greatest consumer's risk
   * @return empty where that takes more than a million units
   */
  static Optional<SamplingPlan> keepingRisks(
      double acceptable, double rejectable, double alpha, double beta) {
    int least = 1;
    for (int most = 0; least <= MOST_UNITS; most++) {
      least = smallestSize(most, rejectable, beta, Math.max(least, most));
      if (least <= MOST_UNITS && ExactBinomial.atMost(most, least, acceptable) >= 1 - alpha) {
        return Optional.of(new SamplingPlan(Math.max(1, least), most));
      }
    }
    return Optional.empty();
  }

  /** The probability of acceptance falls with the size, so doubling and halving find the edge. */
  private static int smallestSize(int most, double rejectable, double beta, int from) {
    int high = Math.max(1, from);
    while (ExactBinomial.atMost(most, high, rejectable) > beta) {
      high *= 2;
      if (high > MOST_UNITS) {
        return MOST_UNITS + 1;
      }
    }
    int low = Math.max(0, from - 1);
    while (high - low > 1) {
      int middle = low + (high - low) / 2;
      if (ExactBinomial.atMost(most, middle, rejectable) > beta) {
        low = middle;
      } else {
        high = middle;
      }
    }
    return high;
  }
}
