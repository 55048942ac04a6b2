package org.kornspur.processors.plan;

import java.util.Map;
import java.util.SortedSet;
import org.kornspur.processors.statistics.TriangularRange;

/**
 * Seed of one kind with the numbers that a plan counts with.
 *
 * @param seedId component or hybrid
 * @param cleanSpreadKgPerHa cleaned seed of a hectare, kilograms
 * @param sownKgPerHa what is sown on a hectare to grow it, kilograms by seed
 * @param kept part of it that still counts after a year in store
 * @param minimumStockKg to be left after each sowing, kilograms
 * @param harvestYears years in which it can be harvested
 * @param isHeldByInterval whether the interval between multiplications leaves years out
 */
public record GrownSeed(
    String seedId,
    Generation generation,
    TriangularRange cleanSpreadKgPerHa,
    Map<String, Double> sownKgPerHa,
    double kept,
    double minimumStockKg,
    SortedSet<Integer> harvestYears,
    boolean isHeldByInterval) {

  /** Cleaned seed of a hectare that a plan counts on, kilograms. */
  public double cleanKgPerHa() {
    return cleanSpreadKgPerHa.likely();
  }

  /** Whether anything can be sown for it at all. */
  boolean isGrown() {
    return !sownKgPerHa.isEmpty();
  }

  double sownKgPerHa(String parent) {
    return sownKgPerHa.getOrDefault(parent, 0.0);
  }
}
