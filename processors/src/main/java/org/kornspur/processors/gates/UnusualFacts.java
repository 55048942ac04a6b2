package org.kornspur.processors.gates;

import java.time.LocalDate;
import java.time.Month;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.KernelWeightTest;
import org.kornspur.contract.LotDeclared;
import org.kornspur.contract.OtherSeedDetermination;
import org.kornspur.contract.PurityTest;
import org.kornspur.contract.Sampling;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.finding.Aspect;
import org.kornspur.processors.finding.Bound;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.OriginFinding;
import org.kornspur.processors.gates.Findings.GateAspect;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * Facts that are possible one by one and do not fit together, or lie far from what rye does: a test
 * of seed that was not there yet, or of more than was sent in, a kernel weight of no rye, and those
 * of {@link UnusualCropFacts}. They owe a correction; nothing rests on them until then.
 *
 * <p>Common practice, no source; the numbers stand in the rulebook of common practice.
 */
final class UnusualFacts {
  private static final Set<FactType> OF_SAMPLES =
      EnumSet.of(
          FactType.SAMPLING,
          FactType.GERMINATION_TEST,
          FactType.PURITY_TEST,
          FactType.OTHER_SEED_DETERMINATION,
          FactType.MOISTURE_TEST,
          FactType.KERNEL_WEIGHT_TEST,
          FactType.BLEND_COMPOSITION,
          FactType.POST_CONTROL_RESULT);

  private static final Month EARLIEST_HARVEST = Month.JUNE;

  private UnusualFacts() {}

  static List<Verdict> judge(Dossier dossier, Rulebook rulebook) {
    return Stream.of(
            UnusualCropFacts.judge(dossier, rulebook),
            moreThanSubmitted(dossier),
            Stream.of(
                    testedBefore(dossier),
                    testedBeforeCropYear(dossier),
                    declaredBeforeHarvest(dossier),
                    kernelWeight(dossier, rulebook, Quantity.KERNEL_WEIGHT_LEAST),
                    kernelWeight(dossier, rulebook, Quantity.KERNEL_WEIGHT_MOST))
                .flatMap(Optional::stream))
        .flatMap(verdicts -> verdicts)
        .toList();
  }

  /**
   * No laboratory works on more of a sample than was sent in; what it found in that is not sure.
   */
  private static Stream<Verdict> moreThanSubmitted(Dossier dossier) {
    Map<String, Double> submittedG =
        dossier.facts(Sampling.class).stream()
            .collect(
                Collectors.toMap(
                    Sampling::getSampleId,
                    Sampling::getSubmittedSampleG,
                    (a, b) -> Math.max(a, b)));
    return Stream.concat(
        dossier.facts(PurityTest.class).stream()
            .flatMap(
                test ->
                    moreThanSubmitted(
                        test,
                        test.getSampleId(),
                        test.getPureSeedG() + test.getInertMatterG() + test.getOtherSeedsG(),
                        submittedG)),
        dossier.facts(OtherSeedDetermination.class).stream()
            .flatMap(
                test ->
                    moreThanSubmitted(test, test.getSampleId(), test.getSampleG(), submittedG)));
  }

  private static Stream<Verdict> moreThanSubmitted(
      SpecificRecord test, String sample, double testedG, Map<String, Double> submittedG) {
    String factId = FactType.idOf(test);
    return Optional.ofNullable(submittedG.get(sample))
        .filter(submitted -> testedG > submitted)
        .map(
            submitted ->
                owed(
                    "working sample, fact " + factId,
                    new Aspect.Sample(sample, new Fact(factId)),
                    List.of(factId),
                    new OriginFinding.MoreThanSubmitted(
                        new Fact(factId), Amount.grams(testedG), Amount.grams(submitted)),
                    Optional.empty()))
        .stream();
  }

  /** Seed that was bought in may have been tested before; what came in here may not. */
  private static Optional<Verdict> testedBefore(Dossier dossier) {
    return dossier.edgesIn().stream()
        .filter(edge -> edge.by() != FactType.SOWING)
        .map(Edge::day)
        .min(LocalDate::compareTo)
        .flatMap(
            cameIn ->
                testedEarlier(
                    dossier,
                    day -> day.isBefore(cameIn),
                    tests -> new OriginFinding.TestedBefore(cameIn, tests)));
  }

  /**
   * Seed that was bought in was not there before the harvest of its year, which north of the
   * equator begins in June at the earliest; from memory. South of it the year is that in which the
   * harvest began.
   */
  private static Optional<Verdict> testedBeforeCropYear(Dossier dossier) {
    return dossier
        .declaredLot()
        .map(LotDeclared::getCropYear)
        .flatMap(
            cropYear ->
                testedEarlier(
                    dossier,
                    day -> day.isBefore(LocalDate.of(cropYear, EARLIEST_HARVEST, 1)),
                    tests -> new OriginFinding.TestedBeforeCropYear(cropYear.toString(), tests)));
  }

  private static Optional<Verdict> testedEarlier(
      Dossier dossier, Predicate<LocalDate> tooEarly, Function<List<Fact>, OriginFinding> finding) {
    List<String> early =
        dossier
            .counting()
            .filter(fact -> OF_SAMPLES.contains(FactType.of(fact)))
            .filter(fact -> tooEarly.test(FactType.dayOf(fact)))
            .map(FactType::idOf)
            .toList();
    return early.isEmpty()
        ? Optional.empty()
        : Optional.of(
            owed(
                "days of tests",
                new Aspect.DaysOfTests(),
                early,
                finding.apply(Fact.each(early)),
                Optional.empty()));
  }

  private static Optional<Verdict> declaredBeforeHarvest(Dossier dossier) {
    return dossier
        .declaredLot()
        .filter(lot -> lot.getCropYear() > FactType.dayOf(lot).getYear())
        .map(
            lot ->
                ofOtherYear(
                    "year of harvest",
                    new Aspect.YearOfHarvest(),
                    lot.getCropYear(),
                    lot,
                    List.of(FactType.idOf(lot))));
  }

  static Verdict ofOtherYear(
      String key, Aspect aspect, int cropYear, SpecificRecord fact, List<String> factIds) {
    return owed(
        key,
        aspect,
        factIds,
        new OriginFinding.HarvestOfOtherYear(Integer.toString(cropYear), FactType.dayOf(fact)),
        Optional.empty());
  }

  private static Optional<Verdict> kernelWeight(
      Dossier dossier, Rulebook rulebook, Quantity quantity) {
    return SeedLot.of(dossier, rulebook)
        .flatMap(lot -> lot.limit(quantity))
        .flatMap(
            limit ->
                dossier.facts(KernelWeightTest.class).stream()
                    .filter(test -> !limit.holds(KernelWeights.thousandG(test.getReplicates())))
                    .findFirst()
                    .map(
                        test ->
                            owed(
                                "kernel weight",
                                new Aspect.Kind(quantity),
                                List.of(FactType.idOf(test)),
                                new OriginFinding.Unusual(
                                    quantity,
                                    Amount.grams(KernelWeights.thousandG(test.getReplicates())),
                                    Bound.cited(limit)),
                                Optional.of(limit))));
  }

  static Verdict owed(
      String key,
      Aspect aspect,
      List<String> factIds,
      OriginFinding finding,
      Optional<Limit> limit) {
    return Findings.of(GateAspect.of(Gate.ORIGIN, key, aspect), factIds, finding)
        .owed(limit, new Evidence.Correction(Fact.each(factIds)));
  }
}
