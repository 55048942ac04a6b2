package org.kornspur.processors.standards;

import java.time.LocalDate;
import java.util.Optional;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.kornspur.contract.Category;
import org.kornspur.contract.CropRole;

/**
 * A book that tightens another may only be stricter: every line of it is held against the other.
 */
final class Tightening {

  private Tightening() {}

  static void check(String file, WrittenRulebook book) {
    for (int at = 0; at < book.lines().size(); at++) {
      RulebookLine line = book.lines().get(at);
      for (Rulebook base : book.inheritedFrom().toList()) {
        int index = at;
        looserThan(base, line)
            .ifPresent(
                broken -> {
                  throw new RulebookRefused(
                      "%s: limits[%d] (%s, %s): field value: '%s' is looser than '%s' (%s). A book that tightens another may only be stricter: give this limit at least that strictness or leave it out"
                          .formatted(
                              file,
                              index,
                              line.limit().quantity(),
                              line.categories(),
                              described(line.limit()),
                              described(broken),
                              broken.citation()));
                });
      }
    }
  }

  private static String described(Limit limit) {
    return limit.wording()
        + limit
            .secondSample()
            .map(
                second ->
                    ", or up to %s with a second sample of at most %s"
                        .formatted(second.firstAtMost(), second.secondAtMost()))
            .orElse("");
  }

  private static Optional<Limit> looserThan(Rulebook base, RulebookLine line) {
    return Stream.concat(cropLimits(base, line), lotLimits(base, line))
        .filter(limit -> looser(line.limit(), limit))
        .findFirst();
  }

  private static Stream<Limit> cropLimits(Rulebook base, RulebookLine line) {
    if (!line.limit().quantity().ofCrop() || !line.rye().contains(Rye.HYBRID)) {
      return Stream.empty();
    }
    Stream.Builder<Limit> found = Stream.builder();
    for (Category category : line.categories()) {
      for (CropRole role : line.roles()) {
        for (LocalDate day : daysToCompare(base, line)) {
          base.forCrop(line.limit().quantity(), category, role, day).ifPresent(found);
        }
      }
    }
    return found.build();
  }

  private static Stream<Limit> lotLimits(Rulebook base, RulebookLine line) {
    if (line.limit().quantity().ofCrop()) {
      return Stream.empty();
    }
    Stream.Builder<Limit> found = Stream.builder();
    for (Category category : line.categories()) {
      for (Rye seed : line.rye()) {
        for (LocalDate day : daysToCompare(base, line)) {
          base.forLot(line.limit().quantity(), category, seed, day).ifPresent(found);
        }
      }
    }
    return found.build();
  }

  /** Days on which the comparison can change while the line holds. */
  private static Iterable<LocalDate> daysToCompare(Rulebook base, RulebookLine line) {
    TreeSet<LocalDate> days = new TreeSet<>();
    days.add(line.limit().inForceFrom());
    for (Optional<Rulebook> book = Optional.of(base);
        book.isPresent();
        book = book.get().tightens()) {
      book.get().lines().stream()
          .map(other -> other.limit().inForceFrom())
          .filter(day -> day.isAfter(line.limit().inForceFrom()))
          .filter(day -> line.limit().inForceTo().map(last -> !day.isAfter(last)).orElse(true))
          .forEach(days::add);
    }
    return days;
  }

  private static boolean looser(Limit own, Limit base) {
    if (own.sense() != base.sense()) {
      return true;
    }
    return !base.holds(own.value()) || secondSampleLooser(own, base);
  }

  private static boolean secondSampleLooser(Limit own, Limit base) {
    if (own.secondSample().isEmpty()) {
      return false;
    }
    double highestSaved = own.secondSample().get().firstAtMost();
    double highestInSecond = own.secondSample().get().secondAtMost();
    if (base.secondSample().isEmpty()) {
      return highestSaved > base.value();
    }
    return highestSaved > base.secondSample().get().firstAtMost()
        || highestInSecond > base.secondSample().get().secondAtMost();
  }
}
