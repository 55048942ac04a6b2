package org.kornspur.processors.gates;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.apache.avro.Schema;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.Correction;
import org.kornspur.contract.FactHeader;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.LotDeclared;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Entry;
import org.kornspur.processors.dossier.Report;
import org.kornspur.processors.finding.Aspect;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.OriginFinding;
import org.kornspur.processors.gates.Findings.GateAspect;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * Corrections that leave open what is so: two of one fact, which would count it twice; one that is
 * of another kind than what it corrects, as a moisture test of a germination test; and a second
 * declaration that says something else than the first, and does not say that it corrects it. They
 * need no rulebook; nothing is fit while one of them stands.
 */
public final class Corrections {
  static final String SEVERAL = "several corrections";
  static final String OTHER_KIND = "corrections of another kind";
  static final String DECLARATIONS = "declarations";

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

  private Corrections() {}

  /** What is owed for such corrections; empty where every correction stands alone. */
  public static List<Verdict> judge(Dossier dossier) {
    return Stream.of(
            several(correcting(dossier)),
            otherKind(dossier),
            declarations(dossier.subject(), declarations(dossier)),
            hybrids(dossier))
        .flatMap(Optional::stream)
        .toList();
  }

  private static List<SpecificRecord> declarations(Dossier dossier) {
    return dossier
        .counting()
        .filter(fact -> fact instanceof FieldCropDeclared || fact instanceof LotDeclared)
        .toList();
  }

  private static Optional<Verdict> declarations(Subject subject, List<SpecificRecord> declared) {
    if (declared.isEmpty()) {
      return Optional.empty();
    }
    boolean isOrdered =
        declared.stream().map(FactType::headerOf).map(FactHeader::getHappenedAt).distinct().count()
            == declared.size();
    return differing(
        subject,
        declared.stream().map(FactType::idOf).toList(),
        declared.get(0).getSchema().getFields().stream()
            .filter(field -> !field.name().equals("header"))
            .filter(field -> !isOrdered || !KNOWN_LATER.contains(field.name()))
            .filter(field -> declared.stream().map(d -> d.get(field.pos())).distinct().count() > 1)
            .map(Schema.Field::name)
            .toList());
  }

  /** Its hybrid, as that tells it; what waits for confirmation too: neither can be relied on. */
  private static Optional<Verdict> hybrids(Dossier dossier) {
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
            owed(
                DECLARATIONS,
                factIds,
                new OriginFinding.SeveralDeclarations(subject, Fact.each(factIds), fields),
                new Evidence.WithdrawalOfAllButOne()));
  }

  private static Optional<Verdict> several(List<SpecificRecord> correcting) {
    SortedMap<String, List<String>> byCorrected =
        correcting.stream()
            .collect(
                Collectors.groupingBy(
                    fact -> corrected(fact).orElseThrow(),
                    TreeMap::new,
                    Collectors.mapping(FactType::idOf, Collectors.toList())));
    return byCorrected.entrySet().stream()
        .filter(corrections -> corrections.getValue().size() > 1)
        .findFirst()
        .map(
            corrections -> {
              List<String> factIds = corrections.getValue().stream().sorted().toList();
              return owed(
                  SEVERAL,
                  factIds,
                  new OriginFinding.SeveralCorrections(
                      new Fact(corrections.getKey()), Fact.each(factIds)),
                  new Evidence.WithdrawalOfAllButOne());
            });
  }

  private static Optional<Verdict> otherKind(Dossier dossier) {
    Map<String, FactType> types =
        dossier.entries().stream()
            .map(Entry::fact)
            .collect(Collectors.toMap(FactType::idOf, FactType::of, (first, same) -> first));
    return dossier.entries().stream()
        .flatMap(entry -> otherKind(entry, types).stream())
        .findFirst();
  }

  /** What corrects a fact can lie in another dossier alone, as a test of another lot does. */
  private static Optional<Verdict> otherKind(Entry entry, Map<String, FactType> types) {
    FactType type = FactType.of(entry.fact());
    return entry
        .superseded()
        .filter(by -> !type.isAct())
        .flatMap(
            by ->
                by.byType()
                    .or(() -> Optional.ofNullable(types.get(by.byFactId())))
                    .filter(byType -> byType != type && byType != FactType.WITHDRAWAL)
                    .map(
                        byType -> {
                          Fact corrected = new Fact(entry.header().getFactId());
                          Fact correction = new Fact(by.byFactId());
                          return owed(
                              OTHER_KIND,
                              List.of(corrected.factId(), correction.factId()),
                              new OriginFinding.CorrectedByOtherKind(
                                  corrected, type, correction, byType),
                              new Evidence.CorrectionOfItsKind(corrected));
                        }));
  }

  /** Acts of persons undo each other by rules of their own. */
  private static List<SpecificRecord> correcting(Dossier dossier) {
    return dossier
        .counting()
        .filter(fact -> !FactType.of(fact).isAct())
        .filter(fact -> corrected(fact).isPresent())
        .toList();
  }

  private static Verdict owed(
      String key, List<String> factIds, OriginFinding finding, Evidence evidence) {
    return Findings.of(GateAspect.of(Gate.ORIGIN, key, new Aspect.Corrections()), factIds, finding)
        .owed(evidence);
  }

  private static Optional<String> corrected(SpecificRecord fact) {
    return Optional.ofNullable(FactType.headerOf(fact).getCorrection())
        .map(Correction::getSupersedes);
  }
}
