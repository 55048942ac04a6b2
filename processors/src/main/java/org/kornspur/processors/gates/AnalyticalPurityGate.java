package org.kornspur.processors.gates;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.kornspur.contract.PurityTest;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.finding.Advice;
import org.kornspur.processors.finding.Bound;
import org.kornspur.processors.finding.CountFinding;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.PurityFinding;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.statistics.Rounding;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * Pure seed of the working sample, percent by weight to one decimal; of several tests the worst
 * counts. A working sample that is too light proves nothing good.
 *
 * <p>Council Directive 66/402/EEC, Annex II.
 */
final class AnalyticalPurityGate implements GateRule {

  /** Balances for working samples tell hundredths; less is rounding of the sum. */
  private static final double PARTS_OF_A_GRAM = 10_000;

  @Override
  public List<Verdict> judge(Dossier dossier, Rulebook rulebook) {
    return SeedLot.tested(dossier, rulebook, Gate.ANALYTICAL_PURITY)
        .flatMap(lot -> lot.limit(Quantity.ANALYTICAL_PURITY).map(limit -> judge(lot, limit)))
        .orElse(List.of());
  }

  private static List<Verdict> judge(SeedLot lot, Limit limit) {
    List<PurityTest> tests = lot.dossier().facts(PurityTest.class);
    return tests.isEmpty()
        ? lot.verdictsOfUnsplitOr(
            Gate.ANALYTICAL_PURITY,
            () -> Findings.missing(Gate.ANALYTICAL_PURITY, limit, new Evidence.PurityTest()))
        : Stream.concat(
                Stream.of(judge(lot, limit, tests)),
                WeighedAgainstCounted.judge(tests, lot.dossier()))
            .toList();
  }

  /** What a sample that is too light has too much of counts; it proves nothing good. */
  private static Verdict judge(SeedLot lot, Limit limit, List<PurityTest> tests) {
    Optional<Limit> least = lot.limit(Quantity.PURITY_SAMPLE_MASS);
    List<PurityTest> heavy =
        tests.stream()
            .filter(test -> least.map(mass -> mass.holds(allG(test))).orElse(true))
            .toList();
    Verdict byAll = worst(lot, limit, tests);
    if (byAll instanceof Verdict.NotMet || heavy.size() == tests.size()) {
      return byAll;
    }
    if (!heavy.isEmpty()) {
      return worst(lot, limit, heavy);
    }
    PurityTest last = tests.get(tests.size() - 1);
    Limit mass = least.orElseThrow();
    return found(last)
        .and(new CountFinding.SampleTooLight(Amount.grams(allG(last)), Bound.cited(mass)))
        .owed(limit, new Evidence.PurityTestOf(Amount.grams(mass.value())));
  }

  private static Verdict worst(SeedLot lot, Limit limit, List<PurityTest> tests) {
    return WorstResult.judge(
        tests,
        AnalyticalPurityGate::percent,
        AnalyticalPurityGate::found,
        limit,
        lot.remedies(new Advice.CleanAndSample()));
  }

  private static double percent(PurityTest test) {
    return Rounding.tenthPercent(100 * test.getPureSeedG() / allG(test));
  }

  private static double allG(PurityTest test) {
    double sum = test.getPureSeedG() + test.getInertMatterG() + test.getOtherSeedsG();
    return Math.rint(sum * PARTS_OF_A_GRAM) / PARTS_OF_A_GRAM;
  }

  private static Findings found(PurityTest test) {
    return Findings.of(
        Gate.ANALYTICAL_PURITY,
        List.of(test.getHeader().getFactId()),
        new PurityFinding.PureSeed(
            Amount.percent(percent(test)),
            Amount.grams(test.getPureSeedG()),
            Amount.grams(allG(test))));
  }
}
