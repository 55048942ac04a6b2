package org.kornspur.ingest.intake;

import org.kornspur.contract.Sampling;

/** A sample is lighter than the lot that it stands for. */
final class SamplingCheck {

  private SamplingCheck() {}

  static void check(Sampling sampling, Problems into) {
    double lotG = sampling.getLotMassKg() * 1000;
    if (sampling.getSubmittedSampleG() > lotG) {
      into.add(
          "submittedSampleG",
          sampling.getSubmittedSampleG(),
          "at most the lot (lotMassKg, " + Problem.plain(sampling.getLotMassKg()) + " kg)",
          "Check the units: the sample is in grams, the lot in kilograms");
    }
  }
}
