package org.kornspur.processors.plan;

import java.util.EnumMap;
import java.util.Map;
import org.kornspur.processors.statistics.TriangularRange;

/**
 * Inputs of all seed in a plan.
 *
 * @param byGeneration of every generation
 * @param bySeed of single lines, crosses or hybrids, where somebody knows better
 */
public record PlanInputs(Map<Generation, SeedInputs> byGeneration, Map<String, SeedInputs> bySeed) {

  private static final double CLEANING_LOSS = 0.15;
  private static final double KERNEL_WEIGHT_G = 30;
  private static final double GERMINATION = 0.9;
  private static final double KERNELS_PER_M2 = 200;
  private static final double FEMALE_AREA = 0.75;
  private static final double CARRY_OVER_LOSS = 0.05;

  /**
   * Common practice, no source. Inbred lines bring 1 to 2.5 t/ha, single crosses 3 to 4, hybrid
   * seed 5 to 7, of the ground that bears seed; in strips that is three quarters of it. Cleaning
   * takes 10 to 25 %, a thousand kernels weigh 22 to 38 g, 150 to 250 kernels are sown on a square
   * metre, lines are multiplied every other year. Seed that is kept a year is taken to lose 5 % of
   * its viable kernels; no stock is held back.
   */
  public static PlanInputs commonPractice() {
    Map<Generation, SeedInputs> usual = new EnumMap<>(Generation.class);
    usual.put(Generation.STERILE_LINE, practice(700, 1200, 1700, 2));
    usual.put(Generation.MAINTAINER_LINE, practice(1000, 1700, 2500, 2));
    usual.put(Generation.FERTILE_LINE, practice(1000, 1700, 2500, 2));
    usual.put(Generation.RESTORER_POLLINATOR, practice(1000, 1700, 2500, 2));
    usual.put(Generation.STERILE_SINGLE_CROSS, practice(2000, 2600, 3100, 1));
    usual.put(Generation.F1_SEED, practice(4500, 5800, 7000, 1));
    return new PlanInputs(usual, Map.of());
  }

  private static SeedInputs practice(double low, double yieldKgPerHa, double high, int interval) {
    return new SeedInputs(
        new TriangularRange(low, yieldKgPerHa, high),
        CLEANING_LOSS,
        KERNEL_WEIGHT_G,
        GERMINATION,
        KERNELS_PER_M2,
        FEMALE_AREA,
        0,
        interval,
        CARRY_OVER_LOSS);
  }

  /** The inputs of one kind of seed. */
  SeedInputs of(MultiplicationChain.Step step) {
    SeedInputs own = bySeed.get(step.seedId());
    return own == null ? byGeneration.get(step.generation()) : own;
  }
}
