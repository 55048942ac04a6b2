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
 * ever lowers the average. The days are those declared, or those with all on which somebody saw it
 * flower or counted, whichever average is worse: so no further look lowers it either.
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
  private record Day(LocalDate day, double share, boolean isClean) {}

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
        && days.stream().anyMatch(day -> !isWithin.test(day.share()));
  }

  private Shares shares(ToIntFunction<Count> plants) {
    List<Day> days = days(plants);
    int shedding = sum(counts, Count::shedding);
    if (days.size() < 2 || !declared.isKnown()) {
      return new Shares(shedding, sum(counts, plants), Optional.empty(), 0);
    }
    List<Level> levels = levels(days);
    Average worst =
        Stream.of(declared, withCounts(days))
            .map(window -> average(levels, window))
            .max(Comparator.comparingDouble(Average::share))
            .orElseThrow();
    return new Shares(
        shedding, sum(counts, plants), Optional.of(worst.share()), Math.toIntExact(worst.days()));
  }

  private FloweringWindow withCounts(List<Day> days) {
    LocalDate first = days.get(0).day();
    LocalDate last = days.get(days.size() - 1).day();
    return new FloweringWindow(
        seen.from().filter(from -> from.isBefore(first)).or(() -> Optional.of(first)),
        seen.to().filter(to -> to.isAfter(last)).or(() -> Optional.of(last)));
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

  private static List<Level> levels(List<Day> days) {
    List<Level> levels = new ArrayList<>();
    LocalDate from = LocalDate.MIN;
    Optional<Double> share = Optional.empty();
    for (Day day : days) {
      if (day.isClean()) {
        levels.add(new Level(from, day.day(), share.orElse(day.share())));
        from = day.day();
        share = Optional.of(day.share());
      } else {
        share = Optional.of(Math.max(share.orElse(0.0), day.share()));
      }
    }
    levels.add(new Level(from, LocalDate.MAX, share.orElse(0.0)));
    return levels;
  }

  private List<Day> days(ToIntFunction<Count> plants) {
    SortedMap<LocalDate, List<Count>> byDay =
        counts.stream()
            .collect(Collectors.groupingBy(Count::day, TreeMap::new, Collectors.toList()));
    return byDay.entrySet().stream()
        .map(
            made ->
                new Day(
                    made.getKey(),
                    (double) sum(made.getValue(), Count::shedding) / sum(made.getValue(), plants),
                    isClean(made.getValue())))
        .toList();
  }

  private boolean isClean(List<Count> ofDay) {
    int inFlower = sum(ofDay, Count::receptive);
    return size.isEnough(inFlower)
        && isWithin.test((double) sum(ofDay, Count::shedding) / inFlower);
  }

  private static int sum(Collection<Count> some, ToIntFunction<Count> number) {
    return some.stream().mapToInt(number).reduce(0, Math::addExact);
  }
}
