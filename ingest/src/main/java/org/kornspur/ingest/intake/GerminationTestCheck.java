package org.kornspur.ingest.intake;

import java.util.List;
import org.kornspur.contract.GerminationReplicate;
import org.kornspur.contract.GerminationTest;
import org.kornspur.ingest.problem.IdProblem;

/** Seedlings grow from the seeds laid, and a test is not its own retest. */
final class GerminationTestCheck {

  private GerminationTestCheck() {}

  static void check(GerminationTest test, Problems into) {
    List<GerminationReplicate> replicates = test.getReplicates();
    for (int index = 0; index < replicates.size(); index++) {
      GerminationReplicate replicate = replicates.get(index);
      CountsWithin.check(
          "replicates[" + index + "].normalSeedlings",
          replicate.getNormalSeedlings(),
          "seeds",
          replicate.getSeeds(),
          into);
    }
    if (test.getHeader().getFactId().equals(test.getRetestOf())) {
      into.add("retestOf", test.getRetestOf(), new IdProblem.RetestsItself());
    }
  }
}
