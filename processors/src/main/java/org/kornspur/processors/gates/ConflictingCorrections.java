package org.kornspur.processors.gates;

import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.Condemnation;
import org.kornspur.contract.Correction;
import org.kornspur.contract.Downgrade;
import org.kornspur.contract.FieldInspection;
import org.kornspur.contract.PostControlResult;
import org.kornspur.contract.SterilityCheck;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Entry;
import org.kornspur.processors.dossier.InheritedFinding;
import org.kornspur.processors.dossier.Report;
import org.kornspur.processors.finding.Aspect;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.OriginFinding;
import org.kornspur.processors.gates.Findings.GateAspect;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * Corrections that leave open what is so: two of one fact, which would count it twice; one that is
 * of another kind than what it corrects, as a moisture test of a germination test; one that is a
 * retest, of another sample and with another result; one that is of another subject, as a test of
 * another lot, so that what it corrects counts on here; a movement of seed that was corrected here
 * and that the lot or crop where the seed came from still counts, for the correction was withdrawn
 * there; one that leaves tests under a name that no seed has any more; and a second declaration
 * that says something else than the first, and does not say that it corrects it. They need no
 * rulebook; nothing is fit while one of them stands.
 */
public final class ConflictingCorrections {
  static final String SEVERAL = "several corrections";
  static final String OTHER_KIND = "corrections of another kind";
  static final String OTHER_SAMPLE = "corrections by another sample";
  static final String ELSEWHERE = "corrections elsewhere";
  static final String STILL_TOLD = "movements still told";
  public static final String RENAMED = "tests of a renamed lot";
  public static final String RENAMED_ACTS = "acts on a renamed lot";

  /** Fields of a test that say nothing of what was found. */
  private static final Set<String> NOT_FOUND = Set.of("header", "sampleId", "laboratoryId");

  private ConflictingCorrections() {}

  /** What is owed for such corrections; empty where every correction stands alone. */
  public static List<Verdict> judge(Dossier dossier) {
    List<SpecificRecord> correcting = correcting(dossier);
    Map<String, SpecificRecord> facts =
        dossier.entries().stream()
            .map(Entry::fact)
            .collect(Collectors.toMap(FactType::idOf, Function.identity(), (one, same) -> one));
    return Stream.of(
            several(correcting),
            otherKind(dossier, facts),
            otherSample(correcting, facts),
            elsewhere(dossier, facts.keySet()),
            stillTold(dossier),
            renamed(dossier, RENAMED, lot -> new Evidence.TestsOfRightLot()),
            renamed(dossier, RENAMED_ACTS, Evidence.OldNameAgain::new),
            DifferingDeclarations.ofSubject(dossier),
            DifferingDeclarations.ofHybrid(dossier))
        .flatMap(Optional::stream)
        .toList();
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

  private static Optional<Verdict> otherKind(Dossier dossier, Map<String, SpecificRecord> facts) {
    return dossier.entries().stream()
        .flatMap(entry -> otherKind(entry, facts).stream())
        .findFirst();
  }

  /** What corrects a fact can lie in another dossier alone, as a test of another lot does. */
  private static Optional<Verdict> otherKind(Entry entry, Map<String, SpecificRecord> facts) {
    FactType type = FactType.of(entry.fact());
    return entry
        .superseded()
        .filter(by -> !type.isAct())
        .flatMap(
            by ->
                by.byType()
                    .or(() -> Optional.ofNullable(facts.get(by.byFactId())).map(FactType::of))
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

  private static Optional<Verdict> otherSample(
      List<SpecificRecord> correcting, Map<String, SpecificRecord> facts) {
    return correcting.stream().flatMap(test -> otherSample(test, facts).stream()).findFirst();
  }

  /**
   * Also over corrections between, which change the sample in one step and the result in another.
   */
  private static Optional<Verdict> otherSample(
      SpecificRecord test, Map<String, SpecificRecord> facts) {
    Set<String> seen = new HashSet<>();
    return Stream.iterate(
            corrected(test).map(facts::get),
            Optional::isPresent,
            before -> before.flatMap(ConflictingCorrections::corrected).map(facts::get))
        .flatMap(Optional::stream)
        .takeWhile(before -> seen.add(FactType.idOf(before)))
        .filter(before -> isRetest(before, test))
        .findFirst()
        .map(
            before -> {
              Fact corrected = new Fact(FactType.idOf(before));
              Fact correction = new Fact(FactType.idOf(test));
              return owed(
                  OTHER_SAMPLE,
                  List.of(corrected.factId(), correction.factId()),
                  new OriginFinding.CorrectedByOtherSample(corrected, correction),
                  new Evidence.CorrectionOfItsKind(corrected));
            });
  }

  /** A sample may have been mistyped; then the same was found. */
  private static boolean isRetest(SpecificRecord before, SpecificRecord after) {
    return before.getSchema().equals(after.getSchema())
        && SamplingGate.sampleOf(before).isPresent()
        && !SamplingGate.sampleOf(before).equals(SamplingGate.sampleOf(after))
        && before.getSchema().getFields().stream()
            .filter(field -> !NOT_FOUND.contains(field.name()))
            .anyMatch(field -> !Objects.equals(before.get(field.pos()), after.get(field.pos())));
  }

  private static Optional<Verdict> elsewhere(Dossier dossier, Set<String> held) {
    return dossier.entries().stream()
        .filter(Entry::counts)
        .flatMap(
            entry ->
                entry.unconfirmed().stream()
                    .filter(by -> by.isOfOtherSubject(entry.fact(), held))
                    .map(by -> elsewhere(dossier, entry.header().getFactId(), by)))
        .findFirst();
  }

  private static Verdict elsewhere(Dossier dossier, String factId, Entry.Superseded by) {
    Fact corrected = new Fact(factId);
    return owed(
        ELSEWHERE,
        List.of(factId, by.byFactId()),
        new OriginFinding.CorrectedElsewhere(corrected, new Fact(by.byFactId()), dossier.subject()),
        new Evidence.CorrectionHere(corrected, dossier.subject()));
  }

  private static Optional<Verdict> stillTold(Dossier dossier) {
    Set<Subject> named =
        dossier.parents().stream().map(Report.FromParent::parent).collect(Collectors.toSet());
    Set<Subject> told =
        dossier.reports().stream()
            .filter(Report.FromParent.class::isInstance)
            .map(report -> ((Report.FromParent) report).parent())
            .filter(parent -> !named.contains(parent))
            .collect(Collectors.toSet());
    return dossier
        .supersededEdges()
        .filter(edge -> edge.child().equals(dossier.subject()) && told.contains(edge.parent()))
        .findFirst()
        .map(edge -> stillTold(dossier, edge));
  }

  private static Verdict stillTold(Dossier dossier, Edge edge) {
    Fact moved = new Fact(edge.factId());
    return owed(
        STILL_TOLD,
        List.of(edge.factId()),
        new OriginFinding.StillTold(moved, edge.parent(), dossier.subject()),
        new Evidence.CorrectionHere(moved, dossier.subject()));
  }

  /** Whether a fact says what somebody found of the seed of one lot, or in one crop. */
  public static boolean isTest(SpecificRecord fact) {
    return fact instanceof PostControlResult
        || fact instanceof FieldInspection
        || fact instanceof SterilityCheck
        || SamplingGate.sampleOf(fact).isPresent();
  }

  /** Whether a fact says what a person decided of the seed itself, whatever it is called. */
  public static boolean isDecision(SpecificRecord fact) {
    return fact instanceof Condemnation || fact instanceof Downgrade;
  }

  private static Optional<Verdict> renamed(
      Dossier dossier, String aspect, Function<Subject, Evidence> evidence) {
    return dossier.failuresOfParts().stream()
        .filter(told -> told.aspect().equals(aspect))
        .min(Comparator.comparing(InheritedFinding::origin))
        .map(
            told ->
                owed(
                    aspect,
                    told.factIds(),
                    new OriginFinding.TestsOfRenamedLot(told.origin(), Fact.each(told.factIds())),
                    evidence.apply(told.origin())));
  }

  /** Acts of persons undo each other by rules of their own. */
  private static List<SpecificRecord> correcting(Dossier dossier) {
    return dossier
        .counting()
        .filter(fact -> !FactType.of(fact).isAct())
        .filter(fact -> corrected(fact).isPresent())
        .toList();
  }

  static Verdict owed(String key, List<String> factIds, OriginFinding finding, Evidence evidence) {
    return Findings.of(GateAspect.of(Gate.ORIGIN, key, new Aspect.Corrections()), factIds, finding)
        .owed(evidence);
  }

  private static Optional<String> corrected(SpecificRecord fact) {
    return Optional.ofNullable(FactType.headerOf(fact).getCorrection())
        .map(Correction::getSupersedes);
  }
}
