package org.kornspur.processors.standards;

import java.time.LocalDate;
import java.util.Optional;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.kornspur.contract.Category;
import org.kornspur.contract.CropRole;

/**
 * A book that tightens another may only be stricter: every line of it is held against the other,
 * but one in which a law itself allows more.
 */
final class Tightening {

  private Tightening() {}

  static void check(String file, WrittenRulebook book) {
    checkNothingAsked(file, book);
    for (int at = 0; at < book.lines().size(); at++) {
      RulebookLine line = book.lines().get(at);
      if (line.exception()) {
        continue;
      }
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

  /** A book that tightens another may not ask for nothing where that has a limit. */
  private static void checkNothingAsked(String file, WrittenRulebook book) {
    for (int at = 0; at < book.nothingAsked().size(); at++) {
      NothingAskedLine line = book.nothingAsked().get(at);
      for (Rulebook base : book.base().stream().toList()) {
        int index = at;
        limitsOf(base, line)
            .findFirst()
            .ifPresent(
                limit -> {
                  throw new RulebookRefused(
                      "%s: nothingAsked[%d] (%s, %s): '%s' holds here (%s). A book that tightens another may only be stricter: take this line out"
                          .formatted(
                              file,
                              index,
                              limit.quantity(),
                              line.categories(),
                              described(limit),
                              limit.citation()));
                });
      }
    }
  }

  private static Stream<Limit> limitsOf(Rulebook base, NothingAskedLine line) {
    Stream.Builder<Limit> found = Stream.builder();
    for (Quantity quantity : line.quantities()) {
      for (Category category : line.categories()) {
        for (LocalDate day : days(base, line.nothing().inForceFrom(), line.nothing().inForceTo())) {
          if (quantity.ofCrop()) {
            line.roles().forEach(r -> base.forCrop(quantity, category, r, day).ifPresent(found));
          } else {
            line.rye().forEach(rye -> base.forLot(quantity, category, rye, day).ifPresent(found));
          }
        }
      }
    }
    return found.build().filter(limit -> !limit.text().equals(Limit.NO_SOURCE));
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

  private static Iterable<LocalDate> daysToCompare(Rulebook base, RulebookLine line) {
    return days(base, line.limit().inForceFrom(), line.limit().inForceTo());
  }

  /** Days on which the comparison can change while a line holds. */
  private static Iterable<LocalDate> days(Rulebook base, LocalDate from, Optional<LocalDate> to) {
    TreeSet<LocalDate> days = new TreeSet<>();
    days.add(from);
    for (Optional<Rulebook> book = Optional.of(base);
        book.isPresent();
        book = book.get().tightens()) {
      book.get().lines().stream()
          .map(other -> other.limit().inForceFrom())
          .filter(day -> day.isAfter(from))
          .filter(day -> to.map(last -> !day.isAfter(last)).orElse(true))
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
