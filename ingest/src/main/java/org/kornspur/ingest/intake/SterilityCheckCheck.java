package org.kornspur.ingest.intake;

import org.kornspur.contract.SterilityCheck;

/** A check of sterility looked at plants or at bagged ears, and counts within them. */
final class SterilityCheckCheck {

  private SterilityCheckCheck() {}

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
          "baggedEars and baggedEarsWithSeed together, or neither",
          "Give both counts, or leave both out where no ear was bagged");
    }
    if (check.getPlantsExamined() == 0
        && (check.getBaggedEars() == null || check.getBaggedEars() == 0)) {
      into.add(
          "plantsExamined",
          0,
          "at least one plant examined or one ear bagged",
          "Give what was looked at; a check of nothing proves nothing");
    }
  }
}
