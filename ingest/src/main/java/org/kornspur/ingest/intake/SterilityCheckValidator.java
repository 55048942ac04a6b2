package org.kornspur.ingest.intake;

import org.kornspur.contract.SterilityCheck;
import org.kornspur.ingest.problem.CountProblem;

/** A check of sterility looked at plants or at bagged ears, and counts within them. */
final class SterilityCheckValidator {

  private SterilityCheckValidator() {}

  static void check(SterilityCheck check, Problems into) {
    CountsWithin.check(
        "plantsShedding",
        check.getPlantsShedding(),
        "plantsExamined",
        check.getPlantsExamined(),
        into);
    CountsWithin.check(
        "baggedEarsWithSeed",
        check.getBaggedEarsWithSeed(),
        "baggedEars",
        check.getBaggedEars(),
        into);
    if ((check.getBaggedEars() == null) != (check.getBaggedEarsWithSeed() == null)) {
      boolean bagsMissing = check.getBaggedEars() == null;
      into.add(
          bagsMissing ? "baggedEars" : "baggedEarsWithSeed",
          null,
          new CountProblem.BaggedEarsAlone());
    }
    if (check.getPlantsExamined() == 0
        && (check.getBaggedEars() == null || check.getBaggedEars() == 0)) {
      into.add("plantsExamined", 0, new CountProblem.NothingExamined());
    }
  }
}
