package org.kornspur.processors.gates;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.ToIntFunction;
import java.util.stream.Collectors;
import org.kornspur.contract.FieldInspection;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.processors.ground.FloweringWindow;
import org.kornspur.processors.standards.Limit;

/**
 * How much of the female shed, over the plants counted and over the days of flowering. Shedders
 * count from the last day on which enough plants were counted within the limit, or from the first
 * day of flowering, to the next such day, which found them gone. So no further day over the limit
 * ever lowers the average.
 *
 * @param counts counts of shedding plants and plants in flower; none that is impossible
 * @param size how many plants in flower are enough
 * @param limit the limit by which shedders are gone; without one every day tells how many were left
 */
record SheddingDays(
    List<FieldInspection> counts,
    SampleSize size,
    Optional<Limit> limit,
    FloweringWindow flowering) {

  /**
   * Shares of shedding plants.
   *
   * @param overDays the average over the days of flowering; empty where they are not known or there
   *     was one day of counting alone
   */
  record Shares(int shedding, int plants, Optional<Double> overDays, int daysOfFlowering) {
    double overPlants() {
      return (double) shedding / plants;
    }

    double worse() {
      return Math.max(overPlants(), overDays.orElse(0.0));
    }
  }

  /** The counts of one day. */
  private record Day(LocalDate day, double share, boolean isClean) {}

  /** Among plants in receptive flower. */
  Shares inFlower() {
    return shares(FieldInspection::getPlantsInReceptiveFlower);
  }

  /** Among all plants that were looked at, where their number is known. */
  Shares ofAllPlants() {
    return shares(
        count ->
            Math.max(
                count.getPlantsInReceptiveFlower(),
                Optional.ofNullable(count.getPlantsCounted()).orElse(0)));
  }

  /** Plants in flower that were counted while the crop flowered; others are no evidence. */
  int countedInFlower() {
    return sum(
        counts.stream()
            .filter(count -> count.getBbchStage() >= Visit.FLOWERING_BEGINS)
            .filter(count -> count.getBbchStage() <= Visit.FLOWERING_ENDS)
            .toList(),
        FieldInspection::getPlantsInReceptiveFlower);
  }

  /** Whether one day is over the limit and nobody knows for how many days of flowering. */
  boolean hideAFailedDay() {
    List<Day> days = days(FieldInspection::getPlantsInReceptiveFlower);
    return days.size() > 1
        && !flowering.isKnown()
        && days.stream().anyMatch(day -> !limit.map(l -> l.holds(day.share())).orElse(true));
  }

  private Shares shares(ToIntFunction<FieldInspection> plants) {
    List<Day> days = days(plants);
    int shedding = sum(counts, FieldInspection::getSheddingPlants);
    if (days.size() < 2 || !flowering.isKnown()) {
      return new Shares(shedding, sum(counts, plants), Optional.empty(), 0);
    }
    LocalDate first = days.get(0).day();
    LocalDate last = days.get(days.size() - 1).day();
    LocalDate begins = flowering.from().filter(from -> from.isBefore(first)).orElse(first);
    LocalDate over = flowering.to().filter(to -> to.isAfter(last)).orElse(last).plusDays(1);
    int daysOfFlowering = Math.toIntExact(ChronoUnit.DAYS.between(begins, over));
    return new Shares(
        shedding,
        sum(counts, plants),
        Optional.of(total(days, begins, over) / daysOfFlowering),
        daysOfFlowering);
  }

  /** The shares of all days from one to another, added up. */
  private static double total(List<Day> days, LocalDate begins, LocalDate over) {
    double total = 0;
    LocalDate from = begins;
    Optional<Double> level = Optional.empty();
    for (Day day : days) {
      if (day.isClean()) {
        total += level.orElse(day.share()) * ChronoUnit.DAYS.between(from, day.day());
        from = day.day();
        level = Optional.of(day.share());
      } else {
        level = Optional.of(Math.max(level.orElse(0.0), day.share()));
      }
    }
    return total + level.orElse(0.0) * ChronoUnit.DAYS.between(from, over);
  }

  private List<Day> days(ToIntFunction<FieldInspection> plants) {
    SortedMap<LocalDate, List<FieldInspection>> byDay =
        counts.stream()
            .collect(Collectors.groupingBy(FactType::dayOf, TreeMap::new, Collectors.toList()));
    return byDay.entrySet().stream()
        .map(
            made ->
                new Day(
                    made.getKey(),
                    (double) sum(made.getValue(), FieldInspection::getSheddingPlants)
                        / sum(made.getValue(), plants),
                    isClean(made.getValue())))
        .toList();
  }

  private boolean isClean(List<FieldInspection> ofDay) {
    int inFlower = sum(ofDay, FieldInspection::getPlantsInReceptiveFlower);
    double share = (double) sum(ofDay, FieldInspection::getSheddingPlants) / inFlower;
    return size.isEnough(inFlower) && limit.map(most -> most.holds(share)).orElse(true);
  }

  private static int sum(Collection<FieldInspection> some, ToIntFunction<FieldInspection> number) {
    return some.stream().mapToInt(number).reduce(0, Math::addExact);
  }
}
