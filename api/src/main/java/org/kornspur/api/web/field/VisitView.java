package org.kornspur.api.web.field;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.kornspur.contract.FieldInspection;
import org.kornspur.contract.InspectedPart;
import org.kornspur.contract.SterilityCheck;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Entry;

/**
 * One visit of an inspector, or one check of sterility. A count that was not made is empty.
 *
 * @param number of the visit; empty for a check of sterility
 */
public record VisitView(
    Entry entry,
    Optional<Integer> number,
    Optional<InspectedPart> part,
    Optional<Integer> bbchStage,
    Optional<Integer> plants,
    Optional<Double> areaM2,
    Optional<Integer> baggedEars,
    Optional<Integer> offTypes,
    Optional<Integer> shedding,
    Optional<Integer> receptive,
    Optional<Integer> earsWithSeed) {

  static List<VisitView> of(Dossier crop) {
    List<VisitView> visits = new ArrayList<>();
    for (Entry entry : crop.entries()) {
      if (entry.fact() instanceof FieldInspection visit) {
        visits.add(inspection(entry, visit));
      } else if (entry.fact() instanceof SterilityCheck check) {
        visits.add(check(entry, check));
      }
    }
    return List.copyOf(visits);
  }

  private static VisitView inspection(Entry entry, FieldInspection visit) {
    return new VisitView(
        entry,
        Optional.of(visit.getVisit()),
        Optional.of(visit.getPart()),
        Optional.of(visit.getBbchStage()),
        Optional.ofNullable(visit.getPlantsCounted()),
        Optional.ofNullable(visit.getAreaM2()),
        Optional.empty(),
        Optional.of(visit.getOffTypePlants()),
        Optional.ofNullable(visit.getSheddingPlants()),
        Optional.ofNullable(visit.getPlantsInReceptiveFlower()),
        Optional.empty());
  }

  private static VisitView check(Entry entry, SterilityCheck check) {
    // no plants examined means that ears were bagged instead
    Optional<Integer> examined =
        Optional.of(check.getPlantsExamined()).filter(plants -> plants > 0);
    return new VisitView(
        entry,
        Optional.empty(),
        Optional.of(InspectedPart.FEMALE),
        Optional.empty(),
        examined,
        Optional.empty(),
        Optional.ofNullable(check.getBaggedEars()),
        Optional.empty(),
        examined.map(plants -> check.getPlantsShedding()),
        examined,
        Optional.ofNullable(check.getBaggedEarsWithSeed()));
  }
}
