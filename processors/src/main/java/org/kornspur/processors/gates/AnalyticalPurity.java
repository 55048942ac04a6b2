package org.kornspur.processors.gates;

import java.util.List;
import org.kornspur.contract.PurityTest;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.finding.Advice;
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
 * counts.
 *
 * <p>Council Directive 66/402/EEC, Annex II.
 */
final class AnalyticalPurity implements GateRule {

  @Override
  public Gate gate() {
    return Gate.ANALYTICAL_PURITY;
  }

  @Override
  public List<Verdict> judge(Dossier dossier, Rulebook rulebook) {
    return SeedLot.tested(dossier, rulebook)
        .flatMap(lot -> lot.limit(Quantity.ANALYTICAL_PURITY).map(limit -> judge(lot, limit)))
        .orElse(List.of());
  }

  private static List<Verdict> judge(SeedLot lot, Limit limit) {
    List<PurityTest> tests = lot.dossier().facts(PurityTest.class);
    return tests.isEmpty()
        ? lot.verdictsOfUnsplitOr(
            Gate.ANALYTICAL_PURITY,
            () -> Found.missing(Gate.ANALYTICAL_PURITY, limit, new Evidence.PurityTest()))
        : List.of(
            WorstResult.judge(
                tests,
                AnalyticalPurity::percent,
                AnalyticalPurity::found,
                limit,
                lot.remedies(new Advice.CleanAndSample())));
  }

  private static double percent(PurityTest test) {
    return Rounding.tenthPercent(100 * test.getPureSeedG() / allG(test));
  }

  private static double allG(PurityTest test) {
    return test.getPureSeedG() + test.getInertMatterG() + test.getOtherSeedsG();
  }

  private static Found found(PurityTest test) {
    return Found.of(
        Gate.ANALYTICAL_PURITY,
        List.of(test.getHeader().getFactId()),
        new PurityFinding.PureSeed(
            Amount.percent(percent(test)),
            Amount.grams(test.getPureSeedG()),
            Amount.grams(allG(test))));
  }
}
