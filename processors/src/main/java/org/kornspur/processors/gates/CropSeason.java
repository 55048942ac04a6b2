package org.kornspur.processors.gates;

import static java.util.Comparator.naturalOrder;

import java.time.LocalDate;
import java.time.Month;
import java.util.EnumSet;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.FieldInspection;
import org.kornspur.contract.FloweringSeen;
import org.kornspur.contract.Harvest;
import org.kornspur.contract.Sowing;
import org.kornspur.contract.SterilityCheck;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.ground.FloweringWindow;

/**
 * Whether what was seen in a crop can have been seen there on its day: in the crop's year, after it
 * was sown and had time to grow, not in winter, before its harvest, and in flower when it flowers.
 *
 * <p>Common practice, no source.
 *
 * @param sown day of the first sowing; empty while none is on record
 * @param firstHarvest day of the first harvest; empty while nothing is harvested
 * @param lastHarvest day of the last one
 */
record CropSeason(
    FieldCropDeclared crop,
    Optional<LocalDate> sown,
    Optional<LocalDate> firstHarvest,
    Optional<LocalDate> lastHarvest) {
  /** Days from sowing for which no rye flowers: sown in spring it takes some three months. */
  static final int LEAST_DAYS_TO_FLOWER = 60;

  /** Days from the last flower for which no kernel is ripe: it takes some six weeks. */
  static final int LEAST_DAYS_TO_RIPEN = 21;

  /** BBCH stage that winter rye does not reach in the year in which it is sown. */
  private static final int STEM_ELONGATION = 30;

  /** BBCH stage from which on ears show. */
  private static final int EARS = 51;

  private static final Set<Month> NORTHERN_WINTER =
      EnumSet.of(Month.NOVEMBER, Month.DECEMBER, Month.JANUARY, Month.FEBRUARY);

  private static final Set<Month> SOUTHERN_WINTER =
      EnumSet.of(Month.MAY, Month.JUNE, Month.JULY, Month.AUGUST);

  static CropSeason of(Dossier dossier, FieldCropDeclared crop) {
    return new CropSeason(
        crop,
        dossier.facts(Sowing.class).stream().map(FactType::dayOf).min(naturalOrder()),
        dossier.facts(Harvest.class).stream().map(FactType::dayOf).min(naturalOrder()),
        dossier.facts(Harvest.class).stream().map(FactType::dayOf).max(naturalOrder()));
  }

  boolean canHold(SpecificRecord fact) {
    return !isOfOtherYear(fact)
        && !isInWinter(fact)
        && !isBeforeItGrew(fact)
        && !isAfter(firstHarvest, fact)
        && !isFarFromFlowering(fact);
  }

  /** A look at plants before they were sown, or in flower before they can have flowered. */
  boolean isBeforeItGrew(SpecificRecord fact) {
    boolean isInFlower = FloweringWindow.isSeenBy(fact) || fact instanceof SterilityCheck;
    boolean isLook = isInFlower || fact instanceof FieldInspection || fact instanceof FloweringSeen;
    return isLook
        && sown.map(day -> day.plusDays(isInFlower ? LEAST_DAYS_TO_FLOWER : 0))
            .filter(FactType.dayOf(fact)::isBefore)
            .isPresent();
  }

  /** The first day on which the crop flowers by its declaration, or was seen in flower. */
  static Optional<LocalDate> firstInFlower(Dossier dossier, FieldCropDeclared crop) {
    FloweringWindow declared = FloweringWindow.flowering(crop);
    return Stream.concat(
            declared.from().or(declared::to).stream(),
            dossier.counting().filter(FloweringWindow::isSeenBy).map(FactType::dayOf))
        .min(naturalOrder());
  }

  /** The last day on which the crop flowers by its declaration, or was seen in flower. */
  static Optional<LocalDate> lastInFlower(Dossier dossier, FieldCropDeclared crop) {
    FloweringWindow declared = FloweringWindow.flowering(crop);
    return Stream.concat(
            declared.to().or(declared::from).stream(),
            dossier.counting().filter(FloweringWindow::isSeenBy).map(FactType::dayOf))
        .max(naturalOrder());
  }

  /**
   * A visit in the autumn before, to young plants, is one of this crop; later ones are not. South
   * of the equator rye flowers in the year before its harvest.
   */
  boolean isOfOtherYear(SpecificRecord fact) {
    int year = FactType.dayOf(fact).getYear();
    boolean isInItsYear =
        year == crop.getCropYear() || (isSouthern() && year == crop.getCropYear() - 1);
    if (fact instanceof FieldInspection visit) {
      boolean isYoung = year == crop.getCropYear() - 1 && visit.getBbchStage() < STEM_ELONGATION;
      return !isInItsYear && !isYoung;
    }
    return fact instanceof SterilityCheck && !isInItsYear;
  }

  /**
   * Ears or flowers in months in which no rye has any, wherever it grows; ears that were bagged may
   * be read then.
   */
  boolean isInWinter(SpecificRecord fact) {
    boolean hasEars =
        (fact instanceof FieldInspection visit && visit.getBbchStage() >= EARS)
            || (fact instanceof SterilityCheck check && check.getPlantsExamined() > 0)
            || FloweringWindow.isSeenBy(fact);
    return hasEars
        && (isSouthern() ? SOUTHERN_WINTER : NORTHERN_WINTER)
            .contains(FactType.dayOf(fact).getMonth());
  }

  private boolean isSouthern() {
    return crop.getOutline().stream().allMatch(corner -> corner.getLat() < 0);
  }

  /** A look at plants of which none stood any more. */
  boolean isAfterHarvest(SpecificRecord fact) {
    return isAfter(lastHarvest, fact);
  }

  /**
   * A look at standing plants after a harvest; bagged ears may be read afterwards. Between the
   * first harvest and the last nobody knows on which part of the field it was.
   */
  private static boolean isAfter(Optional<LocalDate> harvest, SpecificRecord fact) {
    boolean isOfStandingPlants =
        fact instanceof FieldInspection
            || fact instanceof FloweringSeen
            || (fact instanceof SterilityCheck check && check.getPlantsExamined() > 0);
    return isOfStandingPlants
        && harvest.filter(day -> FactType.dayOf(fact).isAfter(day)).isPresent();
  }

  /** In flower on a day too far from the flowering that was declared. */
  boolean isFarFromFlowering(SpecificRecord fact) {
    return FloweringWindow.isSeenBy(fact)
        && !FloweringWindow.flowering(crop).isNear(FactType.dayOf(fact));
  }
}
