package org.kornspur.processors.plan;

import org.kornspur.processors.statistics.TriangularRange;

/** Nothing can be planned from what was given. */
public final class PlanRefusedException extends IllegalArgumentException {
  private final transient PlanRefusal refusal;

  PlanRefusedException(PlanRefusal refusal) {
    super(refusal.toString());
    this.refusal = refusal;
  }

  public PlanRefusal refusal() {
    return refusal;
  }

  /** Refuses a number outside its bounds, or that is none. */
  static void unlessWithin(String field, double value, double least, double most) {
    if (!(value >= least && value <= most)) {
      throw new PlanRefusedException(new PlanRefusal.InputOutside(field, value, least, most));
    }
  }

  /** Refuses one of which a value lies outside its bounds. */
  static void unlessWithin(String field, TriangularRange spread, double least, double most) {
    unlessWithin(field, spread.least(), least, most);
    unlessWithin(field, spread.greatest(), least, most);
  }
}
