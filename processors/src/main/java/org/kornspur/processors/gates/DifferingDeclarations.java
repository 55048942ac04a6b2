package org.kornspur.processors.gates;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.Function;
import org.apache.avro.Schema;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.FactHeader;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.LotDeclared;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Report;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.OriginFinding;
import org.kornspur.processors.verdict.Verdict;

/**
 * A second declaration of a crop, a lot or a hybrid that says something else than the first, and
 * does not say that it corrects it.
 */
final class DifferingDeclarations {
  static final String KEY = "declarations";

  /** What becomes known as the season goes on, so that a later declaration says more. */
  private static final Set<String> KNOWN_LATER = Set.of("floweringFrom", "floweringTo");

  private static final SortedMap<String, Function<Report.Scheme, Object>> OF_HYBRID =
      new TreeMap<>(
          Map.of(
              "components", Report.Scheme::components,
              "crosses", scheme -> Set.copyOf(scheme.crossings()),
              "pollinatorSharePercent", Report.Scheme::pollinatorSharePercent,
              "shareBasis", Report.Scheme::shareBasis,
              "tolerancePercentPoints", Report.Scheme::tolerancePercentPoints));

  private DifferingDeclarations() {}

  /** Of the crop or lot. */
  static Optional<Verdict> ofSubject(Dossier dossier) {
    List<SpecificRecord> declared =
        dossier
            .counting()
            .filter(fact -> fact instanceof FieldCropDeclared || fact instanceof LotDeclared)
            .toList();
    if (declared.isEmpty()) {
      return Optional.empty();
    }
    boolean isOrdered =
        declared.stream().map(FactType::headerOf).map(FactHeader::getHappenedAt).distinct().count()
            == declared.size();
    return differing(
        dossier.subject(),
        declared.stream().map(FactType::idOf).toList(),
        declared.get(0).getSchema().getFields().stream()
            .filter(field -> !field.name().equals("header"))
            .filter(field -> !isOrdered || !KNOWN_LATER.contains(field.name()))
            .filter(field -> declared.stream().map(d -> d.get(field.pos())).distinct().count() > 1)
            .map(Schema.Field::name)
            .toList());
  }

  /** Its hybrid, as that tells it; what waits for confirmation too: neither can be relied on. */
  static Optional<Verdict> ofHybrid(Dossier dossier) {
    List<Report.Scheme> schemes = dossier.schemes();
    return schemes.isEmpty()
        ? Optional.empty()
        : differing(
            Subject.hybrid(schemes.get(0).hybridId()),
            schemes.stream().map(Report.Scheme::factId).toList(),
            OF_HYBRID.entrySet().stream()
                .filter(field -> schemes.stream().map(field.getValue()).distinct().count() > 1)
                .map(Map.Entry::getKey)
                .toList());
  }

  private static Optional<Verdict> differing(
      Subject subject, List<String> factIds, List<String> fields) {
    return fields.isEmpty()
        ? Optional.empty()
        : Optional.of(
            ConflictingCorrections.owed(
                KEY,
                factIds,
                new OriginFinding.SeveralDeclarations(subject, Fact.each(factIds), fields),
                new Evidence.WithdrawalOfAllButOne()));
  }
}
