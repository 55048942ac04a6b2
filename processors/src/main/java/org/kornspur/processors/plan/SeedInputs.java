package org.kornspur.processors.plan;

import org.kornspur.processors.statistics.TriangularRange;

/**
 * What one hectare and one kilogram of seed of one kind come to.
 *
 * @param yieldKgPerHa harvested from a hectare of the whole crop, before cleaning, kilograms
 * @param cleaningLoss part of the harvest that cleaning takes out, from 0 to 0.9
 * @param thousandKernelWeightG of its seed, grams
 * @param germination of its seed, as a share
 * @param viableKernelsPerM2 sown where seed of this kind is grown, on the ground that is sown with
 *     it
 * @param femaleAreaShare part of the ground that the female has where it stands in strips
 * @param minimumStockKg to be left in store after each sowing, kilograms
 * @param intervalYears years from one multiplication to the next, 1 for each year
 * @param carryOverLoss part that counts no more after a year in store, by what germination falls
 */
public record SeedInputs(
    TriangularRange yieldKgPerHa,
    double cleaningLoss,
    double thousandKernelWeightG,
    double germination,
    double viableKernelsPerM2,
    double femaleAreaShare,
    double minimumStockKg,
    int intervalYears,
    double carryOverLoss) {

  /**
   * @throws PlanRefusedException where a number is outside its bounds
   */
  public SeedInputs {
    PlanRefusedException.unlessWithin("yieldKgPerHa", yieldKgPerHa, 1, 20_000);
    PlanRefusedException.unlessWithin("cleaningLoss", cleaningLoss, 0, 0.9);
    PlanRefusedException.unlessWithin("thousandKernelWeightG", thousandKernelWeightG, 5, 100);
    PlanRefusedException.unlessWithin("germination", germination, 0.1, 1);
    PlanRefusedException.unlessWithin("viableKernelsPerM2", viableKernelsPerM2, 10, 1000);
    PlanRefusedException.unlessWithin("femaleAreaShare", femaleAreaShare, 0.05, 1);
    PlanRefusedException.unlessWithin("minimumStockKg", minimumStockKg, 0, 1e7);
    PlanRefusedException.unlessWithin("intervalYears", intervalYears, 1, 10);
    PlanRefusedException.unlessWithin("carryOverLoss", carryOverLoss, 0, 0.95);
  }

  /** Cleaned seed of a hectare, kilograms. */
  TriangularRange cleanKgPerHa() {
    double clean = 1 - cleaningLoss;
    return new TriangularRange(
        yieldKgPerHa.least() * clean,
        yieldKgPerHa.likely() * clean,
        yieldKgPerHa.greatest() * clean);
  }

  /** Viable kernels in a kilogram. */
  public double viableKernelsPerKg() {
    return 1_000_000 / thousandKernelWeightG * germination;
  }

  /** Part of it that still counts a year later. */
  double kept() {
    return 1 - carryOverLoss;
  }
}
