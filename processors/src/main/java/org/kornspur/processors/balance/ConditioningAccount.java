package org.kornspur.processors.balance;

import java.util.List;
import java.util.Objects;
import org.kornspur.contract.Conditioning;
import org.kornspur.contract.LotMass;

/**
 * Mass account of one conditioning, kilograms.
 *
 * @param factId the fact that records it
 * @param inputKg mass of all lots that went in
 * @param outputKg mass of all lots that came out
 * @param screeningsKg mass removed as screenings, as recorded
 * @param dryingLossKg mass lost as water, as recorded; 0 where it was not
 */
public record ConditioningAccount(
    String factId, double inputKg, double outputKg, double screeningsKg, double dryingLossKg) {

  static ConditioningAccount of(Conditioning conditioning) {
    return new ConditioningAccount(
        conditioning.getHeader().getFactId(),
        total(conditioning.getInputs()),
        total(conditioning.getOutputs()),
        conditioning.getScreeningsKg(),
        Objects.requireNonNullElse(conditioning.getDryingLossKg(), 0.0));
  }

  /** What went in and came out as nothing that was recorded: dust, water, spill. */
  public double unrecordedLossKg() {
    return Math.max(0, left());
  }

  /** All that was lost. */
  double lossKg() {
    return screeningsKg + dryingLossKg + unrecordedLossKg();
  }

  /** Negative where more came out than went in, else 0. */
  public double differenceKg() {
    return Math.min(0, left());
  }

  private double left() {
    return inputKg - outputKg - screeningsKg - dryingLossKg;
  }

  private static double total(List<LotMass> parts) {
    return parts.stream().mapToDouble(LotMass::getMassKg).sum();
  }
}
