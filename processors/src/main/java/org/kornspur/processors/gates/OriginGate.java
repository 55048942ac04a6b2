package org.kornspur.processors.gates;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.finding.Advice;
import org.kornspur.processors.finding.Aspect;
import org.kornspur.processors.finding.OriginFinding;
import org.kornspur.processors.gates.Findings.GateAspect;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Measured;
import org.kornspur.processors.verdict.Verdict;

/**
 * Where seed comes from hangs together: nothing is its own ancestor, no lot has origins that
 * exclude each other, no ground bears two crops at once, and nothing was given out before it was
 * there. Days are those of UTC, so that a fact with a time and one with only a day agree.
 *
 * <p>Common sense of the pedigree; no limit of a text.
 */
final class OriginGate implements GateRule {

  @Override
  public List<Verdict> judge(Dossier dossier, Rulebook rulebook) {
    return switch (dossier.subject().kind()) {
      case LOT, CROP ->
          dossier.material().isPresent()
              ? Stream.of(
                      judge(dossier).stream(),
                      StockByDay.judge(dossier, rulebook).stream(),
                      CropsOnSameGround.judge(dossier, rulebook).stream(),
                      UnusualFacts.judge(dossier, rulebook).stream())
                  .flatMap(verdicts -> verdicts)
                  .toList()
              : List.of();
      case SOURCE, HYBRID, ENTERPRISE -> List.of();
    };
  }

  private static List<Verdict> judge(Dossier dossier) {
    List<Verdict> verdicts = new ArrayList<>();
    verdicts.add(OwnAncestor.judge(dossier).orElseGet(() -> noCircle(dossier)));
    SeveralOrigins.judge(dossier).ifPresent(verdicts::add);
    order(dossier).ifPresent(verdicts::add);
    return verdicts;
  }

  private static Verdict noCircle(Dossier dossier) {
    return Findings.of(
            OwnAncestor.AT,
            OwnAncestor.factIds(dossier),
            new OriginFinding.OnRecord(dossier.subject()))
        .mustBeNone(0, "circles");
  }

  private static Optional<Verdict> order(Dossier dossier) {
    Optional<LocalDate> firstIn =
        Stream.concat(
                dossier.declaredLot().stream().map(FactType::dayOf),
                dossier.edgesIn().stream().map(Edge::day))
            .min(LocalDate::compareTo);
    Optional<Edge> firstOut =
        dossier.edgesOut().stream().min((a, b) -> a.happenedAt().compareTo(b.happenedAt()));
    if (firstIn.isEmpty() || firstOut.isEmpty()) {
      return Optional.empty();
    }
    LocalDate cameIn = firstIn.get();
    LocalDate wentOut = firstOut.get().day();
    long daysTooEarly = cameIn.toEpochDay() - wentOut.toEpochDay();
    Measured measured = Measured.exact(Math.max(0, daysTooEarly), "days", -daysTooEarly);
    String factId = firstOut.get().factId();
    return Optional.of(
        Findings.of(
                GateAspect.of(Gate.ORIGIN, "order of days", new Aspect.OrderOfDays()),
                List.of(factId),
                daysTooEarly <= 0
                    ? new OriginFinding.InOrder(cameIn, wentOut)
                    : new OriginFinding.OutBeforeIn(
                        wentOut, cameIn, Math.toIntExact(daysTooEarly), new Fact(factId)))
            .decided(
                daysTooEarly <= 0, measured, Optional.empty(), List.of(new Advice.CorrectDays())));
  }
}
