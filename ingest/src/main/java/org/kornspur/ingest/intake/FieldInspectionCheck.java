package org.kornspur.ingest.intake;

import org.kornspur.contract.FieldInspection;
import org.kornspur.ingest.problem.CountProblem;

/** An inspection says what it looked at, by plants or by area, and counts within it. */
final class FieldInspectionCheck {

  private FieldInspectionCheck() {}

  static void check(FieldInspection visit, Problems into) {
    if (visit.getPlantsCounted() == null && visit.getAreaM2() == null) {
      into.add("plantsCounted", null, new CountProblem.NeitherPlantsNorArea());
    }
    within("offTypePlants", visit.getOffTypePlants(), visit, into);
    within("sheddingPlants", visit.getSheddingPlants(), visit, into);
    within("plantsInReceptiveFlower", visit.getPlantsInReceptiveFlower(), visit, into);
    within("otherCerealPlants", visit.getOtherCerealPlants(), visit, into);
    within("hardToSeparatePlants", visit.getHardToSeparatePlants(), visit, into);
    within("wildOatPlants", visit.getWildOatPlants(), visit, into);
    within("smutPlants", visit.getSmutPlants(), visit, into);
    CountsWithin.check(
        "volunteerPlants",
        visit.getVolunteerPlants(),
        "offTypePlants",
        visit.getOffTypePlants(),
        into);
  }

  private static void within(String part, Integer count, FieldInspection visit, Problems into) {
    CountsWithin.check(part, count, "plantsCounted", visit.getPlantsCounted(), into);
  }
}
