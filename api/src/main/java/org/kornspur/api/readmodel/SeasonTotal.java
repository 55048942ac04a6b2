package org.kornspur.api.readmodel;

/**
 * The crops or the lots of one season.
 *
 * @param year year of harvest
 * @param owed those that wait for evidence, or whose state this version does not know
 * @param leftKg seed in store, kilograms; 0 for crops
 * @param givenOutKg seed that left its lots, kilograms; 0 for crops
 */
public record SeasonTotal(
    int year, int fit, int owed, int notFit, double leftKg, double givenOutKg) {

  /** Number of crops or lots. */
  public int all() {
    return fit + owed + notFit;
  }
}
