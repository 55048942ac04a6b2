package org.kornspur.processors.gates;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import org.kornspur.contract.GerminationTest;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.Finding;
import org.kornspur.processors.finding.GerminationFinding;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * How long a germination test is good. The last day is told before it comes. Seed that was sown,
 * mixed or sold after it owes a test; seed that lies in store does not, for what is so today is no
 * fact of the lot.
 *
 * <p>7 CFR 201.30a: five calendar months from the end of the month in which the test was made. The
 * European texts name no time; common practice stands in and says so.
 */
final class GerminationAge {
  private GerminationAge() {}

  static Optional<Limit> limit(SeedLot lot) {
    return lot.limit(Quantity.GERMINATION_TEST_AGE);
  }

  /**
   * The verdict of a lot whose newest test is known.
   *
   * @param held the verdict, with what is to be said of the age
   */
  static Verdict of(
      SeedLot lot, GerminationTest newest, Function<Optional<? extends Finding>, Verdict> held) {
    Optional<LocalDate> until = limit(lot).map(age -> GerminationTests.goodUntil(newest, age));
    Verdict verdict = held.apply(until.map(GerminationFinding.CountsUntil::new));
    return until.flatMap(last -> tooOld(lot, verdict, last)).orElse(verdict);
  }

  /**
   * A part rests on the tests of the lot that it was split from, and is used on days of its own.
   */
  static Verdict ofPart(SeedLot part, Verdict ofUnsplit) {
    return until(ofUnsplit).flatMap(last -> tooOld(part, ofUnsplit, last)).orElse(ofUnsplit);
  }

  /** Whether by that day the newest test was older than it may be; false where nothing says. */
  static boolean isTooOld(List<Verdict> seedVerdicts, LocalDate on) {
    return seedVerdicts.stream()
        .filter(verdict -> verdict.gate() == Gate.GERMINATION)
        .flatMap(verdict -> until(verdict).stream())
        .anyMatch(on::isAfter);
  }

  private static Optional<LocalDate> until(Verdict verdict) {
    return GerminationFinding.CountsUntil.in(verdict.findings());
  }

  private static Optional<Verdict> tooOld(SeedLot lot, Verdict verdict, LocalDate until) {
    if (!(verdict instanceof Verdict.Met met)) {
      return Optional.empty();
    }
    return lot.dossier().edgesOut().stream()
        .filter(edge -> SeedLot.USES.contains(edge.by()))
        .map(Edge::day)
        .filter(used -> used.isAfter(until))
        .max(LocalDate::compareTo)
        .map(
            used ->
                Findings.of(
                        Gate.GERMINATION,
                        met.factIds(),
                        new GerminationFinding.UsedAfter(used, until))
                    .owed(limit(lot), new Evidence.NewGerminationTest()))
        .map(owed -> owed.withFurther(met.findings()));
  }
}
