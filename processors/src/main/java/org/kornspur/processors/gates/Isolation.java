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
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * Distance from a seed crop to the nearest foreign rye pollen, metres between the outlines.
 *
 * <p>Council Directive 66/402/EEC, Annex I; Seed Ordinance (SaatV), Annex 2 no. 1.3. Where the
 * authority accepted a shield, the distance that the rulebook asks for with a shield holds; a book
 * may ask for a longer distance to a large source. A source counts unless its shedding is known to
 * end before flowering begins, or to begin after it ends.
 *
 * <p>What a grower alone reports counts against its own crops at once. Against a crop of another
 * enterprise it is evidence owed until somebody else looked: else one grower could bring down the
 * crop of another by a word. Common practice, no source.
 */
final class Isolation implements GateRule {

  @Override
  public Gate gate() {
    return Gate.ISOLATION;
  }

  @Override
  public List<Verdict> judge(Dossier dossier, Rulebook rulebook) {
    return SeedCrop.of(dossier, rulebook)
        .flatMap(crop -> limit(crop).map(limit -> List.of(judge(crop, limit))))
        .orElse(List.of());
  }

  private static Optional<Limit> limit(SeedCrop crop) {
    Optional<Limit> plain = crop.limit(Quantity.ISOLATION_DISTANCE);
    return plain.isPresent() && isShielded(crop)
        ? crop.limit(Quantity.ISOLATION_DISTANCE_SHIELDED).or(() -> plain)
        : plain;
  }

  private static boolean isShielded(SeedCrop crop) {
    return Boolean.TRUE.equals(crop.declaration().getShieldAccepted());
  }

  private static Verdict judge(SeedCrop crop, Limit limit) {
    List<Neighbour> reports = crop.dossier().neighbourReports();
    List<Neighbour> apart =
        reports.stream()
            .filter(neighbour -> !neighbour.flowersWith(crop.declaration()).counts())
            .filter(neighbour -> !limit.holds(neighbour.distanceM()))
            .toList();
    List<Source> together =
        reports.stream()
            .filter(neighbour -> neighbour.flowersWith(crop.declaration()).counts())
            .map(neighbour -> new Source(neighbour, limitFor(crop, neighbour, limit)))
            .toList();
    List<Source> counting =
        together.stream().filter(source -> isCertain(crop, source.neighbour())).toList();
    Optional<Source> reported =
        together.stream()
            .filter(source -> !isCertain(crop, source.neighbour()))
            .filter(source -> source.marginM() < 0)
            .min(Comparator.comparingDouble(Source::marginM));
    if (reported.isPresent() && counting.stream().allMatch(source -> source.marginM() >= 0)) {
      return owed(crop, reported.get());
    }
    if (counting.isEmpty()) {
      return Found.of(
              Gate.ISOLATION,
              factIds(crop, apart),
              new IsolationFinding.NoSource(Amount.metres(limit.value())))
          .and(leftOut(apart))
          .against(limit.value(), limit, List.of());
    }
    Source worst = counting.stream().min(Comparator.comparingDouble(Source::marginM)).orElseThrow();
    List<String> factIds = new ArrayList<>(factIds(crop, apart));
    counting.stream()
        .filter(source -> source == worst || source.marginM() < 0)
        .map(source -> source.neighbour().factId())
        .distinct()
        .forEach(factIds::add);
    boolean large = worst.limit().quantity() == Quantity.ISOLATION_DISTANCE_LARGE_SOURCE;
    IsolationFinding.Source source = source(worst.neighbour());
    return Found.of(
            Gate.ISOLATION,
            factIds,
            large
                ? new IsolationFinding.MostThreatening(source)
                : new IsolationFinding.Nearest(source))
        .and(leftOut(apart))
        .against(
            worst.neighbour().distanceM(),
            worst.limit(),
            List.of(new Advice.DestroySource(crop.endOfFlowering())));
  }

  /** Whether a source counts here at once. */
  private static boolean isCertain(SeedCrop crop, Neighbour neighbour) {
    return neighbour.reportedBy().isEmpty()
        || neighbour.reportedBy().equals(crop.dossier().holder());
  }

  private static Verdict owed(SeedCrop crop, Source reported) {
    Neighbour neighbour = reported.neighbour();
    return Found.of(
            Gate.ISOLATION,
            List.of(crop.declarationId(), neighbour.factId()),
            new IsolationFinding.ReportedByGrower(source(neighbour)))
        .owed(
            reported.limit(),
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
            .<Statement>map(Isolation::source)
            .toList();
    return seen.isEmpty()
        ? Optional.empty()
        : Optional.of(new IsolationFinding.NotFloweringTogether(seen));
  }

  /** A source with the distance that it is to keep. */
  private record Source(Neighbour neighbour, Limit limit) {
    double marginM() {
      return limit.margin(neighbour.distanceM());
    }
  }

  /** A longer distance for a large source, where the book has one and no shield is accepted. */
  private static Limit limitFor(SeedCrop crop, Neighbour neighbour, Limit usual) {
    boolean large =
        crop.limit(Quantity.LARGE_SOURCE_AREA)
            .map(area -> area.holds(neighbour.areaHa()))
            .orElse(false);
    return large && !isShielded(crop)
        ? crop.limit(Quantity.ISOLATION_DISTANCE_LARGE_SOURCE).orElse(usual)
        : usual;
  }

  private static IsolationFinding.Source source(Neighbour neighbour) {
    return new IsolationFinding.Source(
        neighbour.source(), neighbour.sourceKind(), Amount.metres(neighbour.distanceM()));
  }
}
