package org.kornspur.processors.gates;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.DoublePredicate;
import java.util.function.ToIntFunction;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.kornspur.contract.FieldInspection;
import org.kornspur.contract.SterilityCheck;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.processors.ground.FloweringWindow;

/**
 * How much of the female shed, over the plants counted and over the days of flowering. Shedders
 * count from the last day on which enough plants were counted within the limit, or from the first
 * day of flowering, to the next such day, which found them gone. So no further day over the limit
 * ever lowers the average. Between them days with enough plants count by the worst, those with too
 * few together where they are within the limit then. The days are those declared, or those with all
 * on which somebody counted, or saw it flower before or after, whichever average is worst: so no
 * further look lowers it either. Before the first count and after the last one the share is one, so
 * that of further days the most or none are the worst.
 *
 * @param counts none that is impossible
 * @param size how many plants in flower are enough
 * @param isWithin shares by which shedders are gone
 * @param declared days of flowering as declared
 * @param seen those with all on which it was seen in flower
 */
record SheddingDays(
    List<Count> counts,
    SampleSize size,
    DoublePredicate isWithin,
    FloweringWindow declared,
    FloweringWindow seen) {

  /**
   * Shedding plants that were counted on one day.
   *
   * @param receptive plants in flower
   * @param plants all plants that were looked at, where their number is known
   * @param isInFlower whether the crop flowered by its growth stage; others are no evidence
   */
  record Count(LocalDate day, int shedding, int receptive, int plants, boolean isInFlower) {
    static Count of(FieldInspection count) {
      int receptive = count.getPlantsInReceptiveFlower();
      return new Count(
          FactType.dayOf(count),
          count.getSheddingPlants(),
          receptive,
          Math.max(receptive, Optional.ofNullable(count.getPlantsCounted()).orElse(0)),
          FloweringWindow.isInFlower(count.getBbchStage()));
    }

    static Count of(SterilityCheck check) {
      int examined = check.getPlantsExamined();
      return new Count(FactType.dayOf(check), check.getPlantsShedding(), examined, examined, true);
    }
  }

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
  private record Day(
      LocalDate day, int shedding, int plants, int receptive, boolean isEnough, boolean isClean) {
    double share() {
      return (double) shedding / plants;
    }
  }

  /** Days on which one share shed, the last one left out. */
  private record Level(LocalDate from, LocalDate until, double share) {
    double within(LocalDate begins, LocalDate over) {
      LocalDate first = from.isAfter(begins) ? from : begins;
      LocalDate end = until.isBefore(over) ? until : over;
      return first.isBefore(end) ? share * ChronoUnit.DAYS.between(first, end) : 0;
    }
  }

  private record Average(double share, long days) {}

  /** Among plants in receptive flower. */
  Shares inFlower() {
    return shares(Count::receptive);
  }

  /** Among all plants that were looked at, where their number is known. */
  Shares ofAllPlants() {
    return shares(Count::plants);
  }

  /** Plants in flower that were counted while the crop flowered; others are no evidence. */
  int countedInFlower() {
    return sum(counts.stream().filter(Count::isInFlower).toList(), Count::receptive);
  }

  /** Whether one day is over the limit and nobody knows for how many days of flowering. */
  boolean hideAFailedDay() {
    List<Day> days = days(Count::receptive);
    return days.size() > 1
        && !declared.isKnown()
        && levels(days).stream().anyMatch(level -> !isWithin.test(level.share()));
  }

  private Shares shares(ToIntFunction<Count> plants) {
    List<Day> days = days(plants);
    int shedding = sum(counts, Count::shedding);
    if (days.size() < 2 || !declared.isKnown()) {
      return new Shares(shedding, sum(counts, plants), Optional.empty(), 0);
    }
    List<Level> levels = levels(days);
    Average worst =
        Stream.concat(Stream.of(declared), withCounts(days))
            .map(window -> average(levels, window))
            .max(Comparator.comparingDouble(Average::share))
            .orElseThrow();
    return new Shares(
        shedding, sum(counts, plants), Optional.of(worst.share()), Math.toIntExact(worst.days()));
  }

  /** Each with and without the days before the first count and after the last. */
  private Stream<FloweringWindow> withCounts(List<Day> days) {
    LocalDate first = days.get(0).day();
    LocalDate last = days.get(days.size() - 1).day();
    return Stream.of(declared, seen)
        .map(window -> window.from().filter(first::isAfter).orElse(first))
        .flatMap(
            from ->
                Stream.of(declared, seen)
                    .map(window -> window.to().filter(last::isBefore).orElse(last))
                    .map(to -> new FloweringWindow(Optional.of(from), Optional.of(to))));
  }

  private static Average average(List<Level> levels, FloweringWindow window) {
    LocalDate begins = window.from().orElseThrow();
    LocalDate over = window.to().orElseThrow().plusDays(1);
    double total = 0;
    for (Level level : levels) {
      total += level.within(begins, over);
    }
    return new Average(total / window.days(), window.days());
  }

  private List<Level> levels(List<Day> days) {
    List<Level> levels = new ArrayList<>();
    LocalDate from = LocalDate.MIN;
    List<Day> since = new ArrayList<>();
    for (Day day : days) {
      if (day.isClean()) {
        levels.add(new Level(from, day.day(), worst(since.isEmpty() ? List.of(day) : since)));
        from = day.day();
        since.clear();
      }
      since.add(day);
    }
    levels.add(new Level(from, LocalDate.MAX, worst(since)));
    return levels;
  }

  private double worst(List<Day> days) {
    List<Day> small = days.stream().filter(day -> !day.isEnough()).toList();
    double shedding = small.stream().mapToInt(Day::shedding).sum();
    boolean areWithin = isWithin.test(shedding / small.stream().mapToInt(Day::receptive).sum());
    double together = shedding / small.stream().mapToInt(Day::plants).sum();
    return days.stream()
        .mapToDouble(day -> areWithin && !day.isEnough() ? together : day.share())
        .max()
        .orElse(0);
  }

  private List<Day> days(ToIntFunction<Count> plants) {
    SortedMap<LocalDate, List<Count>> byDay =
        counts.stream()
            .collect(Collectors.groupingBy(Count::day, TreeMap::new, Collectors.toList()));
    return byDay.entrySet().stream()
        .map(made -> day(made.getKey(), made.getValue(), plants))
        .toList();
  }

  private Day day(LocalDate day, List<Count> ofDay, ToIntFunction<Count> plants) {
    int shedding = sum(ofDay, Count::shedding);
    int receptive = sum(ofDay, Count::receptive);
    boolean isEnough = size.isEnough(receptive);
    return new Day(
        day,
        shedding,
        sum(ofDay, plants),
        receptive,
        isEnough,
        isEnough && isWithin.test((double) shedding / receptive));
  }

  private static int sum(Collection<Count> some, ToIntFunction<Count> number) {
    return some.stream().mapToInt(number).reduce(0, Math::addExact);
  }
}
