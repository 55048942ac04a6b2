package org.kornspur.processors.gates;

import java.time.LocalDate;
import java.util.List;
import java.util.stream.Stream;
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
    List<LocalDate> days =
        Stream.<SpecificRecord>concat(
                crop.dossier().facts(FieldInspection.class).stream()
                    .filter(visit -> visit.getPart() != InspectedPart.POLLEN_PARENT)
                    .filter(visit -> FloweringWindow.isInFlower(visit.getBbchStage())),
                crop.dossier().facts(FloweringSeen.class).stream()
                    .filter(look -> look.getPart() == FloweringPart.FEMALE)
                    .filter(look -> FloweringWindow.isInFlower(look.getBbchStage())))
            .filter(season::canHold)
            .map(FactType::dayOf)
            .toList();
    return FloweringWindow.between(days);
  }
}
