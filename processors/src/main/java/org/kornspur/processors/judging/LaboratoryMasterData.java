package org.kornspur.processors.judging;

import java.util.ArrayList;
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

  /**
   * The answers of an enterprise to those that asked. The latest declaration counts. Whatever is to
   * take its place or take it back and is not confirmed yet can only end an accreditation: until it
   * is confirmed or withdrawn, no seed is fit on what it disputes.
   */
  static List<Report> reportsOf(Dossier enterprise) {
    List<Report.Accredited> accreditations = accreditations(enterprise);
    return enterprise.reports().stream()
        .filter(Report.AsksLaboratory.class::isInstance)
        .map(Report.AsksLaboratory.class::cast)
        .<Report>map(
            asks -> new Report.FromLaboratory(enterprise.subject(), asks.asking(), accreditations))
        .toList();
  }

  private static List<Report.Accredited> accreditations(Dossier enterprise) {
    boolean isDisputed =
        enterprise.entries().stream()
            .filter(entry -> entry.fact() instanceof EnterpriseDeclared)
            .anyMatch(entry -> entry.counts() && !entry.unconfirmed().isEmpty());
    if (isDisputed) {
      return List.of();
    }
    List<Report.Accredited> held =
        new ArrayList<>(
            enterprise
                .latest(EnterpriseDeclared.class)
                .map(LaboratoryMasterData::accreditations)
                .orElse(List.of()));
    enterprise
        .awaiting(EnterpriseDeclared.class)
        .forEach(declared -> held.retainAll(accreditations(declared)));
    return List.copyOf(held);
  }

  private static List<Report.Accredited> accreditations(EnterpriseDeclared declared) {
    return declared.getAccreditations().stream()
        .map(held -> new Report.Accredited(held.getTest(), held.getValidFrom(), held.getValidTo()))
        .toList();
  }
}
