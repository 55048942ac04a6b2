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
 * @param dressingKg what treated seed weighs more than what went in, as far as a dressing can weigh
 */
public record ConditioningAccount(
    String factId,
    double inputKg,
    double outputKg,
    double screeningsKg,
    double dryingLossKg,
    double dressingKg) {
  /**
   * Part of the seed that a dressing with its water and colour weighs at most. Common practice, no
   * source: some 0.5 to 1.5 %.
   */
  public static final double MOST_DRESSING = 0.02;

  public static ConditioningAccount of(Conditioning conditioning) {
    double inKg = total(conditioning.getInputs());
    double outKg = total(conditioning.getOutputs());
    double screeningsKg = conditioning.getScreeningsKg();
    double driedKg = Objects.requireNonNullElse(conditioning.getDryingLossKg(), 0.0);
    double beyondKg = Math.max(0, outKg + screeningsKg + driedKg - inKg);
    return new ConditioningAccount(
        conditioning.getHeader().getFactId(),
        inKg,
        outKg,
        screeningsKg,
        driedKg,
        isTreated(conditioning) ? Math.min(beyondKg, MOST_DRESSING * inKg) : 0);
  }

  /** Whether the seed was treated, whatever else was done with it. */
  public static boolean isTreated(Conditioning conditioning) {
    return conditioning.getTreatment() != null && !conditioning.getTreatment().isBlank();
  }

  /** What went in and came out as nothing that was recorded: dust, water, spill. */
  public double unrecordedLossKg() {
    return Math.max(0, left());
  }

  /** All that was lost. */
  public double lossKg() {
    return screeningsKg + dryingLossKg + unrecordedLossKg();
  }

  /** Negative where more came out than went in, else 0. */
  public double differenceKg() {
    return Math.min(0, left());
  }

  private double left() {
    return inputKg + dressingKg - outputKg - screeningsKg - dryingLossKg;
  }

  private static double total(List<LotMass> parts) {
    return parts.stream().mapToDouble(LotMass::getMassKg).sum();
  }
}
