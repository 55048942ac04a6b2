package org.kornspur.api.query.plan;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.processors.plan.Generation;
import org.kornspur.processors.plan.GrownSeed;
import org.kornspur.processors.plan.SeedPlan;

/**
 * How the seed of one hybrid goes through the years of a plan: from the store of one year into a
 * crop that is harvested the next year, into the store of the next year, or to who buys it.
 */
@Schema(description = "How the seed of one hybrid goes through the years of a plan, kilograms")
public record SeedFlow(
    String hybridId,
    @Schema(description = "Years of harvest") List<Integer> years,
    @Schema(description = "Seed, the hybrid first") List<Seed> seeds,
    @Schema(description = "What is in store after the harvest of a year") List<Stock> stocks,
    @Schema(description = "What goes where") List<Flow> flows) {

  @Schema(description = "Seed of one kind")
  public record Seed(String seedId, Generation generation) {}

  @Schema(description = "In store after the harvest of a year")
  public record Stock(
      String seedId,
      int year,
      double kg,
      @Schema(description = "Harvested in that year") double harvestKg,
      @Schema(description = "Sold in that year") double soldKg) {}

  /** What a flow is. */
  public enum Kind {
    /** Seed is sown, and other seed is harvested from it the next year. */
    SOWN,
    /** What is left in store for the next year. */
    KEPT
  }

  @Schema(description = "Seed that goes from a year to the next")
  public record Flow(
      Kind kind,
      String fromSeedId,
      int fromYear,
      String toSeedId,
      @Schema(description = "Sown or kept") double kg) {}

  private static final double LEAST_KG = 0.5;

  /** The flow of one hybrid; of other hybrids that share a line only what they take is missing. */
  static SeedFlow of(CalculatedPlan plan, String hybridId) {
    Set<String> chain = chain(plan, hybridId);
    Map<List<Object>, SeedPlan.Store> stores = new HashMap<>();
    List<Stock> stocks = new ArrayList<>();
    List<Flow> flows = new ArrayList<>();
    int last = plan.task().lastYear();
    for (SeedPlan.Store store : plan.plan().stores()) {
      if (!chain.contains(store.seedId())) {
        continue;
      }
      stores.put(List.of(store.seedId(), store.year()), store);
      double kg = store.fromStoreKg() + store.harvestKg();
      if (kg >= LEAST_KG) {
        stocks.add(new Stock(store.seedId(), store.year(), kg, store.harvestKg(), store.soldKg()));
      }
      double keptKg = store.leftKg() - store.lostKg();
      if (store.year() < last && keptKg >= LEAST_KG) {
        flows.add(new Flow(Kind.KEPT, store.seedId(), store.year(), store.seedId(), keptKg));
      }
    }
    for (SeedPlan.Crop crop : plan.plan().crops()) {
      if (chain.contains(crop.seedId())) {
        crop.sownKg()
            .forEach(
                (parent, kg) ->
                    flows.add(new Flow(Kind.SOWN, parent, crop.year() - 1, crop.seedId(), kg)));
      }
    }
    return new SeedFlow(
        hybridId,
        plan.requirements().lines().stream().map(line -> line.year()).distinct().sorted().toList(),
        plan.task().seeds().stream()
            .filter(seed -> chain.contains(seed.seedId()))
            .map(seed -> new Seed(seed.seedId(), seed.generation()))
            .toList(),
        List.copyOf(stocks),
        List.copyOf(flows));
  }

  /** The hybrid and all that it is grown from; seed stands before what it is grown from. */
  private static Set<String> chain(CalculatedPlan plan, String hybridId) {
    Set<String> chain = new LinkedHashSet<>(new HashSet<>(Set.of(hybridId)));
    for (GrownSeed seed : plan.task().seeds()) {
      if (chain.contains(seed.seedId())) {
        chain.addAll(seed.sownKgPerHa().keySet());
      }
    }
    return chain;
  }
}
