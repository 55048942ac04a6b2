package org.kornspur.processors.judging;

import java.util.List;
import java.util.stream.Stream;
import org.kornspur.contract.EnterpriseDeclared;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.LaboratoryResults;
import org.kornspur.processors.dossier.Report;

/**
 * What a laboratory tells every lot of which it made tests. Tests are far too many to lie in the
 * dossier of their laboratory, so each lot asks, and is answered.
 */
final class LaboratoryMasterData {

  private LaboratoryMasterData() {}

  /** What a lot asks the laboratories that made tests of it. */
  static Stream<Report> askedBy(Dossier lot) {
    return LaboratoryResults.laboratoriesOf(lot).stream()
        .map(laboratory -> new Report.AsksLaboratory(lot.subject(), laboratory));
  }

  /** The answers of an enterprise to those that asked. The latest declaration says all. */
  static List<Report> reportsOf(Dossier enterprise) {
    List<Report.Accredited> accreditations =
        enterprise.latest(EnterpriseDeclared.class).stream()
            .flatMap(declared -> declared.getAccreditations().stream())
            .map(
                held ->
                    new Report.Accredited(held.getTest(), held.getValidFrom(), held.getValidTo()))
            .toList();
    return enterprise.reports().stream()
        .filter(Report.AsksLaboratory.class::isInstance)
        .map(Report.AsksLaboratory.class::cast)
        .<Report>map(
            asks -> new Report.FromLaboratory(enterprise.subject(), asks.asking(), accreditations))
        .toList();
  }
}
