package org.kornspur.api.readmodel;

import org.kornspur.ingest.contract.Subject;

/**
 * How far something that is wrong with a crop or lot reaches. Masses are summed in whole
 * milligrams, so that the sum does not depend on the order in which lots came and went.
 */
final class ImpactTotals {
  private static final double MG_IN_KG = 1e6;

  private int rows;
  private int lots;
  private long leftMg;
  private long customersMg;

  void add(IndexedStanding held) {
    count(held, 1);
  }

  void remove(IndexedStanding held) {
    count(held, -1);
  }

  private void count(IndexedStanding held, int times) {
    StandingRow row = held.row();
    rows += times;
    if (row.subject().kind() == Subject.Kind.LOT) {
      lots += times;
      leftMg += times * mg(Math.max(0, row.heldKg() - row.givenOutKg()));
      customersMg += times * mg(held.customersKg());
    }
  }

  boolean isNothing() {
    return rows == 0;
  }

  /** Lots that it reaches; crops are not counted. */
  int lots() {
    return lots;
  }

  double leftKg() {
    return leftMg / MG_IN_KG;
  }

  double customersKg() {
    return customersMg / MG_IN_KG;
  }

  private static long mg(double kg) {
    return Math.round(kg * MG_IN_KG);
  }
}
