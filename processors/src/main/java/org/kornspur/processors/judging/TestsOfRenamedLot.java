package org.kornspur.processors.judging;

import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.InheritedFinding;
import org.kornspur.processors.dossier.Report;
import org.kornspur.processors.finding.Aspect;
import org.kornspur.processors.finding.OriginFinding;
import org.kornspur.processors.gates.ConflictingCorrections;
import org.kornspur.processors.gates.SameSeed;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * What was found or decided of a lot or crop into which seed went by a record that was corrected or
 * withdrawn since, and by no other. It is of seed that has another name now, and would be forgotten
 * with the old one, so the lot or crop that the seed came from is told. Of a lot that is declared
 * besides, what speaks for it may be its own; what speaks against it and came after that movement
 * is told. Common practice, no source.
 */
final class TestsOfRenamedLot {

  private TestsOfRenamedLot() {}

  /**
   * One report to each that seed had come from; none where it has an origin, or nothing is told.
   */
  static Stream<Report> reports(Dossier renamed, List<Verdict> verdicts) {
    if (!renamed.edgesIn().isEmpty()) {
      return Stream.empty();
    }
    Set<String> against =
        verdicts.stream()
            .filter(SameSeed::goesAlong)
            .flatMap(verdict -> verdict.factIds().stream())
            .collect(Collectors.toSet());
    Map<Subject, LocalDate> came =
        renamed
            .supersededEdges()
            .filter(edge -> edge.child().equals(renamed.subject()))
            .collect(
                Collectors.toMap(
                    Edge::parent,
                    Edge::day,
                    (one, other) -> one.isBefore(other) ? one : other,
                    TreeMap::new));
    return came.entrySet().stream()
        .flatMap(
            from -> {
              Predicate<SpecificRecord> isOfIt =
                  fact ->
                      renamed.declaredLot().isEmpty()
                          || (FactType.of(fact).isAct() || against.contains(FactType.idOf(fact)))
                              && !FactType.dayOf(fact).isBefore(from.getValue());
              List<InheritedFinding> told =
                  Stream.concat(
                          told(
                              renamed,
                              ConflictingCorrections.RENAMED,
                              ConflictingCorrections::isTest,
                              isOfIt),
                          told(
                              renamed,
                              ConflictingCorrections.RENAMED_ACTS,
                              ConflictingCorrections::isDecision,
                              isOfIt))
                      .toList();
              return told.isEmpty()
                  ? Stream.empty()
                  : Stream.of(new Report.FromPart(renamed.subject(), from.getKey(), told));
            });
  }

  private static Stream<InheritedFinding> told(
      Dossier renamed,
      String aspect,
      Predicate<SpecificRecord> isOfKind,
      Predicate<SpecificRecord> isOfIt) {
    List<String> factIds =
        renamed.counting().filter(isOfKind.and(isOfIt)).map(FactType::idOf).sorted().toList();
    return factIds.isEmpty()
        ? Stream.empty()
        : Stream.of(
            new InheritedFinding(
                Gate.ORIGIN,
                aspect,
                Optional.of(new Aspect.Corrections().coded()),
                InheritedFinding.Weight.OWED,
                renamed.subject(),
                List.of(renamed.subject()),
                factIds,
                List.of(
                    new OriginFinding.TestsOfRenamedLot(renamed.subject(), Fact.each(factIds))
                        .coded())));
  }
}
