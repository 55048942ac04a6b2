package org.kornspur.processors.gates;

import java.time.LocalDate;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.processors.balance.MassFlow;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.finding.Aspect;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.OriginFinding;
import org.kornspur.processors.gates.Findings.GateAspect;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * Whether by some day more seed had gone out of a lot than had come in, though in the end it
 * balances: what went out was other seed, or a day is wrong. What was recorded rightly, as a
 * cleaning that began while the harvest still came in, is confirmed by a correction that gives the
 * reason. Common practice, no source.
 */
final class StockByDay {
  private static final GateAspect AT =
      GateAspect.of(Gate.ORIGIN, "stock by day", new Aspect.StockByDay());

  private record Flow(LocalDate day, MassFlow flow, boolean isConfirmed) {
    boolean isOut() {
      return flow.direction() == MassFlow.Direction.OUT;
    }
  }

  private StockByDay() {}

  /** What is owed for the first such day; empty where there is none. */
  static Optional<Verdict> judge(Dossier dossier, Rulebook rulebook) {
    return SeedLot.of(dossier, rulebook).flatMap(StockByDay::judge);
  }

  private static Optional<Verdict> judge(SeedLot lot) {
    Map<String, SpecificRecord> facts =
        lot.dossier()
            .counting()
            .collect(Collectors.toMap(FactType::idOf, fact -> fact, (one, same) -> one));
    List<Flow> flows =
        lot.dossier().massFlows().stream()
            .map(flow -> flow(flow, facts.get(flow.factId())))
            .toList();
    return flows.stream()
        .filter(Flow::isOut)
        .filter(flow -> !flow.isConfirmed())
        .sorted(Comparator.comparing(Flow::day))
        .flatMap(out -> beyond(lot, flows, out).stream())
        .findFirst();
  }

  private static Flow flow(MassFlow flow, SpecificRecord fact) {
    return new Flow(FactType.dayOf(fact), flow, FactType.headerOf(fact).getCorrection() != null);
  }

  private static Optional<Verdict> beyond(SeedLot lot, List<Flow> flows, Flow out) {
    List<Flow> until = flows.stream().filter(flow -> !flow.day().isAfter(out.day())).toList();
    double outKg = kilograms(until, Flow::isOut);
    double inKg = kilograms(until, flow -> !flow.isOut());
    return inKg > 0 && outKg > inKg * (1 + lot.massTolerance()) && balancesInTheEnd(lot, flows)
        ? Optional.of(owed(out, outKg, inKg))
        : Optional.empty();
  }

  /** Else the mass balance says so. */
  private static boolean balancesInTheEnd(SeedLot lot, List<Flow> flows) {
    return kilograms(flows, Flow::isOut)
        <= kilograms(flows, flow -> !flow.isOut()) * (1 + lot.massTolerance());
  }

  private static double kilograms(List<Flow> flows, Predicate<Flow> which) {
    return flows.stream().filter(which).mapToDouble(flow -> flow.flow().massKg()).sum();
  }

  private static Verdict owed(Flow out, double outKg, double inKg) {
    Fact movement = new Fact(out.flow().factId());
    return Findings.of(
            AT,
            List.of(movement.factId()),
            new OriginFinding.OutBeforeThere(
                out.day(), Amount.kilograms(outKg), Amount.kilograms(inKg), movement))
        .owed(new Evidence.CorrectionOrReason(movement));
  }
}
