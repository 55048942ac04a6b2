package org.kornspur.ingest.intake;

import org.kornspur.contract.BlendComposition;

/** Pollinator kernels are counted among the kernels examined. */
final class BlendCompositionCheck {

  private BlendCompositionCheck() {}

  static void check(BlendComposition count, Problems into) {
    CountsWithin.check(
        "pollinatorKernels",
        count.getPollinatorKernels(),
        "kernelsExamined",
        count.getKernelsExamined(),
        into);
  }
}
