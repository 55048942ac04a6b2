package org.kornspur.processors.gates;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.kornspur.contract.Conditioning;
import org.kornspur.contract.LotMass;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.pedigree.MassFlow;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * No lot gives out more seed than it holds, and no conditioning gives out more than went in; by
 * more than the tolerance of weighing, percent of what was held. Common practice, no source.
 */
final class MassBalance implements GateRule {

  @Override
  public Gate gate() {
    return Gate.MASS_BALANCE;
  }

  @Override
  public List<Verdict> judge(Dossier dossier, Rulebook rulebook) {
    return SeedLot.of(dossier, rulebook)
        .flatMap(lot -> lot.limit(Quantity.MASS_BALANCE_TOLERANCE).map(limit -> judge(lot, limit)))
        .orElse(List.of());
  }

  private static List<Verdict> judge(SeedLot lot, Limit limit) {
    List<Verdict> verdicts = new ArrayList<>();
    verdicts.add(
        balance(
            "",
            lot.totalKg(MassFlow.Direction.IN),
            lot.totalKg(MassFlow.Direction.OUT),
            "The lot",
            lot.dossier().massFlows().stream().map(MassFlow::factId).distinct().toList(),
            limit));
    lot.dossier().facts(Conditioning.class).stream()
        .filter(conditioning -> gave(conditioning, lot.dossier().subject()))
        .forEach(conditioning -> verdicts.add(conditioning(conditioning, limit)));
    return verdicts;
  }

  private static boolean gave(Conditioning conditioning, Subject lot) {
    return conditioning.getOutputs().stream()
        .anyMatch(part -> Subject.lot(part.getLotId()).equals(lot));
  }

  private static Verdict conditioning(Conditioning conditioning, Limit limit) {
    String factId = conditioning.getHeader().getFactId();
    return balance(
        "conditioning " + factId,
        total(conditioning.getInputs()),
        total(conditioning.getOutputs()) + conditioning.getScreeningsKg(),
        "Conditioning " + factId + ", screenings included,",
        List.of(factId),
        limit);
  }

  private static Verdict balance(
      String aspect, double inKg, double outKg, String what, List<String> factIds, Limit limit) {
    double beyondPercent = inKg > 0 ? 100 * (outKg - inKg) / inKg : outKg > 0 ? 100 : 0;
    return new Finding(
            Gate.MASS_BALANCE,
            aspect,
            Math.max(0, beyondPercent),
            Optional.empty(),
            factIds,
            "%s gave out %s kg of %s kg%s"
                .formatted(
                    what,
                    Wording.number(outKg),
                    Wording.number(inKg),
                    beyondPercent > 0
                        ? ", %s %% more than it held".formatted(Wording.number(beyondPercent))
                        : ""))
        .decided(
            beyondPercent <= limit.value(),
            limit.value() - beyondPercent,
            limit,
            "Look for a weight keyed in wrongly or seed of another lot, and correct the fact.");
  }

  private static double total(List<LotMass> parts) {
    return parts.stream().mapToDouble(LotMass::getMassKg).sum();
  }
}
