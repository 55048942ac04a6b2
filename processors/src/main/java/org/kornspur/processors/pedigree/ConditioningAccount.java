package org.kornspur.processors.pedigree;

/**
 * Mass account of one conditioning, kilograms.
 *
 * @param factId the fact that records it
 * @param inputKg mass of all lots that went in
 * @param outputKg mass of all lots that came out
 * @param screeningsKg mass removed, as recorded
 */
public record ConditioningAccount(
    String factId, double inputKg, double outputKg, double screeningsKg) {

  /** What went in and is found nowhere; negative where more came out than went in. */
  public double differenceKg() {
    return inputKg - outputKg - screeningsKg;
  }
}
