package org.kornspur.processors.gates;

import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Stream;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.CropRole;
import org.kornspur.contract.FieldInspection;
import org.kornspur.contract.Harvest;
import org.kornspur.contract.InspectedPart;
import org.kornspur.contract.LotMass;
import org.kornspur.contract.Sowing;
import org.kornspur.contract.SterilityCheck;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.finding.Aspect;
import org.kornspur.processors.finding.Bound;
import org.kornspur.processors.finding.OriginFinding;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.verdict.Verdict;

/**
 * Quantities of a crop that do not fit together, or lie far from what rye does: more sown or
 * counted than the outline holds, seed of which no such crop grows, a yield of no rye.
 *
 * <p>Common practice, no source; the numbers stand in the rulebook of common practice.
 */
final class UnusualCropQuantities {
  private static final double KG_IN_TONNE = 1000;
  private static final double M2_IN_HECTARE = 10_000;

  /** Three plants a second for a long day. */
  private static final int MOST_PLANTS_OF_A_DAY = 100_000;

  private UnusualCropQuantities() {}

  static Stream<Verdict> judge(Dossier dossier, Rulebook rulebook) {
    CroppedArea area = CroppedArea.of(dossier);
    return Stream.of(
            sowingRate(dossier, rulebook, area),
            sownBeyondOutline(dossier, area),
            countedBeyondOutline(dossier, area),
            countedByNobody(dossier),
            harvestFromArea(dossier, rulebook, area))
        .flatMap(Optional::stream);
  }

  /**
   * Kilograms sown a hectare: of all seed on the ground that was sown, and not too much of any
   * sowing by itself.
   */
  private static Optional<Verdict> sowingRate(
      Dossier dossier, Rulebook rulebook, CroppedArea area) {
    List<Sowing> sowings = dossier.facts(Sowing.class);
    if (sowings.isEmpty()) {
      return Optional.empty();
    }
    double ofAll =
        sowings.stream().mapToDouble(UnusualCropQuantities::sownKg).sum() / groundHa(dossier, area);
    double most =
        sowings.stream()
            .mapToDouble(sowing -> sownKg(sowing) / sowing.getAreaHa())
            .reduce(ofAll, Math::max);
    return sowingRate(dossier, rulebook, Quantity.SOWING_RATE_LEAST, ofAll)
        .or(() -> sowingRate(dossier, rulebook, Quantity.SOWING_RATE_MOST, most));
  }

  /** Where both components stand in strips, each may have been sown over the whole field. */
  private static double groundHa(Dossier dossier, CroppedArea area) {
    boolean hasStrips =
        dossier.crop().filter(crop -> crop.getRole() == CropRole.STERILE_FEMALE).isPresent();
    return hasStrips
        ? Math.max(area.largestHa(), Math.min(area.sownHa() / 2, area.hectares()))
        : area.hectares();
  }

  private static Optional<Verdict> sowingRate(
      Dossier dossier, Rulebook rulebook, Quantity quantity, double kgPerHa) {
    return SeedCrop.of(dossier, rulebook)
        .flatMap(crop -> crop.limit(quantity))
        .filter(limit -> !limit.holds(kgPerHa))
        .map(
            limit ->
                UnusualFacts.owed(
                    "sowing rate",
                    new Aspect.Kind(quantity),
                    FactType.idsOf(dossier.facts(Sowing.class)),
                    new OriginFinding.SownUnusually(
                        new Amount(kgPerHa, limit.unit()), Bound.cited(limit)),
                    Optional.of(limit)));
  }

  private static double sownKg(Sowing sowing) {
    return sowing.getSown().stream().mapToDouble(LotMass::getMassKg).sum();
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

  /** So many plants nobody counts in a day, and a few bad ones are lost among them. */
  private static Optional<Verdict> countedByNobody(Dossier dossier) {
    List<SpecificRecord> counts =
        dossier.counting().filter(fact -> plants(fact) > MOST_PLANTS_OF_A_DAY).toList();
    return counts.isEmpty()
        ? Optional.empty()
        : Optional.of(
            UnusualFacts.owed(
                "plants counted",
                new Aspect.Kind(Quantity.COUNTED_PLANTS),
                FactType.idsOf(counts),
                new OriginFinding.CountedByNobody(
                    counts.stream().mapToInt(UnusualCropQuantities::plants).max().orElseThrow(),
                    MOST_PLANTS_OF_A_DAY),
                Optional.empty()));
  }

  private static int plants(SpecificRecord fact) {
    if (fact instanceof SterilityCheck check) {
      return check.getPlantsExamined();
    }
    return fact instanceof FieldInspection count
        ? Math.max(
            Objects.requireNonNullElse(count.getPlantsCounted(), 0),
            Objects.requireNonNullElse(count.getPlantsInReceptiveFlower(), 0))
        : 0;
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
