package org.kornspur.processors.statistics;

/**
 * How far a later official test may lie off what was stated before anything follows from it: Cereal
 * Seed (Scotland) Regulations 2005 (SSI 2005/328), schedule 7. These are limits of variation and no
 * threshold of certification: seed that was certified is not condemned within them.
 */
public final class LimitsOfVariation {

  private static final BandedTable GERMINATION = BandedTable.read("variation-germination");
  private static final BandedTable PURITY = BandedTable.read("variation-purity");
  private static final BandedTable OTHER_SEEDS = BandedTable.read("variation-other-seeds");

  private LimitsOfVariation() {}

  /** Both in whole percent; a later test above what was stated always agrees. */
  public static Agreement germination(int statedPercent, int foundPercent) {
    return Agreement.by(GERMINATION, statedPercent, statedPercent - foundPercent);
  }

  /** Both in percent by weight to one decimal. */
  public static Agreement purity(double statedPercent, double foundPercent) {
    return Agreement.by(
        PURITY,
        statedPercent,
        Rounding.tenthPercent(statedPercent) - Rounding.tenthPercent(foundPercent));
  }

  /**
   * Other seeds by number; fewer than allowed always agree.
   *
   * @param most greatest number of other seeds that the standard or label allows
   * @param found number found in a sample of the same weight
   */
  public static Agreement otherSeeds(int most, int found) {
    return Agreement.by(OTHER_SEEDS, most, found - most);
  }

  static BandedTable germinationTable() {
    return GERMINATION;
  }

  static BandedTable purityTable() {
    return PURITY;
  }

  static BandedTable otherSeedsTable() {
    return OTHER_SEEDS;
  }
}
