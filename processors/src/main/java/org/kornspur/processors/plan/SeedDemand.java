package org.kornspur.processors.plan;

import org.kornspur.processors.statistics.TriangularRange;

/**
 * Certified seed of a hybrid that is wanted.
 *
 * @param year of harvest; it is sold in the autumn of that year
 * @param tonnes low, expected and high
 * @param weight what a missing kilogram counts beside one of another demand, 1 where all are equal
 */
public record SeedDemand(String hybridId, int year, TriangularRange tonnes, double weight) {

  /**
   * @throws PlanRefusedException where a number is outside its bounds
   */
  public SeedDemand {
    PlanRefusedException.unlessWithin("tonnes", tonnes, 0, 1_000_000);
    PlanRefusedException.unlessWithin("weight", weight, 0.01, 100);
  }

  /** Which of its three quantities a plan is made for. */
  public enum Level {
    LOW,
    EXPECTED,
    HIGH
  }

  /** Kilograms that a plan is made for. */
  public double kg(Level level) {
    return 1000
        * switch (level) {
          case LOW -> tonnes.least();
          case EXPECTED -> tonnes.likely();
          case HIGH -> tonnes.greatest();
        };
  }
}
