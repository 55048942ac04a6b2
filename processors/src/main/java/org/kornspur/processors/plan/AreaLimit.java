package org.kornspur.processors.plan;

import java.util.Optional;

/**
 * The most hectares that can be grown for one harvest.
 *
 * @param generation of this generation alone; of all where empty
 * @param year of harvest
 */
public record AreaLimit(Optional<Generation> generation, int year, double mostHa) {

  /**
   * @throws PlanRefusedException where the area is outside its bounds
   */
  public AreaLimit {
    PlanRefusedException.unlessWithin("mostHa", mostHa, 0, 10_000_000);
  }

  boolean holds(GrownSeed seed) {
    return generation.isEmpty() || generation.get() == seed.generation();
  }
}
