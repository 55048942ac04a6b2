package org.kornspur.processors.gates;

import java.time.LocalDate;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.kornspur.contract.Sampling;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.ingest.statement.Statement;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Entry;
import org.kornspur.processors.dossier.InheritedFinding;
import org.kornspur.processors.dossier.SeedMeasures;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.LotFinding;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * A lot of which a part failed, or seed that was only treated or put together with other. The other
 * parts are the same seed: what they rest on, the sample of the whole, missed it, so that each owes
 * a sample of its own, and so does what is left of the whole. A part that was tested itself stands
 * on that, and the rest on tests of a sample that was drawn on a later day than the part went.
 * Germination can be lost by one part alone where it was stored badly, and only a test of the
 * others tells; moisture is that of the store and says nothing of them.
 *
 * <p>Common practice, no source.
 *
 * @param rule a gate on seed, by tests of the lot
 */
public record FailedParts(GateRule rule) implements GateRule {
  /** Of which a failure speaks against the seed that a part was split off. */
  public static final Set<Gate> GATES =
      EnumSet.of(
          Gate.BLEND_SHARE,
          Gate.GERMINATION,
          Gate.ANALYTICAL_PURITY,
          Gate.OTHER_SEEDS,
          Gate.ERGOT,
          Gate.POST_CONTROL);

  @Override
  public List<Verdict> judge(Dossier dossier, Rulebook rulebook) {
    List<Verdict> verdicts = rule.judge(dossier, rulebook);
    return dossier.failuresOfParts().isEmpty()
        ? verdicts
        : SeedLot.of(dossier, rulebook)
            .filter(lot -> !isWhollyDivided(lot))
            .map(lot -> verdicts.stream().map(verdict -> ofRest(lot, verdict)).toList())
            .orElse(verdicts);
  }

  /** What is left of the whole stands on a sample that was drawn after the part had gone. */
  private Verdict ofRest(SeedLot lot, Verdict verdict) {
    Verdict inDoubt = inDoubt(lot.dossier(), verdict);
    return inDoubt == verdict || !holdsSince(lot, verdict) ? inDoubt : verdict;
  }

  private boolean holdsSince(SeedLot lot, Verdict verdict) {
    LocalDate gone =
        failures(lot.dossier(), verdict.gate())
            .map(failure -> lastMovedOn(lot.dossier(), failure))
            .max(Comparator.naturalOrder())
            .orElse(LocalDate.MAX);
    List<Sampling> since =
        SamplingGate.good(lot.dossier(), lot.rulebook()).stream()
            .filter(drawn -> FactType.dayOf(drawn).isAfter(gone))
            .toList();
    Predicate<Entry> isOfSince = entry -> SamplingGate.isOfOne(since, entry.fact());
    Set<String> tests =
        lot.dossier().entries().stream()
            .filter(isOfSince)
            .map(entry -> entry.header().getFactId())
            .collect(Collectors.toSet());
    return rule
        .judge(
            lot.dossier().of(isOfSince.or(entry -> SamplingGate.sampleOf(entry.fact()).isEmpty())),
            lot.rulebook())
        .stream()
        .filter(alone -> alone.aspect().equals(verdict.aspect()))
        .filter(Verdict.Met.class::isInstance)
        .anyMatch(alone -> alone.factIds().stream().anyMatch(tests::contains));
  }

  /** Verdicts that parts may rest on, and what is owed for other parts. */
  public static List<Verdict> toldOf(Dossier whole, List<Verdict> verdicts) {
    return Stream.concat(
            verdicts.stream()
                .filter(verdict -> verdict.gate().failureKind() == Gate.FailureKind.SEED_QUALITY)
                .map(verdict -> inDoubt(whole, verdict)),
            OwedForFailedPart.toldOf(whole, verdicts))
        .toList();
  }

  /** What a blend needs to know of a lot of which a part failed. */
  public static SeedMeasures measures(Dossier whole, SeedMeasures measures) {
    return failures(whole, Gate.GERMINATION).findAny().isPresent()
        ? measures.germinationInDoubt()
        : measures;
  }

  private static Verdict inDoubt(Dossier whole, Verdict verdict) {
    if (!(verdict instanceof Verdict.Met met)) {
      return verdict;
    }
    List<Coded> failed =
        failures(whole, met.gate())
            .filter(failure -> failure.aspect().equals(met.aspect()))
            .map(FailedParts::found)
            .map(Statement::coded)
            .distinct()
            .toList();
    return failed.isEmpty()
        ? met
        : met.owing(
            List.of(new Evidence.SampleOfEachPart().coded()),
            met.limit(),
            Stream.concat(failed.stream(), met.findings().stream()).toList());
  }

  static Stream<InheritedFinding> failures(Dossier whole, Gate gate) {
    return whole.failuresOfParts().stream().filter(failure -> failure.gate() == gate);
  }

  /** The last day on which seed went from the whole into the part that told of a failure. */
  static LocalDate lastMovedOn(Dossier whole, InheritedFinding failure) {
    Subject part = failure.path().get(failure.path().size() - 1);
    return whole.edgesOut().stream()
        .filter(edge -> edge.child().equals(part))
        .map(Edge::day)
        .max(Comparator.naturalOrder())
        .orElse(LocalDate.MAX);
  }

  static LotFinding.PartFailed found(InheritedFinding failure) {
    return new LotFinding.PartFailed(failure.origin(), Fact.each(failure.factIds()));
  }

  /**
   * Of such a lot there is no seed but in lots made of it, and they are told. A crop or mixture is
   * not.
   */
  static boolean isWhollyDivided(SeedLot lot) {
    return !lot.isUsed() && lot.isAll(lot.outKg(flow -> flow.by().keepsHarvest()));
  }
}
