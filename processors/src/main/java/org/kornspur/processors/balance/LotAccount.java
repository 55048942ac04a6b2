package org.kornspur.processors.balance;

import java.util.OptionalDouble;

/**
 * Mass account of one lot, kilograms.
 *
 * @param lotId the lot
 * @param declaredKg with which it entered without history here
 * @param harvestedKg taken into it from crops
 * @param fromLotsKg that came into it by conditioning, split, merge or mixture
 * @param toCustomersKg dispatched
 * @param sownKg sown
 * @param intoLotsKg that left it by conditioning, split, merge or mixture
 * @param countedStockKg what was counted in store; empty where nobody counted
 */
public record LotAccount(
    String lotId,
    double declaredKg,
    double harvestedKg,
    double fromLotsKg,
    double toCustomersKg,
    double sownKg,
    double intoLotsKg,
    OptionalDouble countedStockKg) {

  /** All that came in. */
  public double inKg() {
    return declaredKg + harvestedKg + fromLotsKg;
  }

  /** All that went out. */
  public double outKg() {
    return toCustomersKg + sownKg + intoLotsKg;
  }

  /** What the books leave; negative where more went out than came in. */
  public double bookStockKg() {
    return inKg() - outKg();
  }

  /** What lies in store: as counted, else what the books leave, which is never less than none. */
  public double stockKg() {
    return countedStockKg.orElse(Math.max(0, bookStockKg()));
  }

  /** In less out and stock: missing where positive, too much where negative. */
  public double differenceKg() {
    return bookStockKg() - stockKg();
  }
}
