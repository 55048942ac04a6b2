package org.kornspur.ingest.intake;

import java.util.List;
import org.kornspur.contract.KernelWeightTest;
import org.kornspur.contract.WeighedKernels;
import org.kornspur.ingest.problem.NumberProblem;
import org.kornspur.ingest.statement.Value.Amount;

/**
 * Kernels weigh what kernels of rye weigh: from 5 g a thousand, shrivelled kernels of a weak line,
 * to 100 g, twice what the largest hybrids have. Common practice, no source.
 */
final class KernelWeightCheck {

  static final double LEAST_G = 5;
  static final double MOST_G = 100;

  private KernelWeightCheck() {}

  static void check(KernelWeightTest test, Problems into) {
    List<WeighedKernels> replicates = test.getReplicates();
    for (int index = 0; index < replicates.size(); index++) {
      WeighedKernels weighed = replicates.get(index);
      double thousandG = 1000 * weighed.getMassG() / weighed.getKernels();
      if (!(thousandG >= LEAST_G && thousandG <= MOST_G)) {
        into.add(
            "replicates[" + index + "].massG",
            weighed.getMassG(),
            new NumberProblem.KernelWeight(
                Amount.grams(LEAST_G * weighed.getKernels() / 1000),
                Amount.grams(MOST_G * weighed.getKernels() / 1000),
                weighed.getKernels(),
                Amount.grams(LEAST_G),
                Amount.grams(MOST_G)));
      }
    }
  }
}
