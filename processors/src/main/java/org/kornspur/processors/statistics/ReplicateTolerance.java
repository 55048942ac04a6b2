package org.kornspur.processors.statistics;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Whether replicates of one germination test lie close enough together to be believed.
 *
 * <p>The published table of the largest range between replicates of 100 seeds governs: 7 CFR
 * 201.55(a), whose numbers table 5B of the International Rules for Seed Testing shares. Replicates
 * of 50 or 25 seeds are first combined, in the order given, to replicates of 100, as in 5.8 of
 * those rules. There is a table for four replicates of 100 and one for two; any other layout is
 * refused, since no published number holds for it.
 */
public final class ReplicateTolerance {

  private static final BandedTable OF_FOUR = BandedTable.read("replicate-range-of-four");
  private static final BandedTable OF_TWO = BandedTable.read("replicate-range-of-two");

  private ReplicateTolerance() {}

  /** Table of the largest range between four replicates of 100 seeds, by mean germination. */
  public static BandedTable tableOfFour() {
    return OF_FOUR;
  }

  /** Table of the largest range between two replicates of 100 seeds, by mean germination. */
  public static BandedTable tableOfTwo() {
    return OF_TWO;
  }

  /** Judges the range between the replicates of one test, percentage points. */
  public static Agreement judge(List<Replicate> replicates) {
    Optional<List<Replicate>> hundreds = combinedToHundreds(replicates);
    if (hundreds.isEmpty()) {
      return new Agreement.NotTabulated(
          new NoTable.UnevenReplicates(replicates.stream().map(Replicate::seeds).toList()));
    }
    BandedTable table =
        switch (hundreds.get().size()) {
          case 4 -> OF_FOUR;
          case 2 -> OF_TWO;
          default -> null;
        };
    if (table == null) {
      return new Agreement.NotTabulated(new NoTable.NumberOfReplicates(hundreds.get().size()));
    }
    int mean = GerminationMean.wholePercent(replicates);
    int range = range(hundreds.get());
    Optional<BandedTable.Band> band = table.at(mean).or(() -> beyondTheEnds(table, mean));
    if (band.isEmpty()) {
      return new Agreement.NotTabulated(
          new NoTable.NoRangeForMean(hundreds.get().size(), mean, range));
    }
    return Agreement.by(range, band.get().value(), table.unit(), band.get().source());
  }

  /**
   * Beyond the ends of the table the row at the end holds: replicates with so high or so low a mean
   * cannot lie further apart than it tolerates.
   */
  private static Optional<BandedTable.Band> beyondTheEnds(BandedTable table, int mean) {
    BandedTable.Band highest = table.bands().get(0);
    BandedTable.Band lowest = table.bands().get(table.bands().size() - 1);
    if (mean > highest.to()) {
      return Optional.of(highest);
    }
    return mean < lowest.from() ? Optional.of(lowest) : Optional.empty();
  }

  /** Largest less smallest of replicates of 100, percentage points. */
  static int range(List<Replicate> hundreds) {
    var normal = hundreds.stream().mapToInt(Replicate::normalSeedlings).summaryStatistics();
    return normal.getMax() - normal.getMin();
  }

  /** Replicates of 50 or 25 joined in order; empty where they do not make replicates of 100. */
  static Optional<List<Replicate>> combinedToHundreds(List<Replicate> replicates) {
    if (replicates.isEmpty()) {
      return Optional.empty();
    }
    int seeds = replicates.get(0).seeds();
    int joined = 100 / seeds;
    boolean fits =
        (seeds == 100 || seeds == 50 || seeds == 25)
            && replicates.stream().allMatch(r -> r.seeds() == seeds)
            && replicates.size() % joined == 0;
    if (!fits) {
      return Optional.empty();
    }
    List<Replicate> hundreds = new ArrayList<>();
    for (int i = 0; i < replicates.size(); i += joined) {
      int normal =
          replicates.subList(i, i + joined).stream().mapToInt(Replicate::normalSeedlings).sum();
      hundreds.add(new Replicate(100, normal));
    }
    return Optional.of(hundreds);
  }
}
