package org.kornspur.ingest.intake;

import java.util.List;
import org.kornspur.contract.Conditioning;
import org.kornspur.contract.LotMass;

/** Conditioning makes new lots, and no seed out of nothing. */
final class ConditioningCheck {

  /**
   * What scales may differ between intake and outlet, as a share of what went in. Common practice,
   * no source.
   */
  static final double WEIGHING_TOLERANCE = 0.02;

  private ConditioningCheck() {}

  static void check(Conditioning conditioning, Problems into) {
    new LotsOnce(into)
        .lots("inputs", conditioning.getInputs())
        .lots("outputs", conditioning.getOutputs());
    double inKg = sumKg(conditioning.getInputs());
    double outKg = sumKg(conditioning.getOutputs()) + conditioning.getScreeningsKg();
    double mostKg = inKg * (1 + WEIGHING_TOLERANCE);
    if (outKg > mostKg) {
      into.addDescribed(
          "outputs",
          Problem.plain(outKg) + " kg with screenings",
          "at most the inputs (" + Problem.plain(inKg) + " kg) and 2 % for the scales",
          "Check the weights, and whether an input lot is missing");
    }
  }

  private static double sumKg(List<LotMass> masses) {
    return masses.stream().mapToDouble(LotMass::getMassKg).sum();
  }
}
