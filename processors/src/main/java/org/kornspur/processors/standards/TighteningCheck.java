package org.kornspur.processors.standards;

import java.time.LocalDate;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.kornspur.contract.Category;
import org.kornspur.contract.CropRole;

/**
 * Checks a book that tightens another: it may only be stricter, so every line of it is held against
 * the other, but one in which a law itself allows more.
 */
final class TighteningCheck {

  private TighteningCheck() {}

  static void check(String file, WrittenRulebook book) {
    checkNothingAsked(file, book);
    for (int at = 0; at < book.lines().size(); at++) {
      RulebookLine line = book.lines().get(at);
      if (line.exception()) {
        continue;
      }
      for (Rulebook base : book.inheritedFrom().toList()) {
        Optional<Limit> broken = looserThan(base, line);
        if (broken.isPresent()) {
          throw new RulebookRefused(
              "%s: limits[%d] (%s, %s): field value: '%s' is looser than '%s' (%s). A book that tightens another may only be stricter: give this limit at least that strictness or leave it out"
                  .formatted(
                      file,
                      at,
                      line.limit().quantity(),
                      line.categories(),
                      described(line.limit()),
                      described(broken.get()),
                      broken.get().citation()));
        }
      }
    }
  }

  /** A book that tightens another may not ask for nothing where that has a limit. */
  private static void checkNothingAsked(String file, WrittenRulebook book) {
    for (int at = 0; at < book.nothingAsked().size(); at++) {
      NothingAskedLine line = book.nothingAsked().get(at);
      Optional<Limit> limit = book.base().flatMap(base -> limitsOf(base, line).findFirst());
      if (limit.isPresent()) {
        throw new RulebookRefused(
            "%s: nothingAsked[%d] (%s, %s): '%s' holds here (%s). A book that tightens another may only be stricter: take this line out"
                .formatted(
                    file,
                    at,
                    limit.get().quantity(),
                    line.categories(),
                    described(limit.get()),
                    limit.get().citation()));
      }
    }
  }

  private static Stream<Limit> limitsOf(Rulebook base, NothingAskedLine line) {
    Iterable<LocalDate> days = days(base, line.nothing().inForceFrom(), line.nothing().inForceTo());
    return line.quantities().stream()
        .flatMap(
            quantity -> limits(base, quantity, line.categories(), line.roles(), line.rye(), days))
        .filter(limit -> !limit.text().equals(Limit.NO_SOURCE));
  }

  private static Stream<Limit> limits(
      Rulebook base,
      Quantity quantity,
      Set<Category> categories,
      Set<CropRole> roles,
      Set<Rye> rye,
      Iterable<LocalDate> days) {
    Stream.Builder<Limit> found = Stream.builder();
    for (Category category : categories) {
      for (LocalDate day : days) {
        if (quantity.ofCrop()) {
          roles.forEach(role -> base.forCrop(quantity, category, role, day).ifPresent(found));
        } else {
          rye.forEach(seed -> base.forLot(quantity, category, seed, day).ifPresent(found));
        }
      }
    }
    return found.build();
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
    Quantity quantity = line.limit().quantity();
    Set<CropRole> roles = line.rye().contains(Rye.HYBRID) ? line.roles() : Set.of();
    Iterable<LocalDate> days = days(base, line.limit().inForceFrom(), line.limit().inForceTo());
    return limits(base, quantity, line.categories(), roles, line.rye(), days)
        .filter(limit -> looser(line.limit(), limit))
        .findFirst();
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
