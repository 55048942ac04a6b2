package org.kornspur.processors.statistics;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.apache.commons.statistics.distribution.ChiSquaredDistribution;

/**
 * Control chart of the ranges between replicates of the germination tests of one laboratory, in the
 * order of the tests.
 *
 * <p>Lots differ, and the range that chance alone makes differs with their germination: σ = √(p (1
 * - p) / 100) of replicates of 100 seeds. So each range is taken in multiples of d2 σ, and a
 * Shewhart chart is kept of these: the centre is their mean, or 1, chance alone, while there are
 * fewer tests than {@link #LEAST_FOR_OWN_CENTRE}. The control limit of a test is that centre times
 * D4 d2 σ. Replicates of 50 and 25 seeds are combined as {@link ReplicateTolerance} does, whose
 * published tolerance stands beside the limit.
 *
 * <p>A chart tells whether the work is steady; it judges no lot.
 *
 * @param points one for each test
 * @param compared tests that the centre rests on: with two replicates of 100 or more, and of which
 *     neither none nor all germinated
 * @param centre mean of range ÷ (d2 σ) of these; 1 where it is not the laboratory's own
 * @param spread how many times the variance that chance alone makes the replicates have, by
 *     Pearson's chi-squared over all compared tests: estimate; empty where none is compared
 * @param spreadInterval its interval; approximate, as chi-squared is
 */
public record RangeChart(
    List<Point> points,
    int compared,
    double centre,
    OptionalDouble spread,
    Optional<Interval> spreadInterval) {

  /** Tests before a laboratory's own centre counts; D. C. Montgomery has 20 to 25. */
  public static final int LEAST_FOR_OWN_CENTRE = 20;

  private static final double CONFIDENCE = 0.95;
  private static final double POINTS = 100;

  /**
   * One test.
   *
   * @param meanPercent normal seedlings of all replicates
   * @param rangePercent between replicates of 100 seeds, percentage points; empty where its
   *     replicates do not make two or more of these
   * @param limitPercent upper control limit, percentage points; empty where it is not compared
   * @param agreement by the published tolerance
   */
  public record Point(
      double meanPercent,
      OptionalDouble rangePercent,
      OptionalDouble limitPercent,
      Agreement agreement) {

    /** Whether the range is beyond its control limit. */
    public boolean isBeyondLimit() {
      return limitPercent.isPresent() && rangePercent.orElseThrow() > limitPercent.getAsDouble();
    }

    /** Whether the range is more than the published tolerance. */
    public boolean isBeyondTolerance() {
      return agreement instanceof Agreement.Disagrees;
    }
  }

  /** How the replicates of all tests lie, against chance. */
  public enum Steadiness {
    /** Too little is known to tell them from chance. */
    AS_BY_CHANCE,
    /** Further apart than chance makes them: the work varies. */
    FURTHER_APART,
    /**
     * Closer than chance makes them: seeds are not drawn at random, or numbers are not as counted.
     */
    CLOSER
  }

  /**
   * The chart.
   *
   * @param tests replicates of each test, in the order of the tests
   */
  public static RangeChart of(List<List<Replicate>> tests) {
    List<Test> read = tests.stream().map(Test::of).toList();
    List<Test> compared = read.stream().filter(Test::isCompared).toList();
    double centre =
        compared.size() < LEAST_FOR_OWN_CENTRE
            ? 1
            : compared.stream().mapToDouble(Test::multiple).average().orElseThrow();
    double chiSquared = compared.stream().mapToDouble(Test::chiSquared).sum();
    int freedom = compared.stream().mapToInt(Test::freedom).sum();
    return new RangeChart(
        read.stream().map(test -> test.point(centre)).toList(),
        compared.size(),
        centre,
        freedom == 0 ? OptionalDouble.empty() : OptionalDouble.of(chiSquared / freedom),
        freedom == 0 ? Optional.empty() : Optional.of(interval(chiSquared, freedom)));
  }

  /** Whether the centre is the laboratory's own. */
  public boolean hasOwnCentre() {
    return compared >= LEAST_FOR_OWN_CENTRE;
  }

  public Steadiness steadiness() {
    if (spreadInterval.isEmpty() || spreadInterval.get().contains(1)) {
      return Steadiness.AS_BY_CHANCE;
    }
    return spreadInterval.get().lower() > 1 ? Steadiness.FURTHER_APART : Steadiness.CLOSER;
  }

  /** Interval of a variance as a multiple of what it is held against. */
  static Interval interval(double chiSquared, int freedom) {
    ChiSquaredDistribution byChance = ChiSquaredDistribution.of(freedom);
    double tail = (1 - CONFIDENCE) / 2;
    return new Interval(
        chiSquared / byChance.inverseSurvivalProbability(tail),
        chiSquared / byChance.inverseCumulativeProbability(tail),
        CONFIDENCE);
  }

  /** A test with its replicates of 100 seeds; none where they do not make such. */
  private record Test(List<Replicate> replicates, List<Replicate> hundreds) {

    static Test of(List<Replicate> replicates) {
      return new Test(
          replicates, ReplicateTolerance.combinedToHundreds(replicates).orElse(List.of()));
    }

    private double share() {
      return (double) replicates.stream().mapToInt(Replicate::normalSeedlings).sum()
          / replicates.stream().mapToInt(Replicate::seeds).sum();
    }

    private double sigmaPercent() {
      return POINTS * Math.sqrt(share() * (1 - share()) / POINTS);
    }

    private boolean hasRange() {
      return hundreds.size() >= RangeFactors.LEAST && hundreds.size() <= RangeFactors.MOST;
    }

    boolean isCompared() {
      return hasRange() && sigmaPercent() > 0;
    }

    private double byChancePercent() {
      return RangeFactors.of(hundreds.size()).d2() * sigmaPercent();
    }

    double multiple() {
      return ReplicateTolerance.range(hundreds) / byChancePercent();
    }

    double chiSquared() {
      return Dispersion.ofShares(
              hundreds.stream().mapToInt(Replicate::normalSeedlings).toArray(),
              hundreds.stream().mapToInt(Replicate::seeds).toArray())
          .chiSquared();
    }

    int freedom() {
      return hundreds.size() - 1;
    }

    Point point(double centre) {
      return new Point(
          POINTS * share(),
          hasRange()
              ? OptionalDouble.of(ReplicateTolerance.range(hundreds))
              : OptionalDouble.empty(),
          isCompared()
              ? OptionalDouble.of(
                  centre * RangeFactors.of(hundreds.size()).upper() * byChancePercent())
              : OptionalDouble.empty(),
          ReplicateTolerance.judge(replicates));
    }
  }
}
