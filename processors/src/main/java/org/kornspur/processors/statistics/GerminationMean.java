package org.kornspur.processors.statistics;

import java.util.List;

/**
 * Germination as reported: normal seedlings of all replicates in percent of the seeds set to
 * germinate, to the nearest whole percent, 0.5 up.
 *
 * <p>International Rules for Seed Testing 5.8: whole percent, from memory, not verified.
 */
public final class GerminationMean {

  private GerminationMean() {}

  /**
   * Mean germination, percent, not rounded.
   *
   * @throws IllegalArgumentException where there is no replicate
   */
  public static double percent(List<Replicate> replicates) {
    if (replicates.isEmpty()) {
      throw new IllegalArgumentException("A germination test has at least one replicate");
    }
    int seeds = replicates.stream().mapToInt(Replicate::seeds).sum();
    int normal = replicates.stream().mapToInt(Replicate::normalSeedlings).sum();
    return 100.0 * normal / seeds;
  }

  /** Mean germination in whole percent, 0.5 up. */
  public static int wholePercent(List<Replicate> replicates) {
    return Rounding.wholePercent(percent(replicates));
  }
}
