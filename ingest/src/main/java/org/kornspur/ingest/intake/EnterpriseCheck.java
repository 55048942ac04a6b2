package org.kornspur.ingest.intake;

import java.time.LocalDate;
import java.util.List;
import org.kornspur.contract.Accreditation;
import org.kornspur.contract.EnterpriseDeclared;
import org.kornspur.ingest.problem.TimeProblem;

/** An accreditation begins before it ends. */
final class EnterpriseCheck {

  private EnterpriseCheck() {}

  static void check(EnterpriseDeclared enterprise, Problems into) {
    List<Accreditation> accreditations = enterprise.getAccreditations();
    for (int index = 0; index < accreditations.size(); index++) {
      LocalDate from = accreditations.get(index).getValidFrom();
      LocalDate to = accreditations.get(index).getValidTo();
      if (from.isAfter(to)) {
        into.add(
            "accreditations[" + index + "].validFrom",
            from,
            new TimeProblem.FirstAfterLast("validTo", to));
      }
    }
  }
}
