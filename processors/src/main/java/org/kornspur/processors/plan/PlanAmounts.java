package org.kornspur.processors.plan;

import java.util.HashMap;
import java.util.Map;

/**
 * The amounts that a plan decides on: hectares grown and kilograms sold. All else follows from
 * them.
 *
 * <p>Arrays are by the place of the year in the plan, 0 for the first.
 */
final class PlanAmounts {
  /** Kilograms and hectares below which nothing is sown, sold or short. */
  static final double SMALLEST = 1e-4;

  private final int years;
  private final Map<String, double[]> areaHa = new HashMap<>();
  private final Map<String, double[]> soldKg = new HashMap<>();

  PlanAmounts(int years) {
    this.years = years;
  }

  double[] areaHa(String seedId) {
    return areaHa.computeIfAbsent(seedId, id -> new double[years]);
  }

  double[] soldKg(String hybridId) {
    return soldKg.computeIfAbsent(hybridId, id -> new double[years]);
  }

  /** Takes over the choices of seed that is planned apart. */
  void add(PlanAmounts others) {
    areaHa.putAll(others.areaHa);
    soldKg.putAll(others.soldKg);
  }
}
