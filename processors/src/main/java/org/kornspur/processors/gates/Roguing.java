package org.kornspur.processors.gates;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Optional;
import java.util.function.Predicate;
import org.kornspur.processors.finding.Finding;
import org.kornspur.processors.finding.OffTypesFinding;
import org.kornspur.processors.ground.FloweringWindow;
import org.kornspur.processors.standards.Limit;

/**
 * What is left of too many plants at one visit when a later one finds them gone. What was removed
 * before the crop flowered has done nothing. What was removed in flower has shed, so it counts by
 * the days of flowering until the visit that found it gone; it never vanishes. Where these days are
 * not known it counts whole. A visit that finds them gone is one that would be enough by itself.
 *
 * <p>Seed Ordinance (SaatV), section 8(1): a fault that can be mended is inspected again. That
 * plants in flower count by days: common practice, no source.
 *
 * @param counts the counts of each visit, by day
 * @param mayShed whether the plants shed pollen that does harm
 */
record Roguing(
    List<Count> counts,
    Limit limit,
    Predicate<Count> isEnough,
    Flowering flowering,
    boolean mayShed) {

  /**
   * When the crop flowers. Plants shed from the first day on which it was seen or said to; the days
   * that were declared are what they are shared out over, so that no later look makes them fewer.
   */
  record Flowering(FloweringWindow declared, FloweringWindow seen) {
    static Flowering of(SeedCrop crop) {
      return new Flowering(crop.declaredFlowering(), crop.flowering());
    }

    static Flowering unknown() {
      return new Flowering(FloweringWindow.unknown(), FloweringWindow.unknown());
    }

    boolean isKnown() {
      return declared.isKnown();
    }

    boolean hasBegunOn(LocalDate day) {
      return seen.from().filter(first -> !day.isBefore(first)).isPresent();
    }
  }

  /**
   * What one visit counted.
   *
   * @param found bad plants
   * @param among plants or square metres
   */
  record Count(Visit visit, int found, double among) {
    double rate() {
      return found / among;
    }
  }

  /**
   * What a count comes to.
   *
   * @param rate bad plants for each plant or square metre that are held against the limit
   * @param counts what its interval rests on
   * @param how how plants that are gone were counted
   */
  record Remaining(double rate, List<Count> counts, List<Finding> how) {
    int found() {
      return Roguing.found(counts);
    }

    double among() {
      return Roguing.among(counts);
    }
  }

  /** What one visit comes to. */
  Remaining at(Count count) {
    Optional<Count> clean = cleanAfter(count);
    if (clean.isEmpty()) {
      return new Remaining(count.rate(), List.of(count), List.of());
    }
    double weight = weight(count, clean.get());
    List<Finding> how = List.of(how(count, clean.get()));
    if (weight >= 1) {
      return new Remaining(count.rate(), List.of(count), how);
    }
    double shed = weight == 0 ? 0 : weight * count.rate();
    return new Remaining(clean.get().rate() + shed, List.of(clean.get()), how);
  }

  /** Whether a later visit was enough, and what is left of a count by it within the limit. */
  boolean isMended(Count count) {
    return nextClean(count).isPresent() && limit.holds(at(count).rate());
  }

  /** What all visits come to together. */
  Remaining all() {
    List<Count> whole = counts.stream().filter(count -> weight(count) >= 1).toList();
    double shed =
        counts.stream()
            .filter(count -> weight(count) < 1)
            .mapToDouble(count -> weight(count) * count.rate())
            .sum();
    List<Finding> how =
        counts.stream()
            .flatMap(count -> cleanAfter(count).map(clean -> how(count, clean)).stream())
            .toList();
    return new Remaining(found(whole) / among(whole) + shed, whole, how);
  }

  /** Visits whose plants were gone later and had done nothing until then. */
  List<Integer> gone() {
    return counts.stream()
        .filter(count -> weight(count) == 0)
        .map(count -> count.visit().number())
        .toList();
  }

  private static int found(List<Count> counts) {
    return counts.stream().mapToInt(Count::found).reduce(0, Math::addExact);
  }

  private static double among(List<Count> counts) {
    return counts.stream().mapToDouble(Count::among).sum();
  }

  private double weight(Count count) {
    return cleanAfter(count).map(clean -> weight(count, clean)).orElse(1.0);
  }

  private Optional<Count> cleanAfter(Count count) {
    return limit.holds(count.rate()) ? Optional.empty() : nextClean(count);
  }

  private Optional<Count> nextClean(Count count) {
    return counts.stream()
        .filter(later -> later.visit().day().isAfter(count.visit().day()))
        .filter(later -> limit.holds(later.rate()))
        .filter(isEnough)
        .findFirst();
  }

  /** Share of the days of flowering on which the plants stood: 0 before it, 1 where unknown. */
  private double weight(Count count, Count clean) {
    if (wereGoneBeforeFlowering(clean)) {
      return 0;
    }
    return flowering.isKnown() ? (double) daysShed(count, clean) / daysOfFlowering() : 1;
  }

  private Finding how(Count count, Count clean) {
    int at = clean.visit().number();
    if (wereGoneBeforeFlowering(clean)) {
      return new OffTypesFinding.GoneBeforeFlowering(at);
    }
    return flowering.isKnown()
        ? new OffTypesFinding.GoneInFlower(at, daysShed(count, clean), daysOfFlowering())
        : new OffTypesFinding.DaysOfSheddingUnknown(at);
  }

  /** Plants that were there before flowering and are gone at its end may have shed all the time. */
  private boolean wereGoneBeforeFlowering(Count clean) {
    return !mayShed || !hasBegunOn(clean.visit().day());
  }

  /** By its days, or by any visit until then. */
  private boolean hasBegunOn(LocalDate day) {
    return flowering.hasBegunOn(day)
        || counts.stream()
            .map(Count::visit)
            .filter(visit -> !visit.day().isAfter(day))
            .anyMatch(Visit::isFromFloweringOn);
  }

  /** From the first day of flowering, or an earlier visit in flower, to the day found gone. */
  private int daysShed(Count count, Count clean) {
    LocalDate first = flowering.seen().from().orElseThrow();
    boolean shedEarlier = count.visit().isFromFloweringOn() && count.visit().day().isBefore(first);
    LocalDate from = shedEarlier ? count.visit().day() : first;
    long days = ChronoUnit.DAYS.between(from, clean.visit().day());
    return (int) Math.min(daysOfFlowering(), Math.max(1, days));
  }

  private int daysOfFlowering() {
    return Math.toIntExact(flowering.declared().days());
  }
}
