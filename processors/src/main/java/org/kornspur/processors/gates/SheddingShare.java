package org.kornspur.processors.gates;

import java.util.List;
import java.util.Optional;
import org.kornspur.contract.FieldInspection;
import org.kornspur.contract.InspectedPart;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.ground.FloweringWindow;

/** The share of the female that shed on the average of the days of flowering, for the forecast. */
public final class SheddingShare {

  private SheddingShare() {}

  /**
   * Shedding plants for each plant in receptive flower, from 0 to 1, as the gate of shedding
   * females counts it; empty where days of flowering are not known, or fewer than two visits tell.
   */
  public static Optional<Double> overDaysOfFlowering(Dossier crop) {
    List<FieldInspection> counts =
        telling(crop.facts(FieldInspection.class)).stream()
            .filter(count -> count.getPart() == InspectedPart.FEMALE)
            .filter(count -> count.getSheddingPlants() <= count.getPlantsInReceptiveFlower())
            .toList();
    FloweringWindow declared =
        crop.crop().map(FloweringWindow::flowering).orElseGet(FloweringWindow::unknown);
    return new SheddingDays(
            counts.stream().map(SheddingDays.Count::of).toList(),
            new SampleSize(Optional.empty()),
            share -> true,
            declared,
            crop.flowering())
        .inFlower()
        .overDays();
  }

  /**
   * Counts of shedders of which nobody says among how many plants in flower: they tell no share.
   */
  static List<FieldInspection> withoutPlantsInFlower(List<FieldInspection> inspections) {
    List<FieldInspection> telling = telling(inspections);
    return inspections.stream()
        .filter(inspection -> inspection.getPart() != InspectedPart.POLLEN_PARENT)
        .filter(
            inspection ->
                inspection.getSheddingPlants() != null && inspection.getSheddingPlants() > 0)
        .filter(inspection -> !telling.contains(inspection))
        .toList();
  }

  /**
   * Counts of both, shedding females and females in flower: in the female, or in the whole crop, of
   * which it is a part.
   */
  static List<FieldInspection> telling(List<FieldInspection> inspections) {
    return inspections.stream()
        .filter(inspection -> inspection.getPart() != InspectedPart.POLLEN_PARENT)
        .filter(inspection -> inspection.getSheddingPlants() != null)
        .filter(
            inspection ->
                inspection.getPlantsInReceptiveFlower() != null
                    && inspection.getPlantsInReceptiveFlower() > 0)
        .toList();
  }
}
