package org.kornspur.processors.judging;

import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.InheritedFinding;
import org.kornspur.processors.dossier.Report;
import org.kornspur.processors.gates.FailedParts;
import org.kornspur.processors.gates.SameSeed;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.verdict.Verdict;

/**
 * What a lot tells those that its seed came from, where it is still their seed: what tests of its
 * own showed, and what it heard from lots made of it. Each is told, whichever of them it came from.
 * What it takes from the whole it never tells back, and what it heard has the path that it took, so
 * that the exchange comes to rest also where wrong facts make a circle.
 */
final class FailuresOfParts {

  private FailuresOfParts() {}

  /** One report to each lot that its seed came from; none where nothing failed. */
  static Stream<Report> reports(Dossier part, List<Verdict> verdicts) {
    Set<Subject> told = part.edgesOut().stream().map(Edge::child).collect(Collectors.toSet());
    List<Subject> wholes =
        part.edgesIn().stream()
            .map(Edge::parent)
            .filter(whole -> !told.contains(whole)) // a circle is condemned for itself
            .distinct()
            .sorted()
            .toList();
    List<InheritedFinding> failures =
        Inheritance.oneOfEach(
            Stream.concat(
                own(part, verdicts),
                part.failuresOfParts().stream()
                    .filter(failure -> FailedParts.GATES.contains(failure.gate()))
                    .map(failure -> Inheritance.furtherAlong(failure, part.subject()))));
    return wholes.stream()
        .map(whole -> new Report.FromPart(part.subject(), whole, of(whole, part, failures)))
        .filter(report -> !report.failures().isEmpty())
        .map(Report.class::cast);
  }

  /** Those that speak against seed of that lot, by any movement out of it. */
  private static List<InheritedFinding> of(
      Subject whole, Dossier part, List<InheritedFinding> failures) {
    List<Edge> from = part.edgesIn().stream().filter(edge -> edge.parent().equals(whole)).toList();
    return failures.stream()
        .filter(
            failure ->
                from.stream().anyMatch(edge -> SameSeed.tellsOfParent(edge, failure.gate(), part)))
        .toList();
  }

  /** A verdict that is the whole's rests on no fact of the part. */
  private static Stream<InheritedFinding> own(Dossier part, List<Verdict> verdicts) {
    Set<String> factIds = part.counting().map(FactType::idOf).collect(Collectors.toSet());
    return verdicts.stream()
        .filter(SameSeed::goesAlong)
        .filter(verdict -> FailedParts.GATES.contains(verdict.gate()))
        .filter(verdict -> factIds.containsAll(verdict.factIds()))
        .map(
            verdict ->
                Inheritance.trouble(part.subject(), verdict, InheritedFinding.Weight.CONDEMNS)
                    .with(List.of()));
  }
}
