package org.kornspur.api.query.plan;

import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.kornspur.processors.plan.GrownSeed;
import org.kornspur.processors.plan.Requirements;
import org.kornspur.processors.plan.SeedPlan;

/**
 * Needed, available and short of each seed in each year. Needed is what the whole demand asks for;
 * available is what the plan has. Seed is short only where a demand is short that is grown from it:
 * a plan may meet a demand by another year than the first thought.
 */
final class SeedBalance {
  private static final double SMALLEST_KG = 0.01;

  private SeedBalance() {}

  static List<PlanView.SeasonView> of(CalculatedPlan calculated) {
    Map<List<Object>, SeedPlan.Store> stores = new HashMap<>();
    calculated
        .plan()
        .stores()
        .forEach(store -> stores.put(List.of(store.seedId(), store.year()), store));
    Set<String> behind = behindShortages(calculated);
    return calculated.requirements().lines().stream()
        .map(
            line ->
                view(
                    line,
                    stores.get(List.of(line.seedId(), line.year())),
                    behind,
                    calculated
                        .plan()
                        .crop(line.seedId(), line.year())
                        .map(SeedPlan.Crop::areaHa)
                        .orElse(0.0)))
        .toList();
  }

  private static PlanView.SeasonView view(
      Requirements.Line line, SeedPlan.Store store, Set<String> behind, double areaHa) {
    double available = store.fromStoreKg() + store.harvestKg();
    double missing = line.neededKg() - available;
    return new PlanView.SeasonView(
        line.seedId(),
        line.generation(),
        line.year(),
        line.neededKg(),
        available,
        missing > SMALLEST_KG && behind.contains(line.seedId()) ? missing : 0,
        areaHa);
  }

  /** Hybrids of which demand is short, and all seed that they are grown from. */
  private static Set<String> behindShortages(CalculatedPlan calculated) {
    Set<String> behind = new HashSet<>();
    calculated.plan().demands().stream()
        .filter(met -> met.shortKg() > 0)
        .forEach(met -> behind.add(met.wanted().hybridId()));
    // seed stands before what it is grown from
    for (GrownSeed seed : calculated.task().seeds()) {
      if (behind.contains(seed.seedId())) {
        behind.addAll(seed.sownKgPerHa().keySet());
      }
    }
    return behind;
  }
}
