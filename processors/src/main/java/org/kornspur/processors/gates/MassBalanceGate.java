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
import org.kornspur.processors.balance.ConditioningAccount;
import org.kornspur.processors.balance.MassFlow;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Report;
import org.kornspur.processors.finding.Advice;
import org.kornspur.processors.finding.Aspect;
import org.kornspur.processors.finding.Finding;
import org.kornspur.processors.finding.LotFinding;
import org.kornspur.processors.gates.Findings.GateAspect;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Measured;
import org.kornspur.processors.verdict.Verdict;

/**
 * No lot gives out more seed than it holds, and no conditioning gives out more than went in; by
 * more than the tolerance of weighing, percent of what was held. What a conditioning lost beyond
 * what is usual owes an answer, {@link ConditioningLoss}; what a dressing weighs came onto the
 * seed. Over all movements of the seed together the same tolerance and dressing hold, {@link
 * GainedMass}. Common practice, no source.
 *
 * <p>A recall drill over many lots adds up by itself, in {@code balance.MassBalanceAccount}.
 */
final class MassBalanceGate implements GateRule {
  /** Kilograms; less is rounding of the sum. */
  private static final double A_GRAM = 0.001;

  /** Sums over many movements are not exact in binary. */
  private static final double ROUNDING_PERCENT = 1e-9;

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
            0,
            LotFinding.GaveOut::new,
            lot.dossier().massFlows().stream().map(MassFlow::factId).distinct().toList(),
            limit));
    lot.dossier().facts(Conditioning.class).stream()
        .filter(conditioning -> gave(conditioning, lot.dossier().subject()))
        .forEach(
            conditioning ->
                verdicts.add(
                    ConditioningLoss.orElse(lot, conditioning, conditioning(conditioning, limit))));
    if (verdicts.stream().noneMatch(Verdict.NotMet.class::isInstance)) {
      inAll(lot, limit).ifPresent(verdicts::add);
    }
    return verdicts;
  }

  /** What no movement shows by itself; empty where all of them together hold. */
  private static Optional<Verdict> inAll(SeedLot lot, Limit limit) {
    Report.Gained gained = GainedMass.of(lot.dossier());
    double dressedPercent = 100 * ConditioningAccount.MOST_DRESSING;
    double beyondPercent =
        gained.weighedPercent()
            + GainedMass.beyondHeldPercent(lot.dossier())
            + Math.max(0, gained.dressedPercent() - dressedPercent);
    return beyondPercent <= limit.value() + ROUNDING_PERCENT
        ? Optional.empty()
        : Optional.of(
            Findings.of(
                    GateAspect.of(Gate.MASS_BALANCE, "in all", new Aspect.AllMovements()),
                    lot.dossier().edgesIn().stream().map(Edge::factId).distinct().toList(),
                    new LotFinding.GainedInAll(
                        Amount.percent(beyondPercent),
                        Amount.percent(gained.dressedPercent()),
                        Amount.percent(dressedPercent)))
                .against(beyondPercent, limit, List.of(new Advice.FindWrongWeight())));
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
        ConditioningAccount.of(conditioning).dressingKg(),
        (out, in, beyond) -> new LotFinding.ConditioningGave(fact, out, in, beyond),
        List.of(factId),
        limit);
  }

  /** Words for what was given out, what was held, and how much too much that is. */
  private interface Gave {
    Finding of(Amount out, Amount in, Optional<Amount> beyond);
  }

  /**
   * @param dressingKg of what was given out, what came onto the seed by treating it
   */
  private static Verdict balance(
      GateAspect at,
      double inKg,
      double outKg,
      double dressingKg,
      Gave gave,
      List<String> factIds,
      Limit limit) {
    double seedKg = outKg - dressingKg;
    double beyondPercent = inKg > 0 ? 100 * (seedKg - inKg) / inKg : seedKg > 0 ? 100 : 0;
    Optional<Amount> beyond =
        beyondPercent > 0 ? Optional.of(Amount.percent(beyondPercent)) : Optional.empty();
    return Findings.of(
            at, factIds, gave.of(Amount.kilograms(outKg), Amount.kilograms(inKg), beyond))
        .and(
            Optional.of(dressingKg)
                .filter(kg -> kg >= A_GRAM)
                .map(kg -> new LotFinding.Dressing(Amount.kilograms(kg))))
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
