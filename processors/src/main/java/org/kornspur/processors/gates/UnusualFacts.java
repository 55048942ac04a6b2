package org.kornspur.processors.gates;

import java.time.LocalDate;
import java.time.Month;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.function.ToDoubleFunction;
import java.util.stream.Stream;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.FieldInspection;
import org.kornspur.contract.Harvest;
import org.kornspur.contract.KernelWeightTest;
import org.kornspur.contract.LotDeclared;
import org.kornspur.contract.Sowing;
import org.kornspur.contract.SterilityCheck;
import org.kornspur.contract.WeighedKernels;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.finding.Aspect;
import org.kornspur.processors.finding.Bound;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.OriginFinding;
import org.kornspur.processors.gates.Findings.GateAspect;
import org.kornspur.processors.ground.Area;
import org.kornspur.processors.ground.InvalidOutline;
import org.kornspur.processors.ground.Outline;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * Facts that are possible one by one and do not fit together, or lie far from what rye does: a test
 * of seed that was not there yet, a visit or harvest in another year than the crop's, a yield or a
 * kernel weight of no rye. They owe a correction; nothing rests on them until then.
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

  /** BBCH stage that winter rye does not reach in the year in which it is sown. */
  private static final int STEM_ELONGATION = 30;

  private static final Month EARLIEST_HARVEST = Month.JUNE;

  private static final double KG_IN_TONNE = 1000;

  private UnusualFacts() {}

  static List<Verdict> judge(Dossier dossier, Rulebook rulebook) {
    return Stream.of(
            testedBefore(dossier),
            testedBeforeCropYear(dossier),
            visitedInOtherYear(dossier),
            harvestedInOtherYear(dossier),
            declaredBeforeHarvest(dossier),
            harvestFromArea(dossier, rulebook),
            kernelWeight(dossier, rulebook, Quantity.KERNEL_WEIGHT_LEAST),
            kernelWeight(dossier, rulebook, Quantity.KERNEL_WEIGHT_MOST))
        .flatMap(Optional::stream)
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

  /**
   * A visit in the autumn before, to young plants, is one of this crop; later ones are not. South
   * of the equator rye flowers in the year before its harvest.
   */
  private static Optional<Verdict> visitedInOtherYear(Dossier dossier) {
    return dossier
        .crop()
        .flatMap(
            crop ->
                dossier
                    .counting()
                    .filter(fact -> isOfOtherYear(fact, crop))
                    .findFirst()
                    .map(
                        visit ->
                            ofOtherYear(
                                "year of visits",
                                new Aspect.YearOfVisits(),
                                crop.getCropYear(),
                                visit,
                                FactType.idsOf(List.of(crop, visit)))));
  }

  private static boolean isOfOtherYear(SpecificRecord fact, FieldCropDeclared crop) {
    int year = FactType.dayOf(fact).getYear();
    boolean isSouthern = crop.getOutline().stream().allMatch(corner -> corner.getLat() < 0);
    boolean isInItsYear =
        year == crop.getCropYear() || (isSouthern && year == crop.getCropYear() - 1);
    if (fact instanceof FieldInspection visit) {
      boolean isYoung = year == crop.getCropYear() - 1 && visit.getBbchStage() < STEM_ELONGATION;
      return !isInItsYear && !isYoung;
    }
    return fact instanceof SterilityCheck && !isInItsYear;
  }

  private static Optional<Verdict> harvestedInOtherYear(Dossier dossier) {
    return dossier
        .crop()
        .flatMap(
            crop ->
                dossier.facts(Harvest.class).stream()
                    .filter(harvest -> FactType.dayOf(harvest).getYear() != crop.getCropYear())
                    .findFirst()
                    .map(
                        harvest ->
                            ofOtherYear(
                                "year of harvest",
                                new Aspect.YearOfHarvest(),
                                crop.getCropYear(),
                                harvest,
                                FactType.idsOf(List.of(crop, harvest)))));
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

  private static Verdict ofOtherYear(
      String key, Aspect aspect, int cropYear, SpecificRecord fact, List<String> factIds) {
    return owed(
        key,
        aspect,
        factIds,
        new OriginFinding.HarvestOfOtherYear(Integer.toString(cropYear), FactType.dayOf(fact)),
        Optional.empty());
  }

  /** Tonnes from each hectare of the outline, or of what was sown where no outline is readable. */
  private static Optional<Verdict> harvestFromArea(Dossier dossier, Rulebook rulebook) {
    List<Harvest> harvests = dossier.facts(Harvest.class);
    double outlineHa = outlineHa(dossier);
    double areaHa =
        outlineHa > 0
            ? outlineHa
            : dossier.facts(Sowing.class).stream().mapToDouble(Sowing::getAreaHa).max().orElse(0);
    if (harvests.isEmpty() || !(areaHa > 0)) {
      return Optional.empty();
    }
    double tonnes = harvests.stream().mapToDouble(Harvest::getMassKg).sum() / KG_IN_TONNE / areaHa;
    return SeedCrop.of(dossier, rulebook)
        .flatMap(crop -> crop.limit(Quantity.YIELD_MOST))
        .filter(limit -> !limit.holds(tonnes))
        .map(
            limit ->
                owed(
                    "yield",
                    new Aspect.Kind(Quantity.YIELD_MOST),
                    FactType.idsOf(harvests),
                    new OriginFinding.Unusual(
                        Quantity.YIELD_MOST, new Amount(tonnes, limit.unit()), Bound.cited(limit)),
                    Optional.of(limit)));
  }

  private static double outlineHa(Dossier dossier) {
    try {
      return dossier.crop().map(crop -> Area.hectares(Outline.of(crop.getOutline()))).orElse(0.0);
    } catch (InvalidOutline unreadable) {
      return 0; // the join says so itself
    }
  }

  private static Optional<Verdict> kernelWeight(
      Dossier dossier, Rulebook rulebook, Quantity quantity) {
    return SeedLot.of(dossier, rulebook)
        .flatMap(lot -> lot.limit(quantity))
        .flatMap(
            limit ->
                dossier.facts(KernelWeightTest.class).stream()
                    .filter(test -> !limit.holds(thousandG(test)))
                    .findFirst()
                    .map(
                        test ->
                            owed(
                                "kernel weight",
                                new Aspect.Kind(quantity),
                                List.of(FactType.idOf(test)),
                                new OriginFinding.Unusual(
                                    quantity, Amount.grams(thousandG(test)), Bound.cited(limit)),
                                Optional.of(limit))));
  }

  private static double thousandG(KernelWeightTest test) {
    return 1000 * sum(test, WeighedKernels::getMassG) / sum(test, weighed -> weighed.getKernels());
  }

  private static double sum(KernelWeightTest test, ToDoubleFunction<WeighedKernels> of) {
    return test.getReplicates().stream().mapToDouble(of).sum();
  }

  private static Verdict owed(
      String key,
      Aspect aspect,
      List<String> factIds,
      OriginFinding finding,
      Optional<Limit> limit) {
    return Findings.of(GateAspect.of(Gate.ORIGIN, key, aspect), factIds, finding)
        .owed(limit, new Evidence.Correction(Fact.each(factIds)));
  }
}
