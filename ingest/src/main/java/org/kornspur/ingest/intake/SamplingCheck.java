package org.kornspur.ingest.intake;

import org.kornspur.contract.Sampling;
import org.kornspur.ingest.problem.NumberProblem;
import org.kornspur.ingest.statement.Value.Amount;

/** A sample is lighter than the lot that it stands for. */
final class SamplingCheck {

  private SamplingCheck() {}

  static void check(Sampling sampling, Problems into) {
    double lotG = sampling.getLotMassKg() * 1000;
    if (sampling.getSubmittedSampleG() > lotG) {
      into.add(
          "submittedSampleG",
          sampling.getSubmittedSampleG(),
          new NumberProblem.SampleAboveLot(Amount.kilograms(sampling.getLotMassKg())));
    }
  }
}
