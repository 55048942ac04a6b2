package org.kornspur.ingest.intake;

import java.util.List;
import java.util.Objects;
import org.kornspur.contract.Conditioning;
import org.kornspur.contract.LotMass;
import org.kornspur.ingest.problem.Given;
import org.kornspur.ingest.problem.NumberProblem;
import org.kornspur.ingest.statement.Value.Amount;

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
    double dryingLossKg = Objects.requireNonNullElse(conditioning.getDryingLossKg(), 0.0);
    double outKg = sumKg(conditioning.getOutputs()) + conditioning.getScreeningsKg() + dryingLossKg;
    double mostKg = inKg * (1 + WEIGHING_TOLERANCE);
    if (outKg > mostKg) {
      into.add(
          "outputs",
          new Given.MassWithScreenings(Amount.kilograms(outKg)),
          new NumberProblem.MoreOutThanIn(
              Amount.kilograms(inKg), Amount.percent(100 * WEIGHING_TOLERANCE)));
    }
  }

  private static double sumKg(List<LotMass> masses) {
    return masses.stream().mapToDouble(LotMass::getMassKg).sum();
  }
}
