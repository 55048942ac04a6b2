package org.kornspur.processors.statistics;

/**
 * Whether a germination that is stated on a label holds against a test: 7 CFR 201.63, by the mean
 * of both, for tests of 400 seeds or more.
 */
public final class StatedValueTolerance {

  private static final BandedTable TABLE = BandedTable.read("stated-germination");

  /** Seeds from which on the tolerances hold. */
  public static final int LEAST_SEEDS = 400;

  private StatedValueTolerance() {}

  /** Tolerance by the mean of stated value and test, percent. */
  public static BandedTable table() {
    return TABLE;
  }

  /**
   * Compares a stated germination with a test. A test above the stated value always agrees.
   *
   * @param statedPercent germination on the label, whole percent
   * @param foundPercent germination of the test, whole percent
   * @param seeds seeds tested
   */
  public static Agreement compare(int statedPercent, int foundPercent, int seeds) {
    if (seeds < LEAST_SEEDS) {
      return new Agreement.NotTabulated(new NoTable.TooFewSeeds(seeds, LEAST_SEEDS));
    }
    return Agreement.by(TABLE, (statedPercent + foundPercent) / 2.0, statedPercent - foundPercent);
  }
}
