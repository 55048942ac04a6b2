package org.kornspur.processors.gates;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.kornspur.contract.Conditioning;
import org.kornspur.contract.LotMass;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.processors.balance.MassFlow;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.finding.Advice;
import org.kornspur.processors.finding.Aspect;
import org.kornspur.processors.finding.Finding;
import org.kornspur.processors.finding.LotFinding;
import org.kornspur.processors.gates.Findings.GateAspect;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Measured;
import org.kornspur.processors.verdict.Verdict;

/**
 * No lot gives out more seed than it holds, and no conditioning gives out more than went in; by
 * more than the tolerance of weighing, percent of what was held. Common practice, no source.
 */
final class MassBalance implements GateRule {

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
            GateAspect.of(Gate.MASS_BALANCE),
            lot.totalKg(MassFlow.Direction.IN),
            lot.totalKg(MassFlow.Direction.OUT),
            LotFinding.GaveOut::new,
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
    Fact fact = new Fact(factId);
    return balance(
        GateAspect.of(Gate.MASS_BALANCE, "conditioning " + factId, new Aspect.Conditioning(fact)),
        total(conditioning.getInputs()),
        total(conditioning.getOutputs())
            + conditioning.getScreeningsKg()
            + Objects.requireNonNullElse(conditioning.getDryingLossKg(), 0.0),
        (out, in, beyond) -> new LotFinding.ConditioningGave(fact, out, in, beyond),
        List.of(factId),
        limit);
  }

  /** Words for what was given out, what was held, and how much too much that is. */
  private interface Gave {
    Finding of(Amount out, Amount in, Optional<Amount> beyond);
  }

  private static Verdict balance(
      GateAspect at, double inKg, double outKg, Gave gave, List<String> factIds, Limit limit) {
    double beyondPercent = inKg > 0 ? 100 * (outKg - inKg) / inKg : outKg > 0 ? 100 : 0;
    Optional<Amount> beyond =
        beyondPercent > 0 ? Optional.of(Amount.percent(beyondPercent)) : Optional.empty();
    return Findings.of(
            at, factIds, gave.of(Amount.kilograms(outKg), Amount.kilograms(inKg), beyond))
        .decided(
            beyondPercent <= limit.value(),
            Measured.exact(Math.max(0, beyondPercent), limit.unit(), limit.value() - beyondPercent),
            limit,
            List.of(new Advice.FindWrongWeight()));
  }

  private static double total(List<LotMass> parts) {
    return parts.stream().mapToDouble(LotMass::getMassKg).sum();
  }
}
