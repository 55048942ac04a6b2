package org.kornspur.processors.dossier;

import java.time.LocalDate;
import java.util.List;
import java.util.stream.Stream;
import org.kornspur.contract.FieldInspection;
import org.kornspur.contract.FloweringSeen;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.processors.ground.FloweringWindow;

/** Days on which somebody saw a crop in flower, be it the female or its pollen parent. */
final class DaysInFlower {

  private DaysInFlower() {}

  static List<LocalDate> of(Dossier crop) {
    return Stream.concat(
            crop.facts(FieldInspection.class).stream()
                .filter(visit -> FloweringWindow.isInFlower(visit.getBbchStage())),
            crop.facts(FloweringSeen.class).stream()
                .filter(look -> FloweringWindow.isInFlower(look.getBbchStage())))
        .map(FactType::dayOf)
        .toList();
  }
}
