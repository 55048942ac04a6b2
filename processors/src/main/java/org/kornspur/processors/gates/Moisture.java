package org.kornspur.processors.gates;

import java.util.List;
import java.util.Optional;
import org.kornspur.contract.MoistureTest;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * Moisture of the seed, percent of wet mass; the latest test counts.
 *
 * <p>A national rule: Seed Ordinance (SaatV), Annex 3 no. 1.1.3.
 */
final class Moisture implements GateRule {

  @Override
  public Gate gate() {
    return Gate.MOISTURE;
  }

  @Override
  public List<Verdict> judge(Dossier dossier, Rulebook rulebook) {
    return SeedLot.toBeUsed(dossier, rulebook)
        .flatMap(lot -> lot.limit(Quantity.MOISTURE).map(limit -> judge(lot, limit)))
        .orElse(List.of());
  }

  private static List<Verdict> judge(SeedLot lot, Limit limit) {
    return lot.dossier()
        .latest(MoistureTest.class)
        .map(test -> List.of(verdict(lot, test, limit)))
        .orElseGet(
            () ->
                lot.verdictsOfUnsplitOr(
                    Gate.MOISTURE,
                    () -> Finding.missing(Gate.MOISTURE, "", limit, "a test of moisture")));
  }

  private static Verdict verdict(SeedLot lot, MoistureTest test, Limit limit) {
    return new Finding(
            Gate.MOISTURE,
            "",
            test.getMoisturePercent(),
            Optional.empty(),
            List.of(test.getHeader().getFactId()),
            "Moisture is %s %%".formatted(Wording.number(test.getMoisturePercent())))
        .against(limit, lot.remedy("Dry the lot gently and have it sampled anew."));
  }
}
