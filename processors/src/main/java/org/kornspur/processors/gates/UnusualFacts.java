package org.kornspur.processors.gates;

import java.time.LocalDate;
import java.time.Month;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.KernelWeightTest;
import org.kornspur.contract.LotDeclared;
import org.kornspur.contract.MoistureTest;
import org.kornspur.contract.PostControlMethod;
import org.kornspur.contract.PostControlResult;
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
 * of seed that was not there yet, a plot read before plants show anything, a kernel weight or
 * moisture of no rye, and those of {@link UnusualSamples}, {@link UnusualLabels}, {@link
 * UnusualCropDays} and {@link UnusualCropQuantities}. They owe a correction; nothing rests on them
 * until then.
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

  private static final Month FIRST_IN_SPRING = Month.MARCH;

  /** From sowing to the emergence of ears, where nothing holds the plants up. */
  private static final int DAYS_OF_PLOT = 120;

  private UnusualFacts() {}

  static List<Verdict> judge(Dossier dossier, Rulebook rulebook) {
    return Stream.of(
            UnusualCropDays.judge(dossier),
            UnusualCropQuantities.judge(dossier, rulebook),
            UnusualSamples.judge(dossier),
            UnusualLabels.judge(dossier),
            Stream.of(
                    plotTooEarly(dossier),
                    testedBefore(dossier),
                    testedBeforeCropYear(dossier),
                    declaredBeforeHarvest(dossier),
                    moisture(dossier, rulebook),
                    kernelWeight(dossier, rulebook, Quantity.KERNEL_WEIGHT_LEAST),
                    kernelWeight(dossier, rulebook, Quantity.KERNEL_WEIGHT_MOST))
                .flatMap(Optional::stream))
        .flatMap(verdicts -> verdicts)
        .toList();
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
                    day -> day.isBefore(firstHarvest(cropYear)),
                    tests -> new OriginFinding.TestedBeforeCropYear(cropYear.toString(), tests)));
  }

  /**
   * Plants of winter rye in a plot show what they are in the spring after the harvest of their
   * seed. Only of seed that was there before June of its year, as south of the equator, they do so
   * many days later. Common practice, no source.
   */
  private static Optional<Verdict> plotTooEarly(Dossier dossier) {
    return dossier
        .material()
        .flatMap(
            material -> {
              LocalDate spring = LocalDate.of(material.cropYear() + 1, FIRST_IN_SPRING, 1);
              LocalDate from =
                  firstThere(dossier)
                      .filter(there -> there.isBefore(firstHarvest(material.cropYear())))
                      .map(there -> there.plusDays(DAYS_OF_PLOT))
                      .filter(grown -> grown.isBefore(spring))
                      .orElse(spring);
              List<String> early =
                  dossier.facts(PostControlResult.class).stream()
                      .filter(result -> result.getMethod() == PostControlMethod.PLOT)
                      .filter(result -> FactType.dayOf(result).isBefore(from))
                      .map(FactType::idOf)
                      .toList();
              return early.isEmpty()
                  ? Optional.<Verdict>empty()
                  : Optional.of(
                      owed(
                          "days of plots",
                          new Aspect.DaysOfPlots(),
                          early,
                          new OriginFinding.PlotTooEarly(from, Fact.each(early)),
                          Optional.empty()));
            });
  }

  private static LocalDate firstHarvest(int cropYear) {
    return LocalDate.of(cropYear, EARLIEST_HARVEST, 1);
  }

  private static Optional<LocalDate> firstThere(Dossier dossier) {
    return Stream.concat(
            dossier.declaredLot().stream().map(FactType::dayOf),
            dossier.edgesIn().stream().map(Edge::day))
        .min(LocalDate::compareTo);
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

  /** Air takes no more water out of seed than that; a figure below it is mistyped. */
  private static Optional<Verdict> moisture(Dossier dossier, Rulebook rulebook) {
    return SeedLot.of(dossier, rulebook)
        .flatMap(lot -> lot.limit(Quantity.MOISTURE_LEAST))
        .flatMap(
            limit ->
                dossier.facts(MoistureTest.class).stream()
                    .filter(test -> !limit.holds(test.getMoisturePercent()))
                    .findFirst()
                    .map(
                        test ->
                            owed(
                                "moisture",
                                new Aspect.Kind(Quantity.MOISTURE_LEAST),
                                List.of(FactType.idOf(test)),
                                new OriginFinding.Unusual(
                                    Quantity.MOISTURE_LEAST,
                                    Amount.percent(test.getMoisturePercent()),
                                    Bound.cited(limit)),
                                Optional.of(limit))));
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
