package org.kornspur.processors.plan;

import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * What to sow in each year, from which lots, and what demand that meets.
 *
 * @param crops sown, by year of harvest
 * @param stores of each seed in each year
 * @param demands what is met of each
 * @param pins what is sown of each pinned area
 * @param isGroundShared whether there were too many hybrids on too little ground to find the best
 *     plan, so that the ground was shared out
 */
public record SeedPlan(
    List<Crop> crops,
    List<Store> stores,
    List<Met> demands,
    List<PinMet> pins,
    boolean isGroundShared) {

  /**
   * Seed of one kind grown for one harvest.
   *
   * @param year of harvest; it is sown in the autumn before
   * @param areaHa hectares of the whole crop
   * @param harvestKg cleaned seed of it, kilograms
   * @param sownKg kilograms of each seed that are sown for it
   */
  public record Crop(
      String seedId,
      Generation generation,
      int year,
      double areaHa,
      double harvestKg,
      Map<String, Double> sownKg) {}

  /**
   * Seed of one kind in the year of a harvest. What was in store and what is harvested together are
   * what is sown, sold and left.
   *
   * @param fromStoreKg before the harvest
   * @param lostKg of what is left, that counts no more a year later
   * @param underMinimumKg what is missing of the minimum stock
   */
  public record Store(
      String seedId,
      Generation generation,
      int year,
      double fromStoreKg,
      double harvestKg,
      double sownKg,
      double soldKg,
      double leftKg,
      double lostKg,
      double underMinimumKg) {}

  /**
   * One demand.
   *
   * @param reasons the limits that keep the plan from meeting all of it; none where it is met
   */
  public record Met(
      PlanTask.Wanted wanted, double soldKg, double shortKg, List<BindingLimit> reasons) {}

  /**
   * One pinned area.
   *
   * @param sownHa what can be sown of it
   */
  public record PinMet(PinnedArea pin, double sownHa) {}

  /** Demand that is not met, kilograms, each by its weight. */
  public double weightedShortKg() {
    return demands.stream().mapToDouble(met -> met.shortKg() * met.wanted().weight()).sum();
  }

  /** Demand that is not met, kilograms. */
  public double shortKg() {
    return demands.stream().mapToDouble(Met::shortKg).sum();
  }

  /** Hectares of all crops. */
  public double areaHa() {
    return crops.stream().mapToDouble(Crop::areaHa).sum();
  }

  /** The crop of a seed for a harvest. */
  public Optional<Crop> crop(String seedId, int year) {
    return crops.stream()
        .filter(crop -> crop.year() == year && crop.seedId().equals(seedId))
        .findFirst();
  }
}
