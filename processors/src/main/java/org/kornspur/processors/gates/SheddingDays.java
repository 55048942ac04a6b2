package org.kornspur.processors.gates;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Optional;
import java.util.function.ToIntFunction;
import org.kornspur.contract.FieldInspection;
import org.kornspur.processors.ground.FloweringWindow;
import org.kornspur.processors.standards.Limit;

/**
 * How much of the female shed, over the plants counted at some visits and over the days of
 * flowering. The share of a visit holds until the next visit, and that of the first from the first
 * day of flowering on. A visit at which too few were counted never lowers it.
 *
 * @param visits by day; none with an impossible count
 * @param size how many plants in flower are enough
 */
record SheddingDays(List<Visit> visits, SampleSize size, FloweringWindow flowering) {

  /**
   * Shares of shedding plants.
   *
   * @param overDays the average over the days of flowering; empty where they are not known or there
   *     was one visit alone
   */
  record Shares(int shedding, int plants, Optional<Double> overDays, int daysOfFlowering) {
    double overPlants() {
      return (double) shedding / plants;
    }

    double worse() {
      return Math.max(overPlants(), overDays.orElse(0.0));
    }
  }

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

  /** Plants in flower at visits in flower; others are no evidence. */
  int countedInFlower() {
    return visits.stream()
        .filter(Visit::isInFlower)
        .mapToInt(visit -> sum(visit, FieldInspection::getPlantsInReceptiveFlower))
        .reduce(0, Math::addExact);
  }

  /** Whether one visit is over the limit and nobody knows for how many days of flowering. */
  boolean hideAFailedVisit(Limit limit) {
    return visits.size() > 1
        && daysOfFlowering().isEmpty()
        && visits.stream()
            .anyMatch(
                visit -> !limit.holds(share(visit, FieldInspection::getPlantsInReceptiveFlower)));
  }

  private Shares shares(ToIntFunction<FieldInspection> plants) {
    return new Shares(
        visits.stream()
            .mapToInt(visit -> sum(visit, FieldInspection::getSheddingPlants))
            .reduce(0, Math::addExact),
        visits.stream().mapToInt(visit -> sum(visit, plants)).reduce(0, Math::addExact),
        overDays(plants),
        daysOfFlowering().orElse(0));
  }

  private Optional<Double> overDays(ToIntFunction<FieldInspection> plants) {
    if (visits.size() < 2 || daysOfFlowering().isEmpty()) {
      return Optional.empty();
    }
    LocalDate begins = flowering.from().orElseThrow();
    LocalDate over = flowering.to().orElseThrow().plusDays(1);
    double total = 0;
    LocalDate from = begins;
    double share = share(visits.get(0), plants);
    for (Visit visit : visits.subList(1, visits.size())) {
      LocalDate until = within(begins, visit.day(), over);
      total += share * ChronoUnit.DAYS.between(from, until);
      from = until;
      double found = share(visit, plants);
      boolean isEnough = size.isEnough(sum(visit, FieldInspection::getPlantsInReceptiveFlower));
      share = isEnough ? found : Math.max(share, found);
    }
    total += share * ChronoUnit.DAYS.between(from, over);
    return Optional.of(total / daysOfFlowering().orElseThrow());
  }

  private static LocalDate within(LocalDate first, LocalDate day, LocalDate last) {
    return day.isBefore(first) ? first : day.isAfter(last) ? last : day;
  }

  private Optional<Integer> daysOfFlowering() {
    return flowering
        .from()
        .flatMap(
            from ->
                flowering.to().map(to -> Math.toIntExact(ChronoUnit.DAYS.between(from, to) + 1)));
  }

  private static double share(Visit visit, ToIntFunction<FieldInspection> plants) {
    return (double) sum(visit, FieldInspection::getSheddingPlants) / sum(visit, plants);
  }

  private static int sum(Visit visit, ToIntFunction<FieldInspection> number) {
    return visit.counts().stream().mapToInt(number).reduce(0, Math::addExact);
  }
}
