package org.kornspur.processors.balance;

import java.util.List;

/**
 * Mass balance of the seed of some lots: what came in from outside them against what went out, what
 * is in stock and what was lost, kilograms.
 *
 * @param lots account of each lot
 * @param conditionings account of each conditioning that any of them went into
 * @param declaredKg entered without history here
 * @param harvestedKg taken from crops
 * @param fromOtherLotsKg out of lots that are not among them
 * @param toCustomersKg dispatched
 * @param sownKg sown
 * @param toOtherLotsKg into lots that are not among them; 0 where a walk forward saw all
 * @param lossKg lost in conditioning: screenings, water, and what was not recorded, less what
 *     dressings weigh
 * @param stockKg as counted; for lots that nobody counted, what the books leave
 * @param tolerance how far a balance may be off
 */
public record MassBalance(
    List<LotAccount> lots,
    List<ConditioningAccount> conditionings,
    double declaredKg,
    double harvestedKg,
    double fromOtherLotsKg,
    double toCustomersKg,
    double sownKg,
    double toOtherLotsKg,
    double lossKg,
    double stockKg,
    Tolerance tolerance) {

  /**
   * How far a balance may be off.
   *
   * @param percent of what came in
   * @param source where that stands written
   */
  public record Tolerance(double percent, String source) {

    boolean holds(double differenceKg, double inKg) {
      return Math.abs(differenceKg) <= inKg * percent / 100 + ROUNDING_KG;
    }
  }

  /** Sums of decimal kilograms are not exact in binary; a gram is no seed. */
  private static final double ROUNDING_KG = 0.001;

  /** All that came in from outside. */
  public double inKg() {
    return declaredKg + harvestedKg + fromOtherLotsKg;
  }

  /** All that left. */
  public double outKg() {
    return toCustomersKg + sownKg + toOtherLotsKg;
  }

  /** In less out, stock and loss: missing where positive, too much where negative. */
  public double differenceKg() {
    return inKg() - outKg() - stockKg - lossKg;
  }

  /** Lost in conditioning with no record of screenings or drying, kilograms. */
  public double unrecordedLossKg() {
    return conditionings.stream().mapToDouble(ConditioningAccount::unrecordedLossKg).sum();
  }

  /** The difference that is within tolerance, kilograms. */
  public double allowedKg() {
    return inKg() * tolerance.percent() / 100;
  }

  /** Lots whose own account is off by more than the tolerance. */
  public List<LotAccount> lotsOff() {
    return lots.stream()
        .filter(account -> !tolerance.holds(account.differenceKg(), account.inKg()))
        .toList();
  }

  /** Conditionings whose own account is off by more than the tolerance. */
  public List<ConditioningAccount> conditioningsOff() {
    return conditionings.stream()
        .filter(account -> !tolerance.holds(account.differenceKg(), account.inputKg()))
        .toList();
  }

  /**
   * Whether the whole and each part of it are within tolerance; one part that has too much does not
   * make up for another that lacks.
   */
  public boolean balances() {
    return tolerance.holds(differenceKg(), inKg())
        && lotsOff().isEmpty()
        && conditioningsOff().isEmpty();
  }

  /** Lots whose stock was counted. */
  public long lotsCounted() {
    return lots.stream().filter(account -> account.countedStockKg().isPresent()).count();
  }
}
