package org.kornspur.processors.gates;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.FieldInspection;
import org.kornspur.contract.FloweringSeen;
import org.kornspur.contract.Harvest;
import org.kornspur.contract.SterilityCheck;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.ground.FloweringWindow;

/**
 * Whether what was seen in a crop can have been seen there on its day: in the crop's year, before
 * its harvest, and in flower when it flowers.
 *
 * <p>Common practice, no source.
 *
 * @param firstHarvest day of the first harvest; empty while nothing is harvested
 * @param lastHarvest day of the last one
 */
record CropSeason(
    FieldCropDeclared crop, Optional<LocalDate> firstHarvest, Optional<LocalDate> lastHarvest) {
  /** BBCH stage that winter rye does not reach in the year in which it is sown. */
  private static final int STEM_ELONGATION = 30;

  static CropSeason of(Dossier dossier, FieldCropDeclared crop) {
    List<LocalDate> harvests =
        dossier.facts(Harvest.class).stream().map(FactType::dayOf).sorted().toList();
    return new CropSeason(
        crop, harvests.stream().findFirst(), harvests.stream().reduce((earlier, later) -> later));
  }

  boolean canHold(SpecificRecord fact) {
    return !isOfOtherYear(fact) && !isAfter(firstHarvest, fact) && !isFarFromFlowering(fact);
  }

  /**
   * A visit in the autumn before, to young plants, is one of this crop; later ones are not. South
   * of the equator rye flowers in the year before its harvest.
   */
  boolean isOfOtherYear(SpecificRecord fact) {
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
