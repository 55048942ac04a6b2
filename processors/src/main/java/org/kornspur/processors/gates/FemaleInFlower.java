package org.kornspur.processors.gates;

import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.FieldInspection;
import org.kornspur.contract.FloweringPart;
import org.kornspur.contract.FloweringSeen;
import org.kornspur.contract.InspectedPart;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.processors.ground.FloweringWindow;

/**
 * The days between looks that found the female, or the whole crop, in flower. The pollen parent may
 * flower at another time.
 */
final class FemaleInFlower {

  private FemaleInFlower() {}

  static FloweringWindow of(SeedCrop crop) {
    CropSeason season = CropSeason.of(crop.dossier(), crop.declaration());
    return FloweringWindow.between(
        crop.dossier()
            .counting()
            .filter(FloweringWindow::isSeenBy)
            .filter(FemaleInFlower::showsFemale)
            .filter(season::canHold)
            .map(FactType::dayOf)
            .toList());
  }

  private static boolean showsFemale(SpecificRecord fact) {
    return fact instanceof FieldInspection visit
        ? visit.getPart() != InspectedPart.POLLEN_PARENT
        : fact instanceof FloweringSeen look && look.getPart() == FloweringPart.FEMALE;
  }
}
