package org.kornspur.processors.gates;

import java.util.List;
import org.kornspur.contract.FieldInspection;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.InspectionFinding;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * Number of visits of a field inspector to the crop.
 *
 * <p>Council Directive 66/402/EEC, Annex I (from memory: at least one). Too few are owed, since a
 * visit can still be made or recorded.
 */
final class FieldInspections implements GateRule {

  @Override
  public Gate gate() {
    return Gate.FIELD_INSPECTIONS;
  }

  @Override
  public List<Verdict> judge(Dossier dossier, Rulebook rulebook) {
    return SeedCrop.of(dossier, rulebook)
        .flatMap(
            crop ->
                crop.limit(Quantity.FIELD_INSPECTIONS).map(limit -> List.of(judge(crop, limit))))
        .orElse(List.of());
  }

  private static Verdict judge(SeedCrop crop, Limit limit) {
    List<FieldInspection> inspections = crop.inspections();
    long visits = inspections.stream().map(FieldInspection::getVisit).distinct().count();
    Found found =
        Found.of(
            Gate.FIELD_INSPECTIONS,
            inspections.stream().map(inspection -> inspection.getHeader().getFactId()).toList(),
            new InspectionFinding.Visits((int) visits));
    return limit.holds(visits)
        ? found.against(visits, limit, List.of())
        : found.owed(limit, new Evidence.FurtherVisits((int) Math.ceil(limit.value() - visits)));
  }
}
