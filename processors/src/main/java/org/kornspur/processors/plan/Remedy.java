package org.kornspur.processors.plan;

import java.time.LocalDate;
import java.time.Month;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Statement;
import org.kornspur.ingest.statement.Value.Amount;

/**
 * What can still be done about a demand that is not met, with the last day for it. Rye is sown
 * until the end of October: common practice, no source; later sown it brings less. Whether there is
 * ground and seed for it is not said.
 */
public sealed interface Remedy extends Statement {

  /** More seed of a kind can be sown for a harvest. */
  record Sow(String seedId, int year, LocalDate until) implements Remedy {}

  /** Seed that is short can be had from elsewhere, in time to be sown. */
  record Bring(String seedId, LocalDate until) implements Remedy {}

  /** A lot counts by its chance only; once it is fit and released it counts in full. */
  record Decide(Subject lot, String seedId, Amount more) implements Remedy {}

  /** Hybrid seed itself can be had from elsewhere. */
  record Buy(String hybridId, int year) implements Remedy {}

  /** The last day on which rye is sown for a harvest. */
  static LocalDate lastSowing(int harvestYear) {
    return LocalDate.of(harvestYear - 1, Month.OCTOBER, 31);
  }

  /**
   * What can still be done about one demand.
   *
   * @param met a demand of which something is short
   * @param today what lies before it can be done no more
   */
  static List<Remedy> of(PlanTask task, SeedPlan.Met met, LocalDate today) {
    if (met.shortKg() <= 0) {
      return List.of();
    }
    Map<String, GrownSeed> seeds = new HashMap<>();
    task.seeds().forEach(seed -> seeds.put(seed.seedId(), seed));
    Set<String> limiting =
        met.reasons().stream().map(Remedy::seedOf).collect(Collectors.toCollection(HashSet::new));
    List<Remedy> found = new ArrayList<>();
    collect(seeds, seeds.get(met.wanted().hybridId()), met.wanted().year(), limiting, today, found);
    task.lots().stream()
        .filter(lot -> lot.waiting().isPresent() && limiting.contains(lot.seedId()))
        .filter(lot -> lot.massKg() - lot.countedKg() > 1)
        .map(
            lot ->
                new Decide(
                    Subject.lot(lot.lotId()),
                    lot.seedId(),
                    Amount.kilograms(lot.massKg() - lot.countedKg())))
        .forEach(found::add);
    found.add(new Buy(met.wanted().hybridId(), met.wanted().year()));
    return found;
  }

  private static void collect(
      Map<String, GrownSeed> seeds,
      GrownSeed seed,
      int year,
      Set<String> limiting,
      LocalDate today,
      List<Remedy> found) {
    LocalDate until = lastSowing(year);
    Remedy sow = new Sow(seed.seedId(), year, until);
    if (until.isBefore(today) || found.contains(sow) || !seed.harvestYears().contains(year)) {
      return;
    }
    found.add(sow);
    for (String parent : seed.sownKgPerHa().keySet()) {
      if (!limiting.contains(parent)) {
        continue;
      }
      Remedy bring = new Bring(parent, until);
      if (!found.contains(bring)) {
        found.add(bring);
      }
      collect(seeds, seeds.get(parent), year - 1, limiting, today, found);
    }
  }

  /** The seed that a limit is of; empty for ground. */
  private static String seedOf(BindingLimit limit) {
    if (limit instanceof BindingLimit.SeedInStore one) {
      return one.seedId();
    } else if (limit instanceof BindingLimit.NoSeedInStore one) {
      return one.seedId();
    } else if (limit instanceof BindingLimit.MultiplicationInterval one) {
      return one.seedId();
    } else if (limit instanceof BindingLimit.MinimumStock one) {
      return one.seedId();
    } else if (limit instanceof BindingLimit.NotGrown one) {
      return one.seedId();
    }
    return limit instanceof BindingLimit.Pinned one ? one.seedId() : "";
  }
}
