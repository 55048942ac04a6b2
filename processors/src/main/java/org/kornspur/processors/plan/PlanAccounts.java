package org.kornspur.processors.plan;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * Counts a plan through from its choices alone, year by year, as a person would: what is in store,
 * harvested, sown, sold and left of each seed. It shares nothing with the solver, so that a wrong
 * answer of it is found and not told.
 */
final class PlanAccounts {
  /** Part of what is in store by which a solver's numbers may be off. */
  private static final double TOLERANCE = 1e-6;

  private final PlanTask task;
  private final PlanAmounts amounts;
  private final Map<String, double[]> leftKg = new HashMap<>();
  private final List<SeedPlan.Store> stores = new ArrayList<>();
  private final Map<String, List<GrownSeed>> grownFrom = new HashMap<>();

  private PlanAccounts(PlanTask task, PlanAmounts amounts) {
    this.task = task;
    this.amounts = amounts;
    for (GrownSeed seed : task.seeds()) {
      for (String parent : seed.sownKgPerHa().keySet()) {
        grownFrom.computeIfAbsent(parent, id -> new ArrayList<>()).add(seed);
      }
    }
  }

  /**
   * The plan of these choices.
   *
   * @param isGroundShared whether ground was shared out, so that a better plan may exist
   * @throws IllegalStateException where they use seed or ground that is not there
   */
  static SeedPlan of(PlanTask task, PlanAmounts amounts, boolean isGroundShared) {
    return new PlanAccounts(task, amounts).plan(isGroundShared);
  }

  private SeedPlan plan(boolean isGroundShared) {
    Map<String, Double> inStore = task.inStoreKg();
    for (GrownSeed seed : task.seeds()) {
      count(seed, inStore.getOrDefault(seed.seedId(), 0.0));
    }
    for (AreaLimit limit : task.limits()) {
      double used = PlanSolver.usedHa(task, limit, amounts);
      if (used > limit.mostHa() + TOLERANCE * Math.max(1, limit.mostHa()) + PlanAmounts.SMALLEST) {
        throw new IllegalStateException("A plan uses " + used + " ha of " + limit);
      }
    }
    ShortageReasons reasons = new ShortageReasons(task, amounts, leftKg);
    return new SeedPlan(
        crops(),
        stores,
        task.demands().stream().map(wanted -> met(wanted, reasons)).toList(),
        task.pins().stream()
            .map(pin -> new SeedPlan.PinMet(pin, areaHa(pin.seedId(), pin.year())))
            .toList(),
        isGroundShared);
  }

  private double areaHa(String seedId, int year) {
    return amounts.areaHa(seedId)[year - task.firstYear()];
  }

  private SeedPlan.Met met(PlanTask.Wanted wanted, ShortageReasons reasons) {
    double sold = amounts.soldKg(wanted.hybridId())[wanted.year() - task.firstYear()];
    double missing = wanted.kg() - sold;
    return missing <= Math.max(0.01, wanted.kg() * TOLERANCE)
        ? new SeedPlan.Met(wanted, wanted.kg(), 0, List.of())
        : new SeedPlan.Met(wanted, sold, missing, reasons.of(wanted));
  }

  private List<SeedPlan.Crop> crops() {
    List<SeedPlan.Crop> crops = new ArrayList<>();
    for (int year = task.firstYear() + 1; year <= task.lastYear(); year++) {
      for (GrownSeed seed : task.seeds()) {
        double areaHa = areaHa(seed.seedId(), year);
        if (areaHa >= PlanAmounts.SMALLEST) {
          Map<String, Double> sown = new TreeMap<>();
          seed.sownKgPerHa().forEach((parent, kgPerHa) -> sown.put(parent, kgPerHa * areaHa));
          crops.add(
              new SeedPlan.Crop(
                  seed.seedId(),
                  seed.generation(),
                  year,
                  areaHa,
                  areaHa * seed.cleanKgPerHa(),
                  sown));
        }
      }
    }
    return crops;
  }

  private void count(GrownSeed seed, double inStoreKg) {
    double store = inStoreKg;
    double[] left = new double[task.years()];
    for (int i = 0; i < task.years(); i++) {
      double harvest = amounts.areaHa(seed.seedId())[i] * seed.cleanKgPerHa();
      double sown = i + 1 < task.years() ? sownKg(seed.seedId(), i + 1) : 0;
      double sold = amounts.soldKg(seed.seedId())[i];
      double rest = store + harvest - sown - sold;
      if (rest < -TOLERANCE * (store + harvest) - 0.01) {
        throw new IllegalStateException(
            "A plan uses " + -rest + " kg of " + seed.seedId() + " that are not there");
      }
      left[i] = Math.max(0, rest);
      double lost = left[i] * (1 - seed.kept());
      stores.add(
          new SeedPlan.Store(
              seed.seedId(),
              seed.generation(),
              task.firstYear() + i,
              store,
              harvest,
              sown,
              sold,
              left[i],
              lost,
              Math.max(0, seed.minimumStockKg() - left[i])));
      store = left[i] - lost;
    }
    leftKg.put(seed.seedId(), left);
  }

  private double sownKg(String parent, int year) {
    return grownFrom.getOrDefault(parent, List.of()).stream()
        .mapToDouble(seed -> amounts.areaHa(seed.seedId())[year] * seed.sownKgPerHa(parent))
        .sum();
  }
}
