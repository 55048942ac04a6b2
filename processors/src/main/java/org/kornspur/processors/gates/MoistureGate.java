package org.kornspur.processors.gates;

import java.util.List;
import org.kornspur.contract.MoistureTest;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.finding.Advice;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.MoistureFinding;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * Moisture of the seed, percent of wet mass; of several tests the worst counts. Seed that was dried
 * is another lot.
 *
 * <p>A national rule: Seed Ordinance (SaatV), Annex 3 no. 1.1.3.
 */
final class MoistureGate implements GateRule {

  @Override
  public List<Verdict> judge(Dossier dossier, Rulebook rulebook) {
    return SeedLot.tested(dossier, rulebook, Gate.MOISTURE)
        .flatMap(lot -> lot.limit(Quantity.MOISTURE).map(limit -> judge(lot, limit)))
        .orElse(List.of());
  }

  private static List<Verdict> judge(SeedLot lot, Limit limit) {
    List<MoistureTest> tests = lot.dossier().facts(MoistureTest.class);
    return tests.isEmpty()
        ? lot.verdictsOfUnsplitOr(
            Gate.MOISTURE,
            () -> Findings.missing(Gate.MOISTURE, limit, new Evidence.MoistureTest()))
        : List.of(
            WorstResult.judge(
                tests,
                MoistureTest::getMoisturePercent,
                MoistureGate::found,
                limit,
                lot.remedies(new Advice.DryAndSample())));
  }

  private static Findings found(MoistureTest test) {
    return Findings.of(
        Gate.MOISTURE,
        List.of(test.getHeader().getFactId()),
        new MoistureFinding.Found(Amount.percent(test.getMoisturePercent())));
  }
}
