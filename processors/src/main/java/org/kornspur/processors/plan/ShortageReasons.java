package org.kornspur.processors.plan;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.kornspur.ingest.statement.Value.Amount;

/**
 * Why a plan does not meet a demand. From the hybrid back: one more kilogram would have to be
 * harvested, or kept from a year before; what bars either way is a reason, or lies with the seed
 * that would have to be sown for it.
 */
final class ShortageReasons {
  private static final double LEAST_SPARE_KG = 0.01;
  private static final double SPARE_PART = 1e-4;

  private final PlanTask task;
  private final PlanAmounts amounts;
  private final Map<String, double[]> leftKg;
  private final Map<String, GrownSeed> seeds = new HashMap<>();
  private final Map<String, Double> inStoreKg;

  /**
   * Of one plan.
   *
   * @param leftKg of each seed after each year
   */
  ShortageReasons(PlanTask task, PlanAmounts amounts, Map<String, double[]> leftKg) {
    this.task = task;
    this.amounts = amounts;
    this.leftKg = leftKg;
    this.inStoreKg = task.inStoreKg();
    task.seeds().forEach(seed -> seeds.put(seed.seedId(), seed));
  }

  /** The limits behind one shortage, nearest to the hybrid first. */
  List<BindingLimit> of(PlanTask.Wanted wanted) {
    List<BindingLimit> found = new ArrayList<>();
    explain(seeds.get(wanted.hybridId()), wanted.year() - task.firstYear(), new HashSet<>(), found);
    if (found.isEmpty()) {
      found.add(new BindingLimit.NoSeedInStore(wanted.hybridId(), task.firstYear()));
    }
    return found;
  }

  private void explain(GrownSeed seed, int i, Set<List<Object>> seen, List<BindingLimit> found) {
    if (!seen.add(List.of(seed.seedId(), i))) {
      return;
    }
    if (seed.minimumStockKg() > 0 && leftKg.get(seed.seedId())[i] > PlanAmounts.SMALLEST) {
      add(
          found,
          new BindingLimit.MinimumStock(
              seed.seedId(), task.firstYear() + i, Amount.kilograms(seed.minimumStockKg())));
    }
    if (i == 0) {
      inStore(seed).ifPresent(limit -> add(found, limit));
      return;
    }
    List<BindingLimit> barred = barred(seed, i);
    barred.forEach(limit -> add(found, limit));
    if (barred.isEmpty()) {
      for (String parent : seed.sownKgPerHa().keySet()) {
        if (!hasSpare(seeds.get(parent), i - 1)) {
          explain(seeds.get(parent), i - 1, seen, found);
        }
      }
    }
    explain(seed, i - 1, seen, found);
  }

  /** What is in store bars; but that no hybrid seed is in store tells little beside the rest. */
  private Optional<BindingLimit> inStore(GrownSeed seed) {
    double kg = inStoreKg.getOrDefault(seed.seedId(), 0.0);
    if (kg > 0) {
      return Optional.of(
          new BindingLimit.SeedInStore(seed.seedId(), task.firstYear(), Amount.kilograms(kg)));
    }
    return seed.generation() == Generation.F1_SEED
        ? Optional.empty()
        : Optional.of(new BindingLimit.NoSeedInStore(seed.seedId(), task.firstYear()));
  }

  private static void add(List<BindingLimit> found, BindingLimit limit) {
    if (!found.contains(limit)) {
      found.add(limit);
    }
  }

  /** What keeps a person from growing more of it for one harvest, whatever seed there is. */
  private List<BindingLimit> barred(GrownSeed seed, int i) {
    int year = task.firstYear() + i;
    if (!seed.isGrown()) {
      return List.of(new BindingLimit.NotGrown(seed.seedId()));
    }
    if (!seed.harvestYears().contains(year)) {
      return List.of(new BindingLimit.MultiplicationInterval(seed.seedId(), year));
    }
    List<BindingLimit> barred = new ArrayList<>();
    task.pins().stream()
        .filter(pin -> pin.year() == year && pin.seedId().equals(seed.seedId()))
        .filter(pin -> amounts.areaHa(seed.seedId())[i] >= pin.areaHa() - PlanAmounts.SMALLEST)
        .forEach(
            pin ->
                barred.add(
                    new BindingLimit.Pinned(seed.seedId(), year, new Amount(pin.areaHa(), "ha"))));
    task.limits().stream()
        .filter(limit -> limit.year() == year && limit.holds(seed))
        .filter(limit -> PlanSolver.usedHa(task, limit, amounts) >= limit.mostHa() - 1e-3)
        .forEach(
            limit ->
                barred.add(
                    new BindingLimit.Ground(
                        limit.generation(), year, new Amount(limit.mostHa(), "ha"))));
    return barred;
  }

  /** Whether some of it is still there at the end, beyond the minimum stock. */
  private boolean hasSpare(GrownSeed seed, int from) {
    double least = seed.minimumStockKg() + offKg(seed);
    double[] left = leftKg.get(seed.seedId());
    for (int i = from; i < left.length; i++) {
      if (left[i] <= least) {
        return false;
      }
    }
    return true;
  }

  /** What a solver may leave over of seed that is all needed, kilograms. */
  private double offKg(GrownSeed seed) {
    double most = inStoreKg.getOrDefault(seed.seedId(), 0.0);
    for (double areaHa : amounts.areaHa(seed.seedId())) {
      most = Math.max(most, areaHa * seed.cleanKgPerHa());
    }
    return LEAST_SPARE_KG + most * SPARE_PART;
  }
}
