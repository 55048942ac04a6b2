package org.kornspur.processors.plan;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.TreeSet;

/** A task without some of its limits. */
final class Relaxed {

  private Relaxed() {}

  static PlanTask without(PlanTask task, List<BindingLimit> limits) {
    PlanTask relaxed = task;
    for (BindingLimit limit : limits) {
      relaxed = without(relaxed, limit);
    }
    return relaxed;
  }

  private static PlanTask without(PlanTask task, BindingLimit limit) {
    List<GrownSeed> seeds = new ArrayList<>(task.seeds());
    List<SupplyLot> lots = new ArrayList<>(task.lots());
    List<AreaLimit> areas = new ArrayList<>(task.limits());
    List<PinnedArea> pins = new ArrayList<>(task.pins());
    if (limit instanceof BindingLimit.SeedInStore store) {
      lots.add(
          new SupplyLot(
              "found " + lots.size(), store.seedId(), 1e6, task.firstYear(), Optional.empty()));
    } else if (limit instanceof BindingLimit.NoSeedInStore none) {
      lots.add(
          new SupplyLot(
              "found " + lots.size(), none.seedId(), 1e6, task.firstYear(), Optional.empty()));
    } else if (limit instanceof BindingLimit.MultiplicationInterval interval) {
      seeds.replaceAll(
          seed -> {
            TreeSet<Integer> years = new TreeSet<>(seed.harvestYears());
            years.add(interval.year());
            return seed.seedId().equals(interval.seedId())
                ? new GrownSeed(
                    seed.seedId(),
                    seed.generation(),
                    seed.cleanSpreadKgPerHa(),
                    seed.sownKgPerHa(),
                    seed.kept(),
                    seed.minimumStockKg(),
                    years,
                    seed.isHeldByInterval())
                : seed;
          });
    } else if (limit instanceof BindingLimit.Ground ground) {
      areas.removeIf(
          one -> one.year() == ground.year() && one.generation().equals(ground.generation()));
    } else if (limit instanceof BindingLimit.Pinned pinned) {
      pins.removeIf(one -> one.year() == pinned.year() && one.seedId().equals(pinned.seedId()));
    }
    return new PlanTask(
        task.firstYear(), task.lastYear(), seeds, task.demands(), lots, areas, pins);
  }
}
