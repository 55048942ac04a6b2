package org.kornspur.processors.statistics;

/**
 * Whether two germination tests of one lot, each of 400 seeds, agree well enough for their mean to
 * be reported.
 *
 * <p>International Rules for Seed Testing, table 5C: two-way test at 2.5 %. That such a table
 * exists was read in a chapter on seed testing; its numbers are from memory, and each says so.
 */
public final class TestCompatibility {

  private static final BandedTable TABLE = BandedTable.read("two-tests-two-way");

  /** Seeds that each of the two tests must have for the table to hold. */
  public static final int SEEDS_EACH = 400;

  private TestCompatibility() {}

  /** Largest difference by the mean of both tests, whole percent. */
  public static BandedTable table() {
    return TABLE;
  }

  /**
   * Compares two tests.
   *
   * @param first germination of the first test in whole percent
   * @param firstSeeds seeds of the first test
   * @param second germination of the second test in whole percent
   * @param secondSeeds seeds of the second test
   */
  public static Agreement compare(int first, int firstSeeds, int second, int secondSeeds) {
    if (firstSeeds != SEEDS_EACH || secondSeeds != SEEDS_EACH) {
      return new Agreement.NotTabulated(
          new NoTable.TestsOfOtherSize(firstSeeds, secondSeeds, SEEDS_EACH));
    }
    int mean = Rounding.wholePercent((first + second) / 2.0);
    // two tests that both round near 100 or 0 cannot lie further apart than the row at the end
    int within = Math.min(99, Math.max(2, mean));
    return Agreement.by(TABLE, within, Math.abs(first - second));
  }
}
