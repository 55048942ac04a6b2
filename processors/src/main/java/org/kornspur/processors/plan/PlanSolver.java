package org.kornspur.processors.plan;

import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;

/**
 * Finds what to sow in each year so that as little demand as can be is not met, by its weight, and
 * then on as little ground as can be. The optimum of a linear programme ({@link LinearModel}); what
 * the solver found is counted again before it is told ({@link PlanAccounts}).
 *
 * <p>Hybrids that share no seed are solved apart. Where together they take more ground than a limit
 * allows, those that use this ground are solved together. Where they are too many for that, the
 * ground is shared out as they would use it without the limit, and each is solved with its share: a
 * plan that can be sown and need not be the best one, which it says.
 */
public final class PlanSolver {

  /** Kinds of seed of some ten hybrids; more take too long for somebody who waits. */
  private static final int MOST_TOGETHER = 60;

  private PlanSolver() {}

  /** The best plan for a task. */
  public static SeedPlan solve(PlanTask task) {
    return solve(task, MOST_TOGETHER);
  }

  /**
   * The plan.
   *
   * @param mostTogether most kinds of seed that are solved as one
   */
  static SeedPlan solve(PlanTask task, int mostTogether) {
    List<List<GrownSeed>> groups = groups(task);
    PlanAmounts amounts = apart(task, groups, group -> List.of());
    List<AreaLimit> exceeded =
        task.limits().stream().filter(limit -> isExceeded(task, limit, amounts)).toList();
    if (exceeded.isEmpty()) {
      return PlanAccounts.of(task, amounts, false);
    }
    List<List<GrownSeed>> onGround = withGround(groups, task.limits());
    if (onGround.stream().mapToInt(List::size).sum() <= mostTogether) {
      List<GrownSeed> together = onGround.stream().flatMap(Collection::stream).toList();
      amounts.add(new LinearModel(task, together, task.inStoreKg(), task.limits()).solve());
      return PlanAccounts.of(task, amounts, false);
    }
    Map<AreaLimit, Double> used = new HashMap<>();
    task.limits().forEach(limit -> used.put(limit, usedHa(task, limit, amounts)));
    amounts.add(apart(task, onGround, group -> shares(task, group, amounts, used)));
    return PlanAccounts.of(task, amounts, true);
  }

  private static PlanAmounts apart(
      PlanTask task,
      List<List<GrownSeed>> groups,
      Function<List<GrownSeed>, List<AreaLimit>> limits) {
    PlanAmounts amounts = new PlanAmounts(task.years());
    Map<String, Double> inStoreKg = task.inStoreKg();
    groups.parallelStream()
        .map(group -> new LinearModel(task, group, inStoreKg, limits.apply(group)).solve())
        .toList()
        .forEach(amounts::add);
    return amounts;
  }

  /** What a group may use of each limit: as much of it as it has of what all would use. */
  private static List<AreaLimit> shares(
      PlanTask task, List<GrownSeed> group, PlanAmounts amounts, Map<AreaLimit, Double> used) {
    return task.limits().stream()
        .map(
            limit -> {
              double own =
                  group.stream()
                      .filter(limit::holds)
                      .mapToDouble(
                          seed -> amounts.areaHa(seed.seedId())[limit.year() - task.firstYear()])
                      .sum();
              double all = used.get(limit);
              return new AreaLimit(
                  limit.generation(), limit.year(), all == 0 ? 0 : limit.mostHa() * own / all);
            })
        .toList();
  }

  private static boolean isExceeded(PlanTask task, AreaLimit limit, PlanAmounts amounts) {
    return usedHa(task, limit, amounts) > limit.mostHa() + PlanAmounts.SMALLEST;
  }

  /** Ground that a plan uses of a limit, hectares. */
  static double usedHa(PlanTask task, AreaLimit limit, PlanAmounts amounts) {
    return task.seeds().stream()
        .filter(limit::holds)
        .mapToDouble(seed -> amounts.areaHa(seed.seedId())[limit.year() - task.firstYear()])
        .sum();
  }

  /** The groups on whose ground a limit bears. */
  private static List<List<GrownSeed>> withGround(
      List<List<GrownSeed>> groups, List<AreaLimit> limits) {
    return groups.stream()
        .filter(
            group ->
                group.stream().anyMatch(seed -> limits.stream().anyMatch(one -> one.holds(seed))))
        .toList();
  }

  /** Seed of one connected group: all that is grown from the same seed. */
  static List<List<GrownSeed>> groups(PlanTask task) {
    Map<String, Set<String>> groups = new HashMap<>();
    for (GrownSeed seed : task.seeds()) {
      Set<String> together = new HashSet<>(Set.of(seed.seedId()));
      together.addAll(seed.sownKgPerHa().keySet());
      Set<String> all = new HashSet<>();
      together.forEach(id -> all.addAll(groups.getOrDefault(id, Set.of(id))));
      all.forEach(id -> groups.put(id, all));
    }
    Map<Set<String>, List<GrownSeed>> seeds = new LinkedHashMap<>();
    for (GrownSeed seed : task.seeds()) {
      seeds.computeIfAbsent(groups.get(seed.seedId()), ids -> new ArrayList<>()).add(seed);
    }
    return List.copyOf(seeds.values());
  }
}
