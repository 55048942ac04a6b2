package org.kornspur.processors.plan;

import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SortedSet;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;

/**
 * What is to be planned.
 *
 * @param firstYear year of the last harvest that is in: its seed, the lots, is sown or sold first
 * @param lastYear last year of harvest in the plan
 * @param seeds seed before what it is grown from
 * @param demands kilograms wanted
 * @param lots in store
 * @param limits of area
 * @param pins areas that a person has decided on
 */
public record PlanTask(
    int firstYear,
    int lastYear,
    List<GrownSeed> seeds,
    List<Wanted> demands,
    List<SupplyLot> lots,
    List<AreaLimit> limits,
    List<PinnedArea> pins) {

  /** Most years in a plan. */
  public static final int MOST_YEARS = 12;

  /** Seed of a hybrid that is wanted, kilograms. */
  public record Wanted(String hybridId, int year, double kg, double weight) {}

  /**
   * What a person asks.
   *
   * @param inputs yields, rates and losses
   * @param demands what is wanted
   * @param level which of its three quantities
   * @param limits of area
   * @param pins areas decided on
   */
  public record Question(
      int firstYear,
      int lastYear,
      PlanInputs inputs,
      List<SeedDemand> demands,
      SeedDemand.Level level,
      List<AreaLimit> limits,
      List<PinnedArea> pins) {}

  /**
   * The task.
   *
   * @param lots in store; those of seed that is no part of the chain are left out
   * @param lastGrown latest year of harvest of each seed that is on record or sown; it bears on
   *     seed that is not multiplied each year
   * @throws PlanRefusedException where the question cannot be planned
   */
  public static PlanTask of(
      Question question,
      MultiplicationChain chain,
      List<SupplyLot> lots,
      Map<String, Integer> lastGrown) {
    int first = question.firstYear();
    int last = question.lastYear();
    if (last <= first || last > first + MOST_YEARS) {
      throw new PlanRefusedException(
          new PlanRefusal.YearOutside("lastYear", last, first + 1, first + MOST_YEARS));
    }
    List<GrownSeed> seeds = grown(question, chain, lastGrown);
    Set<String> ids = seeds.stream().map(GrownSeed::seedId).collect(Collectors.toSet());
    check(question, ids);
    return new PlanTask(
        first,
        last,
        seeds,
        question.demands().stream()
            .map(
                demand ->
                    new Wanted(
                        demand.hybridId(),
                        demand.year(),
                        demand.kg(question.level()),
                        demand.weight()))
            .toList(),
        lots.stream().filter(lot -> ids.contains(lot.seedId())).toList(),
        question.limits(),
        question.pins());
  }

  private static List<GrownSeed> grown(
      Question question, MultiplicationChain chain, Map<String, Integer> lastGrown) {
    Map<String, SeedInputs> inputs = new HashMap<>();
    chain.steps().forEach(step -> inputs.put(step.seedId(), question.inputs().of(step)));
    return chain.steps().stream()
        .map(
            step -> {
              SeedInputs own = inputs.get(step.seedId());
              Map<String, Double> rates = SowingRates.kgPerHa(step, question.inputs(), inputs::get);
              return new GrownSeed(
                  step.seedId(),
                  step.generation(),
                  own.cleanKgPerHa(),
                  rates,
                  own.kept(),
                  own.minimumStockKg(),
                  rates.isEmpty()
                      ? new TreeSet<>()
                      : harvestYears(
                          question,
                          own.intervalYears(),
                          Optional.ofNullable(lastGrown.get(step.seedId()))),
                  own.intervalYears() > 1);
            })
        .toList();
  }

  /** Every so many years after the last one; at once where that is past or none is on record. */
  private static SortedSet<Integer> harvestYears(
      Question question, int interval, Optional<Integer> lastGrown) {
    int next = Math.max(question.firstYear() + 1, lastGrown.map(year -> year + interval).orElse(0));
    SortedSet<Integer> years = new TreeSet<>();
    for (int year = next; year <= question.lastYear(); year += interval) {
      years.add(year);
    }
    return years;
  }

  private static void check(Question question, Set<String> ids) {
    Set<List<Object>> given = new HashSet<>();
    for (SeedDemand demand : question.demands()) {
      if (!ids.contains(demand.hybridId())) {
        throw new PlanRefusedException(new PlanRefusal.UnknownHybrid(demand.hybridId()));
      }
      within("demand", demand.year(), question.firstYear(), question);
      once(given, "demand", demand.hybridId(), demand.year());
    }
    for (PinnedArea pin : question.pins()) {
      if (!ids.contains(pin.seedId())) {
        throw new PlanRefusedException(new PlanRefusal.UnknownSeed("pins", pin.seedId()));
      }
      within("pins", pin.year(), question.firstYear() + 1, question);
      once(given, "pins", pin.seedId(), pin.year());
    }
    for (AreaLimit limit : question.limits()) {
      within("limits", limit.year(), question.firstYear() + 1, question);
      once(given, "limits", limit.generation().map(Enum::name).orElse("*"), limit.year());
    }
  }

  private static void within(String field, int year, int first, Question question) {
    if (year < first || year > question.lastYear()) {
      throw new PlanRefusedException(
          new PlanRefusal.YearOutside(field, year, first, question.lastYear()));
    }
  }

  private static void once(Set<List<Object>> given, String field, String id, int year) {
    if (!given.add(List.of(field, id, year))) {
      throw new PlanRefusedException(new PlanRefusal.GivenTwice(field, id, year));
    }
  }

  /** Years of harvest in the plan, the first included. */
  int years() {
    return lastYear - firstYear + 1;
  }

  /** Counted seed of each kind in store, kilograms. */
  Map<String, Double> inStoreKg() {
    Map<String, Double> kg = new TreeMap<>();
    lots.forEach(lot -> kg.merge(lot.seedId(), lot.countedKg(), Double::sum));
    return kg;
  }
}
