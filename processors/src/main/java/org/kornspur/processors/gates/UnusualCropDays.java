package org.kornspur.processors.gates;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.Harvest;
import org.kornspur.contract.Sowing;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.finding.Aspect;
import org.kornspur.processors.finding.OriginFinding;
import org.kornspur.processors.ground.FloweringWindow;
import org.kornspur.processors.verdict.Verdict;

/**
 * Days of a crop that do not fit together, or on which no rye is so far: a sowing of another
 * season, a visit or harvest in another year than the crop's, a visit before it can have grown,
 * after its harvest or in flower far from its flowering, a harvest before it can be ripe.
 *
 * <p>Common practice, no source.
 */
record UnusualCropDays(Dossier dossier, FieldCropDeclared crop, CropSeason season) {

  static Stream<Verdict> judge(Dossier dossier) {
    return dossier
        .crop()
        .map(crop -> new UnusualCropDays(dossier, crop, CropSeason.of(dossier, crop)))
        .stream()
        .flatMap(UnusualCropDays::verdicts);
  }

  private Stream<Verdict> verdicts() {
    return Stream.of(
            sownOutOfSeason(),
            visitedInOtherYear(),
            looks(
                season::isBeforeItGrew,
                "visits before growth",
                looks ->
                    new OriginFinding.SeenBeforeItGrew(
                        season.sown().orElseThrow(), looks, CropSeason.LEAST_DAYS_TO_FLOWER)),
            looks(season::isInWinter, "visits in winter", OriginFinding.SeenInWinter::new),
            looks(
                season::isAfterHarvest,
                "visits after harvest",
                looks ->
                    new OriginFinding.SeenAfterHarvest(season.lastHarvest().orElseThrow(), looks)),
            looks(
                season::isFarFromFlowering,
                "days in flower",
                looks ->
                    new OriginFinding.SeenFarFromFlowering(FloweringWindow.ASTRAY_DAYS, looks)),
            harvestedInOtherYear(),
            harvestedUnripe())
        .flatMap(Optional::stream);
  }

  /** Rye is sown in the year of its harvest or the one before, and not while it flowers. */
  private Optional<Verdict> sownOutOfSeason() {
    Optional<LocalDate> firstInFlower = CropSeason.firstInFlower(dossier, crop);
    return dossier.facts(Sowing.class).stream()
        .filter(
            sowing ->
                isOfOtherSeason(FactType.dayOf(sowing))
                    || firstInFlower.filter(FactType.dayOf(sowing)::isAfter).isPresent())
        .findFirst()
        .map(
            sowing ->
                UnusualFacts.owed(
                    "day of sowing",
                    new Aspect.DayOfSowing(),
                    FactType.idsOf(List.of(crop, sowing)),
                    new OriginFinding.SownOutOfSeason(
                        FactType.dayOf(sowing), Integer.toString(crop.getCropYear())),
                    Optional.empty()));
  }

  private boolean isOfOtherSeason(LocalDate sown) {
    return sown.getYear() != crop.getCropYear() && sown.getYear() != crop.getCropYear() - 1;
  }

  private Optional<Verdict> visitedInOtherYear() {
    return dossier
        .counting()
        .filter(season::isOfOtherYear)
        .findFirst()
        .map(visit -> ofOtherYear("year of visits", new Aspect.YearOfVisits(), visit));
  }

  private Optional<Verdict> looks(
      Predicate<SpecificRecord> isWrong, String key, Function<List<Fact>, OriginFinding> finding) {
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

  private Optional<Verdict> harvestedInOtherYear() {
    return dossier.facts(Harvest.class).stream()
        .filter(harvest -> FactType.dayOf(harvest).getYear() != crop.getCropYear())
        .findFirst()
        .map(harvest -> ofOtherYear("year of harvest", new Aspect.YearOfHarvest(), harvest));
  }

  private Verdict ofOtherYear(String key, Aspect aspect, SpecificRecord fact) {
    return UnusualFacts.ofOtherYear(
        key, aspect, crop.getCropYear(), fact, FactType.idsOf(List.of(crop, fact)));
  }

  /** No kernel is ripe while the crop flowers, nor for weeks after it. */
  private Optional<Verdict> harvestedUnripe() {
    return CropSeason.lastInFlower(dossier, crop)
        .flatMap(
            last ->
                dossier.facts(Harvest.class).stream()
                    .filter(harvest -> isUnripe(harvest, last))
                    .findFirst()
                    .map(
                        harvest ->
                            UnusualFacts.owed(
                                "day of harvest",
                                new Aspect.DayOfHarvest(),
                                FactType.idsOf(List.of(crop, harvest)),
                                new OriginFinding.HarvestedUnripe(
                                    FactType.dayOf(harvest), last, CropSeason.LEAST_DAYS_TO_RIPEN),
                                Optional.empty())));
  }

  private static boolean isUnripe(Harvest harvest, LocalDate lastFlower) {
    return FactType.dayOf(harvest).isBefore(lastFlower.plusDays(CropSeason.LEAST_DAYS_TO_RIPEN));
  }
}
