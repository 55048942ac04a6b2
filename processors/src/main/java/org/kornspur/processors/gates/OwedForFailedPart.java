package org.kornspur.processors.gates;

import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.balance.MassFlow;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.InheritedFinding;
import org.kornspur.processors.dossier.Report;
import org.kornspur.processors.finding.Aspect;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.Finding;
import org.kornspur.processors.gates.Findings.GateAspect;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * What a failed part leaves open though no test of the whole need be there: what its plants are,
 * and of a mixture the share of its components. It is owed by the other parts and by what is left
 * of the whole. A part that was grown itself, and of which enough plants of what failed were
 * counted and held, stands on that; that it is what it is called takes a count of off-types too. A
 * part of a mixture stands on a sample of its own, and so does what is left of the whole if it was
 * drawn on a later day.
 *
 * <p>Common practice, no source.
 *
 * @param rule the gate by results of the lot itself
 */
public record OwedForFailedPart(GateRule rule, Gate gate) implements GateRule {
  private static final String PART = "part of the lot";
  private static final String OFF_TYPES = ", off-types";
  private static final String IDENTITY = ", identity";

  /** Kilograms; less is rounding of the sum. */
  private static final double A_GRAM = 0.001;

  private static final Set<Gate> GATES = EnumSet.of(Gate.BLEND_SHARE, Gate.POST_CONTROL);

  @Override
  public List<Verdict> judge(Dossier dossier, Rulebook rulebook) {
    List<Verdict> own = rule.judge(dossier, rulebook);
    return SeedLot.of(dossier, rulebook)
        .map(lot -> Stream.concat(own.stream(), of(lot, own)).toList())
        .orElse(own);
  }

  private Stream<Verdict> of(SeedLot lot, List<Verdict> own) {
    Stream<Verdict> told =
        toldTo(lot.dossier(), gate).stream()
            .filter(doubt -> !lot.dossier().factIds().containsAll(doubt.factIds())) // its own
            .filter(doubt -> !isSettled(doubt, lot, own));
    Stream<InheritedFinding> ofParts =
        FailedParts.isWhollyDivided(lot)
            ? Stream.empty()
            : FailedParts.failures(lot.dossier(), gate)
                .filter(failure -> !isSettledAtWhole(failure, lot, own));
    return oneOfEach(Stream.concat(told, doubts(gate, ofParts, ofRest(lot))));
  }

  /** What is owed of what is left of the whole: nobody knows from which of it a plot was sown. */
  private Evidence ofRest(SeedLot whole) {
    double distributedKg = whole.outKg(flow -> SeedLot.USES.contains(flow.by()));
    double inStoreKg = whole.totalKg(MassFlow.Direction.IN) - whole.totalKg(MassFlow.Direction.OUT);
    return gate == Gate.BLEND_SHARE
        ? ofEachPart(gate)
        : new Evidence.PostControlOfRest(kilograms(inStoreKg), kilograms(distributedKg));
  }

  private static Optional<Amount> kilograms(double kg) {
    return Optional.of(kg).filter(some -> some >= A_GRAM).map(Amount::kilograms);
  }

  private static Evidence ofEachPart(Gate gate) {
    return gate == Gate.BLEND_SHARE
        ? new Evidence.SampleOfMixture()
        : new Evidence.PostControlOfEachPart();
  }

  /** What the lots that this one was made of tell of their other parts. */
  static List<Verdict> toldTo(Dossier part, Gate gate) {
    return part.believedParents()
        .filter(whole -> isOfSameHarvest(part, whole.parent()))
        .map(Report.FromParent::seedVerdicts)
        .flatMap(List::stream)
        .filter(verdict -> verdict.gate() == gate && is(verdict))
        .toList();
  }

  /** What a lot tells those that are made of it, beside its own verdicts. */
  static Stream<Verdict> toldOf(Dossier whole, List<Verdict> verdicts) {
    return oneOfEach(
        Stream.concat(
            verdicts.stream().filter(OwedForFailedPart::is).map(OwedForFailedPart::toPart),
            GATES.stream()
                .flatMap(
                    gate -> doubts(gate, FailedParts.failures(whole, gate), ofEachPart(gate)))));
  }

  /** What is owed of the rest of the whole is no matter of a part. */
  private static Verdict toPart(Verdict doubt) {
    return new Verdict.Owed(
        doubt.gate(),
        doubt.aspect(),
        doubt.about(),
        List.of(ofEachPart(doubt.gate()).coded()),
        doubt.limit(),
        doubt.factIds(),
        doubt.findings(),
        List.of());
  }

  /** Whether a part is told it beside the tests of the whole, which its own may settle. */
  public static boolean isToldByTests(InheritedFinding trouble, Dossier part) {
    return isOf(trouble.gate(), trouble.aspect())
        && part.parent(trouble.origin()).isPresent()
        && isOfSameHarvest(part, trouble.origin());
  }

  private static boolean isOfSameHarvest(Dossier part, Subject whole) {
    return part.edgesIn().stream()
        .filter(edge -> edge.parent().equals(whole))
        .anyMatch(edge -> edge.by().keepsHarvest());
  }

  private static boolean is(Verdict verdict) {
    return isOf(verdict.gate(), verdict.aspect());
  }

  private static boolean isOf(Gate gate, String aspect) {
    return GATES.contains(gate) && aspect.startsWith(PART);
  }

  private static Stream<Verdict> doubts(
      Gate gate, Stream<InheritedFinding> failures, Evidence evidence) {
    Map<String, List<InheritedFinding>> byKind =
        failures.collect(
            Collectors.groupingBy(
                failure -> kind(gate, failure.aspect()), TreeMap::new, Collectors.toList()));
    return byKind.entrySet().stream()
        .map(failed -> doubt(gate, failed.getKey(), failed.getValue(), evidence));
  }

  private static Verdict doubt(
      Gate gate, String kind, List<InheritedFinding> failed, Evidence evidence) {
    return new Findings(
            GateAspect.of(gate, PART + kind, new Aspect.PartOfLot()),
            failed.stream()
                .flatMap(failure -> failure.factIds().stream())
                .distinct()
                .sorted()
                .toList(),
            failed.stream().<Finding>map(FailedParts::found).distinct().toList())
        .owed(evidence);
  }

  /** A count that is too small for a verdict settles nothing. */
  private boolean isSettled(Verdict doubt, SeedLot lot, List<Verdict> own) {
    if (gate == Gate.BLEND_SHARE) {
      return OwnComposition.holds(lot.dossier(), lot.rulebook(), own);
    }
    String kind = doubt.aspect().substring(PART.length());
    return holds(kind, own) && (!kind.equals(IDENTITY) || holds(OFF_TYPES, own));
  }

  /** Of a plot nobody knows the day on which its sample was drawn. */
  private boolean isSettledAtWhole(InheritedFinding failure, SeedLot whole, List<Verdict> own) {
    return gate == Gate.BLEND_SHARE
        && OwnComposition.holdsAfter(
            FailedParts.lastMovedOn(whole.dossier(), failure),
            whole.dossier(),
            whole.rulebook(),
            own);
  }

  private boolean holds(String kind, List<Verdict> own) {
    return own.stream()
        .filter(Verdict.Met.class::isInstance)
        .anyMatch(verdict -> kind(gate, verdict.aspect()).equals(kind));
  }

  /** What was counted, whatever plot or test it was in; of a mixture that is one thing. */
  private static String kind(Gate gate, String aspect) {
    return gate == Gate.BLEND_SHARE
        ? ""
        : ", " + aspect.split(",", 2)[0].replace(" of the female", "");
  }

  private static Stream<Verdict> oneOfEach(Stream<Verdict> verdicts) {
    Map<List<Object>, Verdict> first = new LinkedHashMap<>();
    verdicts.forEach(
        verdict -> first.putIfAbsent(List.of(verdict.gate(), verdict.aspect()), verdict));
    return first.values().stream();
  }
}
