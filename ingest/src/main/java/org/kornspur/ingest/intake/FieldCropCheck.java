package org.kornspur.ingest.intake;

import java.time.LocalDate;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.ingest.problem.TimeProblem;
import org.kornspur.ingest.statement.Value.Amount;

/** A crop stands on one piece of land and flowers before its harvest. */
final class FieldCropCheck {

  private FieldCropCheck() {}

  static void check(FieldCropDeclared crop, Problems into) {
    OutlineCheck.check("outline", crop.getOutline(), into);
    LocalDate from = crop.getFloweringFrom();
    LocalDate to = crop.getFloweringTo();
    if (from != null && to != null && from.isAfter(to)) {
      into.add("floweringFrom", from, new TimeProblem.FirstAfterLast("floweringTo", to));
    }
    flowersForHarvest("floweringFrom", from, crop.getCropYear(), into);
    flowersForHarvest("floweringTo", to, crop.getCropYear(), into);
  }

  /** South of the equator a crop that flowers in November may be harvested in January. */
  private static void flowersForHarvest(String field, LocalDate day, int cropYear, Problems into) {
    if (day != null && (day.getYear() > cropYear || day.getYear() < cropYear - 1)) {
      into.add(field, day, new TimeProblem.NotInCropYear(new Amount(cropYear, "year")));
    }
  }
}
