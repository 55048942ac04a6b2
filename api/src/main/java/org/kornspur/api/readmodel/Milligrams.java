package org.kornspur.api.readmodel;

/**
 * Masses in whole milligrams, so that a sum does not depend on the order in which lots came and
 * went.
 */
final class Milligrams {
  private static final double IN_KG = 1e6;

  private Milligrams() {}

  static long ofKg(double kg) {
    return Math.round(kg * IN_KG);
  }

  static double toKg(long milligrams) {
    return milligrams / IN_KG;
  }
}
