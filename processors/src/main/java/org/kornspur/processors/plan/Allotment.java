package org.kornspur.processors.plan;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * The seed that a plan takes from one lot, for one crop or for sale.
 *
 * @param year in whose autumn it is taken
 * @param cropSeedId what is grown from it; empty where it is sold
 * @param kg counted kilograms
 * @param isWaiting whether the lot is not fit and released yet
 */
public record Allotment(
    String lotId,
    String seedId,
    int year,
    Optional<String> cropSeedId,
    double kg,
    boolean isWaiting) {

  private static final double SMALLEST_KG = 1e-3;

  /** Fit and released lots before those that wait, old ones before young ones. */
  private static final Comparator<SupplyLot> FIRST_USED =
      Comparator.comparing((SupplyLot lot) -> lot.waiting().isPresent())
          .thenComparing(SupplyLot::harvestYear)
          .thenComparing(SupplyLot::lotId);

  /**
   * Which lot goes where. Seed in store is taken before what is harvested later, and no kilogram
   * twice.
   */
  public static List<Allotment> of(PlanTask task, SeedPlan plan) {
    Map<String, List<SupplyLot>> lots = new HashMap<>();
    task.lots().stream()
        .sorted(FIRST_USED)
        .forEach(lot -> lots.computeIfAbsent(lot.seedId(), id -> new ArrayList<>()).add(lot));
    List<Allotment> allotted = new ArrayList<>();
    Map<String, List<SeedPlan.Crop>> crops = new HashMap<>();
    for (SeedPlan.Crop crop : plan.crops()) {
      for (String parent : crop.sownKg().keySet()) {
        crops.computeIfAbsent(parent, id -> new ArrayList<>()).add(crop);
      }
    }
    for (GrownSeed seed : task.seeds()) {
      if (lots.containsKey(seed.seedId())) {
        allot(
            task,
            plan,
            seed,
            lots.get(seed.seedId()),
            crops.getOrDefault(seed.seedId(), List.of()),
            allotted);
      }
    }
    allotted.sort(
        Comparator.comparingInt(Allotment::year)
            .thenComparing(Allotment::seedId)
            .thenComparing(Allotment::lotId));
    return allotted;
  }

  private static void allot(
      PlanTask task,
      SeedPlan plan,
      GrownSeed seed,
      List<SupplyLot> lots,
      List<SeedPlan.Crop> crops,
      List<Allotment> allotted) {
    double[] left = lots.stream().mapToDouble(SupplyLot::countedKg).toArray();
    for (int year = task.firstYear(); year <= task.lastYear(); year++) {
      for (SeedPlan.Crop crop : crops) {
        if (crop.year() == year + 1) {
          double sown = crop.sownKg().get(seed.seedId());
          take(seed, lots, left, year, Optional.of(crop.seedId()), sown, allotted);
        }
      }
      for (SeedPlan.Met met : plan.demands()) {
        if (met.wanted().year() == year && met.wanted().hybridId().equals(seed.seedId())) {
          take(seed, lots, left, year, Optional.empty(), met.soldKg(), allotted);
        }
      }
      for (int i = 0; i < left.length; i++) {
        left[i] *= seed.kept();
      }
    }
  }

  private static void take(
      GrownSeed seed,
      List<SupplyLot> lots,
      double[] left,
      int year,
      Optional<String> cropSeedId,
      double kg,
      List<Allotment> allotted) {
    double wanted = kg;
    for (int i = 0; i < left.length && wanted > SMALLEST_KG; i++) {
      double taken = Math.min(wanted, left[i]);
      if (taken > SMALLEST_KG) {
        left[i] -= taken;
        wanted -= taken;
        SupplyLot lot = lots.get(i);
        allotted.add(
            new Allotment(
                lot.lotId(), seed.seedId(), year, cropSeedId, taken, lot.waiting().isPresent()));
      }
    }
  }
}
