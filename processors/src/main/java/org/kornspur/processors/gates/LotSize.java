package org.kornspur.processors.gates;

import java.util.List;
import java.util.Optional;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.pedigree.MassFlow;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * Mass of a lot, kilograms, with the percentage by which the text lets it be exceeded.
 *
 * <p>Seed Ordinance (SaatV), Annex 4 no. 1.1 and note ++: 30 t, and 35 t for hybrid rye with
 * admixed open-pollinated rye.
 */
final class LotSize implements GateRule {

  @Override
  public Gate gate() {
    return Gate.LOT_SIZE;
  }

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
    String allowance =
        excess
            .map(
                over ->
                    ", where %s over it is allowed (%s)"
                        .formatted(
                            over.wording().replaceFirst("^at most ", "up to "), over.citation()))
            .orElse("");
    return new Finding(
            Gate.LOT_SIZE,
            "",
            heldKg,
            Optional.empty(),
            lot.flows(MassFlow.Direction.IN).stream().map(MassFlow::factId).distinct().toList(),
            "The lot weighs %s kg%s".formatted(Wording.number(heldKg), allowance))
        .decided(
            heldKg <= allowedKg,
            allowedKg - heldKg,
            limit,
            "Split the lot and have each part sampled.");
  }
}
