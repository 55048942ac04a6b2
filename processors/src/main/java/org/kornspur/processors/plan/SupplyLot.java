package org.kornspur.processors.plan;

import java.util.Optional;

/**
 * A lot that a plan may count on.
 *
 * @param seedId component or hybrid
 * @param massKg cleaned seed in store, kilograms; what cleaning will take out is no part of it
 * @param harvestYear year of its harvest; older seed is used first
 * @param waiting the chance that it becomes fit, where it still waits; empty for a lot that is fit
 *     and released
 */
public record SupplyLot(
    String lotId, String seedId, double massKg, int harvestYear, Optional<FitChance> waiting) {

  /** What a plan counts on: all of it, or the part by its chance. */
  public double countedKg() {
    return massKg * waiting.map(FitChance::chance).orElse(1.0);
  }
}
