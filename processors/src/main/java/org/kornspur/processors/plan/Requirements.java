package org.kornspur.processors.plan;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.SortedSet;

/**
 * What the whole demand asks for, of each seed in each year, and how much of it is missing.
 *
 * <p>Back from the hybrids to the lines: what is sold or sown in the autumn of a year must be in
 * store then. Seed in store is used first, earlier needs before later ones; the rest is harvested
 * in the latest year that the interval between multiplications allows, for all needs up to the next
 * such year. What can come from neither is missing. Missing seed is taken as found, so that it is
 * counted once, where it is missing, and not again in all that is grown from it. No limit of area
 * and no pinned area bears on it.
 *
 * @param lines by seed, hybrids first, then by year
 */
public record Requirements(List<Line> lines) {
  private static final int MOST_ROUNDS = 200;
  private static final double SMALLEST_KG = 1e-9;

  /**
   * One seed in one year. In store, harvested and missing together are what is needed and what is
   * left.
   *
   * @param year of harvest; seed is needed in the autumn after it
   * @param neededKg to be sown or sold
   * @param fromStoreKg in store before the harvest
   * @param harvestKg to be harvested, cleaned
   * @param areaHa to be grown for that harvest
   * @param missingKg that neither store nor harvest can give
   * @param leftKg left in store
   * @param lostKg of what is left, that counts no more a year later
   */
  public record Line(
      String seedId,
      Generation generation,
      int year,
      double neededKg,
      double fromStoreKg,
      double harvestKg,
      double areaHa,
      double missingKg,
      double leftKg,
      double lostKg) {}

  /** Of one task. */
  public static Requirements of(PlanTask task) {
    Map<String, double[]> needs = new HashMap<>();
    for (GrownSeed seed : task.seeds()) {
      needs.put(seed.seedId(), new double[task.years()]);
    }
    for (PlanTask.Wanted wanted : task.demands()) {
      needs.get(wanted.hybridId())[wanted.year() - task.firstYear()] += wanted.kg();
    }
    Map<String, Double> inStore = task.inStoreKg();
    List<Line> lines = new ArrayList<>();
    for (GrownSeed seed : task.seeds()) {
      List<Line> own =
          netted(task, seed, needs.get(seed.seedId()), inStore.getOrDefault(seed.seedId(), 0.0));
      for (Line line : own) {
        seed.sownKgPerHa()
            .forEach(
                (parent, kgPerHa) -> {
                  if (!parent.equals(seed.seedId()) && line.areaHa() > 0) {
                    needs.get(parent)[line.year() - task.firstYear() - 1] +=
                        line.areaHa() * kgPerHa;
                  }
                });
      }
      lines.addAll(own);
    }
    return new Requirements(lines);
  }

  /** A line is sown for itself, so its needs grow with its harvests until nothing changes. */
  private static List<Line> netted(
      PlanTask task, GrownSeed seed, double[] forOthers, double inStoreKg) {
    double ownKgPerHa = seed.sownKgPerHa(seed.seedId());
    double[] needs = forOthers.clone();
    List<Line> lines = season(task, seed, needs, inStoreKg);
    for (int round = 0; ownKgPerHa > 0 && round < MOST_ROUNDS; round++) {
      double[] more = forOthers.clone();
      for (int i = 1; i < more.length; i++) {
        more[i - 1] += lines.get(i).areaHa() * ownKgPerHa;
      }
      if (difference(more, needs) < SMALLEST_KG) {
        break;
      }
      needs = more;
      lines = season(task, seed, needs, inStoreKg);
    }
    return lines;
  }

  private static double difference(double[] one, double[] other) {
    double most = 0;
    for (int i = 0; i < one.length; i++) {
      most = Math.max(most, Math.abs(one[i] - other[i]));
    }
    return most;
  }

  private static List<Line> season(
      PlanTask task, GrownSeed seed, double[] needs, double inStoreKg) {
    List<Line> lines = new ArrayList<>();
    double store = inStoreKg;
    for (int i = 0; i < needs.length; i++) {
      int year = task.firstYear() + i;
      double harvest =
          seed.harvestYears().contains(year)
              ? Math.max(0, upToTheNext(task, seed, needs, i) - store)
              : 0;
      double missing = Math.max(0, needs[i] + seed.minimumStockKg() - store - harvest);
      double left = store + harvest + missing - needs[i];
      double lost = left * (1 - seed.kept());
      lines.add(
          new Line(
              seed.seedId(),
              seed.generation(),
              year,
              needs[i],
              store,
              harvest,
              harvest / seed.cleanKgPerHa(),
              missing,
              left,
              lost));
      store = left - lost;
    }
    return lines;
  }

  /** Seed that must be there in a year of harvest to last until the next one. */
  private static double upToTheNext(PlanTask task, GrownSeed seed, double[] needs, int from) {
    SortedSet<Integer> later = seed.harvestYears().tailSet(task.firstYear() + from + 1);
    int end = later.isEmpty() ? needs.length : later.first() - task.firstYear();
    double needed = 0;
    for (int i = end - 1; i >= from; i--) {
      needed = needs[i] + Math.max(seed.minimumStockKg(), i == end - 1 ? 0 : needed / seed.kept());
    }
    return needed;
  }

  /** All that is missing, kilograms. */
  public double missingKg() {
    return lines.stream().mapToDouble(Line::missingKg).sum();
  }

  /** All seed that is needed of all kinds, kilograms. */
  double neededKg() {
    return lines.stream().mapToDouble(Line::neededKg).sum();
  }
}
