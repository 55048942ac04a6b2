package org.kornspur.processors.gates;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.FieldInspection;
import org.kornspur.contract.Harvest;
import org.kornspur.contract.InspectedPart;
import org.kornspur.contract.Sowing;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.finding.Aspect;
import org.kornspur.processors.finding.Bound;
import org.kornspur.processors.finding.OriginFinding;
import org.kornspur.processors.ground.FloweringWindow;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.verdict.Verdict;

/**
 * Facts on a crop that do not fit together, or lie far from what rye does: a visit or harvest in
 * another year than the crop's, a visit after its harvest or in flower far from its flowering, more
 * sown or counted than the outline holds, a yield of no rye.
 *
 * <p>Common practice, no source; the numbers stand in the rulebook of common practice.
 */
final class UnusualCropFacts {
  private static final double KG_IN_TONNE = 1000;
  private static final double M2_IN_HECTARE = 10_000;

  private UnusualCropFacts() {}

  static Stream<Verdict> judge(Dossier dossier, Rulebook rulebook) {
    CroppedArea area = CroppedArea.of(dossier);
    return Stream.of(
            visitedInOtherYear(dossier),
            visitedAfterHarvest(dossier),
            seenFarFromFlowering(dossier),
            harvestedInOtherYear(dossier),
            sownBeyondOutline(dossier, area),
            countedBeyondOutline(dossier, area),
            harvestFromArea(dossier, rulebook, area))
        .flatMap(Optional::stream);
  }

  private static Optional<Verdict> visitedInOtherYear(Dossier dossier) {
    return dossier
        .crop()
        .flatMap(
            crop -> {
              CropSeason season = CropSeason.of(dossier, crop);
              return dossier
                  .counting()
                  .filter(season::isOfOtherYear)
                  .findFirst()
                  .map(
                      visit ->
                          UnusualFacts.ofOtherYear(
                              "year of visits",
                              new Aspect.YearOfVisits(),
                              crop.getCropYear(),
                              visit,
                              FactType.idsOf(List.of(crop, visit))));
            });
  }

  private static Optional<Verdict> visitedAfterHarvest(Dossier dossier) {
    return dossier
        .crop()
        .map(crop -> CropSeason.of(dossier, crop))
        .flatMap(
            season ->
                looks(
                    dossier,
                    season::isAfterHarvest,
                    "visits after harvest",
                    looks ->
                        new OriginFinding.SeenAfterHarvest(
                            season.lastHarvest().orElseThrow(), looks)));
  }

  private static Optional<Verdict> seenFarFromFlowering(Dossier dossier) {
    return dossier
        .crop()
        .map(crop -> CropSeason.of(dossier, crop))
        .flatMap(
            season ->
                looks(
                    dossier,
                    season::isFarFromFlowering,
                    "days in flower",
                    looks ->
                        new OriginFinding.SeenFarFromFlowering(
                            FloweringWindow.ASTRAY_DAYS, looks)));
  }

  private static Optional<Verdict> looks(
      Dossier dossier,
      Predicate<SpecificRecord> isWrong,
      String key,
      Function<List<Fact>, OriginFinding> finding) {
    List<String> wrong = dossier.counting().filter(isWrong).map(FactType::idOf).toList();
    return wrong.isEmpty()
        ? Optional.empty()
        : Optional.of(
            UnusualFacts.owed(
                key,
                new Aspect.DaysOfVisits(),
                wrong,
                finding.apply(Fact.each(wrong)),
                Optional.empty()));
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
                            UnusualFacts.ofOtherYear(
                                "year of harvest",
                                new Aspect.YearOfHarvest(),
                                crop.getCropYear(),
                                harvest,
                                FactType.idsOf(List.of(crop, harvest)))));
  }

  /** Tonnes from each hectare that was sown within the outline. */
  private static Optional<Verdict> harvestFromArea(
      Dossier dossier, Rulebook rulebook, CroppedArea area) {
    List<Harvest> harvests = dossier.facts(Harvest.class);
    double areaHa = area.hectares();
    if (harvests.isEmpty() || !(areaHa > 0)) {
      return Optional.empty();
    }
    double tonnes = harvests.stream().mapToDouble(Harvest::getMassKg).sum() / KG_IN_TONNE / areaHa;
    return SeedCrop.of(dossier, rulebook)
        .flatMap(crop -> crop.limit(Quantity.YIELD_MOST))
        .filter(limit -> !limit.holds(tonnes))
        .map(
            limit ->
                UnusualFacts.owed(
                    "yield",
                    new Aspect.Kind(Quantity.YIELD_MOST),
                    FactType.idsOf(harvests),
                    new OriginFinding.Unusual(
                        Quantity.YIELD_MOST, new Amount(tonnes, limit.unit()), Bound.cited(limit)),
                    Optional.of(limit)));
  }

  /** More was sown than there is: the outline, or the area sown, is wrong. */
  private static Optional<Verdict> sownBeyondOutline(Dossier dossier, CroppedArea area) {
    List<String> factIds =
        Stream.concat(dossier.crop().stream(), dossier.facts(Sowing.class).stream())
            .map(FactType::idOf)
            .toList();
    return area.isSownBeyondOutline()
        ? Optional.of(
            UnusualFacts.owed(
                "area sown",
                new Aspect.AreaSown(),
                factIds,
                new OriginFinding.SownBeyondOutline(
                    new Amount(area.largestHa(), "ha"), new Amount(area.outlineHa(), "ha")),
                Optional.empty()))
        : Optional.empty();
  }

  /** A visit looked at more ground than there is: a count of so much shows nothing. */
  private static Optional<Verdict> countedBeyondOutline(Dossier dossier, CroppedArea area) {
    return Arrays.stream(InspectedPart.values())
        .flatMap(
            part ->
                Visit.of(
                    dossier.facts(FieldInspection.class).stream()
                        .filter(count -> count.getPart() == part && count.getAreaM2() != null)
                        .toList())
                    .stream())
        .filter(visit -> area.isBeyondOutline(countedHa(visit)))
        .findFirst()
        .map(
            visit ->
                UnusualFacts.owed(
                    "area counted",
                    new Aspect.Kind(Quantity.COUNTED_AREA),
                    Stream.concat(
                            dossier.crop().map(FactType::idOf).stream(), visit.factIds().stream())
                        .toList(),
                    new OriginFinding.CountedBeyondOutline(
                        new Amount(countedHa(visit), "ha"), new Amount(area.outlineHa(), "ha")),
                    Optional.empty()));
  }

  private static double countedHa(Visit visit) {
    return visit.counts().stream().mapToDouble(FieldInspection::getAreaM2).sum() / M2_IN_HECTARE;
  }
}
