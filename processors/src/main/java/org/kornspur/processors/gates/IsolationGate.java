package org.kornspur.processors.gates;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.kornspur.ingest.statement.Statement;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Report.Neighbour;
import org.kornspur.processors.finding.Advice;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.IsolationFinding;
import org.kornspur.processors.gates.IsolationSources.Source;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * Distance from a seed crop to the nearest foreign rye pollen, metres between the outlines.
 *
 * <p>Council Directive 66/402/EEC, Annex I; Seed Ordinance (SaatV), Annex 2 no. 1.3. Where the
 * authority accepted a shield, the distance that the rulebook asks for with a shield holds; a book
 * may ask for a longer distance to a large source. A source counts unless its shedding is known to
 * end before flowering begins, or to begin after it ends. For hybrid rye the German text (no.
 * 1.3.1.3b) has no such clause, other than for rye in general (no. 1.3.1.1): there every stand
 * counts, but for one that was destroyed before the crop flowered. Where a day of the crop alone,
 * which is not on record, could keep a source apart, that day is owed. The pollen that is wanted is
 * foreign where its stand has more off-types than it may (no. 1.3.1.3b, letter b).
 *
 * <p>What a grower alone reports counts against its own crops at once. Against a crop of another
 * enterprise it is evidence owed until somebody else looked: else one grower could bring down the
 * crop of another by a word. Common practice, no source.
 */
final class IsolationGate implements GateRule {

  @Override
  public List<Verdict> judge(Dossier dossier, Rulebook rulebook) {
    return SeedCrop.of(dossier, rulebook)
        .flatMap(crop -> IsolationSources.of(crop).map(ground -> List.of(judge(crop, ground))))
        .orElse(List.of());
  }

  private static Verdict judge(SeedCrop crop, IsolationSources ground) {
    Limit limit = ground.usual();
    List<Source> together = ground.sources();
    List<Neighbour> reports = crop.dossier().neighbourReports();
    List<Neighbour> apart =
        reports.stream()
            .filter(neighbour -> together.stream().noneMatch(s -> s.neighbour() == neighbour))
            .filter(neighbour -> !limit.holds(neighbour.distanceM()))
            .toList();
    List<Source> tooNear = together.stream().filter(Source::isTooNear).toList();
    boolean failed = tooNear.stream().anyMatch(Source::isCertain);
    if (!failed && !tooNear.isEmpty()) {
      return owed(
          crop, tooNear.stream().min(Comparator.comparingDouble(Source::marginM)).orElseThrow());
    }
    List<Source> counting =
        together.stream().filter(source -> !failed || source.isCertain()).toList();
    if (counting.stream().noneMatch(Source::confirmed)) {
      return Findings.of(
              Gate.ISOLATION,
              factIds(crop, apart),
              new IsolationFinding.NoSource(Amount.metres(limit.value())))
          .and(leftOut(apart))
          .against(limit.value(), limit, List.of());
    }
    Source worst =
        counting.stream()
            .filter(Source::confirmed)
            .min(Comparator.comparingDouble(Source::marginM))
            .orElseThrow();
    List<String> factIds = new ArrayList<>(factIds(crop, apart));
    counting.stream()
        .filter(source -> source == worst || source.marginM() < 0)
        .map(source -> source.neighbour().factId())
        .distinct()
        .forEach(factIds::add);
    return Findings.of(Gate.ISOLATION, factIds, finding(worst))
        .and(leftOut(apart))
        .against(worst.neighbour().distanceM(), worst.limit(), remedies(crop, worst.neighbour()));
  }

  private static IsolationFinding finding(Source worst) {
    IsolationFinding.Source source = source(worst.neighbour());
    if (worst.neighbour().sameComponent().orElse(false)) {
      return new IsolationFinding.SameComponent(source);
    }
    return switch (worst.limit().quantity()) {
      case ISOLATION_DISTANCE_LARGE_SOURCE -> new IsolationFinding.MostThreatening(source);
      case ISOLATION_DISTANCE_FLOWERING_APART -> new IsolationFinding.StandsApart(source);
      default -> new IsolationFinding.Nearest(source);
    };
  }

  /** A source that is gone already needs no more destroying. */
  private static List<Advice> remedies(SeedCrop crop, Neighbour neighbour) {
    boolean isGone = neighbour.sourceKind().isPresent() && neighbour.sheddingTo().isPresent();
    return List.of(
        isGone ? new Advice.AuthorityDecides() : new Advice.DestroySource(crop.endOfFlowering()));
  }

  private static Verdict owed(SeedCrop crop, Source source) {
    Neighbour neighbour = source.neighbour();
    List<String> factIds = List.of(crop.declarationId(), neighbour.factId());
    if (source.confirmed()) {
      return Findings.of(
              Gate.ISOLATION, factIds, new IsolationFinding.FloweringUnknown(source(neighbour)))
          .owed(source.limit(), new Evidence.FloweringDays());
    }
    return Findings.of(
            Gate.ISOLATION, factIds, new IsolationFinding.ReportedByGrower(source(neighbour)))
        .owed(
            source.limit(),
            neighbour.sourceKind().isPresent()
                ? new Evidence.SourceLookedAt(neighbour.source())
                : new Evidence.InspectionOfCrop(neighbour.source()));
  }

  private static List<String> factIds(SeedCrop crop, List<Neighbour> apart) {
    return Stream.concat(
            Stream.of(crop.declarationId()), apart.stream().map(Neighbour::factId).distinct())
        .toList();
  }

  /**
   * Seen sources that are too near and do not count, so that nobody need wonder at their absence.
   * When the crop of another flowers is not told here, where its neighbour reads it.
   */
  private static Optional<IsolationFinding> leftOut(List<Neighbour> apart) {
    List<Statement> seen =
        apart.stream()
            .filter(neighbour -> neighbour.sourceKind().isPresent())
            .<Statement>map(IsolationGate::source)
            .toList();
    return seen.isEmpty()
        ? Optional.empty()
        : Optional.of(new IsolationFinding.NotFloweringTogether(seen));
  }

  private static IsolationFinding.Source source(Neighbour neighbour) {
    return new IsolationFinding.Source(
        neighbour.source(), neighbour.sourceKind(), Amount.metres(neighbour.distanceM()));
  }
}
