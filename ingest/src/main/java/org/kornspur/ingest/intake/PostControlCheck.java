package org.kornspur.ingest.intake;

import org.kornspur.contract.PostControlResult;

/** Post-control counts are made among the plants examined. */
final class PostControlCheck {

  private PostControlCheck() {}

  static void check(PostControlResult result, Problems into) {
    within("offTypePlants", result.getOffTypePlants(), result, into);
    within("sheddingPlants", result.getSheddingPlants(), result, into);
    within("nonHybridPlants", result.getNonHybridPlants(), result, into);
  }

  private static void within(String part, Integer count, PostControlResult result, Problems into) {
    CountsWithin.check(part, count, "plantsExamined", result.getPlantsExamined(), into);
  }
}
