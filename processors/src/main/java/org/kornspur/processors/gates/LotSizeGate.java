package org.kornspur.processors.gates;

import java.util.List;
import java.util.Optional;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.balance.MassFlow;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.finding.Advice;
import org.kornspur.processors.finding.Bound;
import org.kornspur.processors.finding.LotFinding;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Measured;
import org.kornspur.processors.verdict.Verdict;

/**
 * Mass of a lot, kilograms, with the percentage by which the text lets it be exceeded.
 *
 * <p>Council Directive 66/402/EEC, Annex III: 30 t, and 5 % over. Seed Ordinance (SaatV), Annex 4
 * note ++, in Germany alone: 35 t for hybrid rye with admixed open-pollinated rye.
 */
final class LotSizeGate implements GateRule {

  @Override
  public List<Verdict> judge(Dossier dossier, Rulebook rulebook) {
    return SeedLot.toBeUsed(dossier, rulebook)
        .flatMap(lot -> lot.limit(Quantity.LOT_MASS).map(limit -> List.of(judge(lot, limit))))
        .orElse(List.of());
  }

  private static Verdict judge(SeedLot lot, Limit limit) {
    Optional<Limit> excess = lot.limit(Quantity.LOT_MASS_EXCESS);
    double heldKg = lot.totalKg(MassFlow.Direction.IN);
    double allowedKg = limit.value() * (1 + excess.map(Limit::value).orElse(0.0) / 100);
    return Findings.of(
            Gate.LOT_SIZE,
            lot.flows(MassFlow.Direction.IN).stream().map(MassFlow::factId).distinct().toList(),
            new LotFinding.Weighs(Amount.kilograms(heldKg)))
        .and(excess.map(over -> new LotFinding.ExcessAllowed(Bound.cited(over))))
        .decided(
            heldKg <= allowedKg,
            Measured.exact(heldKg, limit.unit(), allowedKg - heldKg),
            limit,
            List.of(new Advice.SplitAndSample()));
  }
}
