package org.kornspur.processors.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.processors.PublishedChecks;
import org.kornspur.processors.statistics.RangeChart.Steadiness;

class RangeChartTest {
  private static final String TABLE =
      "printed table of factors for control charts (A.22 of a textbook of statistics for engineers)";
  private static final String RINGS =
      "R package qcc, R chart of the first 25 samples of pistonrings; output from memory";

  private final PublishedChecks checks = PublishedChecks.of("statistics");

  /** Values in a sample, then d2, d3, D3 and D4. */
  @ParameterizedTest
  @CsvSource({
    "2, 1.128, 0.853, 0, 3.267",
    "3, 1.693, 0.888, 0, 2.574",
    "4, 2.059, 0.880, 0, 2.282",
    "5, 2.326, 0.864, 0, 2.114",
    "6, 2.534, 0.848, 0, 2.004",
    "7, 2.704, 0.833, 0.076, 1.924",
    "8, 2.847, 0.820, 0.136, 1.864",
    "9, 2.970, 0.808, 0.184, 1.816",
    "10, 3.078, 0.797, 0.223, 1.777"
  })
  void factorsAreThoseOfThePrintedTable(
      int values, double d2, double d3, double lower, double upper) {
    RangeFactors factors = RangeFactors.of(values);
    checks.close("d2 of %d".formatted(values), d2, factors.d2(), 1e-9, TABLE);
    checks.close("d3 of %d".formatted(values), d3, factors.d3(), 1e-9, TABLE);
    checks.close("D3 of %d".formatted(values), lower, factors.lower(), 0.002, TABLE);
    checks.close("D4 of %d".formatted(values), upper, factors.upper(), 0.002, TABLE);
  }

  /**
   * Mean and variance of the range by its definition: E(W) = ∫ 1 - F^n - (1 - F)^n, and E(W²) = 2
   * ∫∫ over x &lt; y of 1 - F(y)^n - (1 - F(x))^n + (F(y) - F(x))^n; L. H. C. Tippett, Biometrika
   * 17 (1925).
   */
  @ParameterizedTest
  @CsvSource({"2", "3", "4", "5", "7", "10"})
  void factorsAreThoseOfTheDistributionOfTheRange(int values) {
    NormalDistribution normal = NormalDistribution.of(0, 1);
    double step = 0.02;
    double[] upTo =
        IntStream.rangeClosed(-400, 400)
            .mapToDouble(i -> normal.cumulativeProbability(i * step))
            .toArray();
    double mean = 0;
    double square = 0;
    for (int y = 0; y < upTo.length; y++) {
      mean += step * (1 - Math.pow(upTo[y], values) - Math.pow(1 - upTo[y], values));
      for (int x = 0; x <= y; x++) {
        double weight = x == y ? 0.5 : 1;
        square +=
            2
                * weight
                * step
                * step
                * (1
                    - Math.pow(upTo[y], values)
                    - Math.pow(1 - upTo[x], values)
                    + Math.pow(upTo[y] - upTo[x], values));
      }
    }
    assertThat(RangeFactors.of(values).d2()).isCloseTo(mean, within(0.0006));
    assertThat(RangeFactors.of(values).d3())
        .isCloseTo(Math.sqrt(square - mean * mean), within(0.0006));
  }

  @Test
  void workedExampleOfPistonRings() {
    checks.close(
        "R chart of piston rings: upper limit",
        0.04812533,
        0.02276 * RangeFactors.of(5).upper(),
        0.00002,
        RINGS);
  }

  @Test
  void noFactorsAreHeldForOneValueOrEleven() {
    assertThatThrownBy(() -> RangeFactors.of(1)).hasMessageContaining("2 to 10");
    assertThatThrownBy(() -> RangeFactors.of(11)).hasMessageContaining("not of 11");
  }

  /** Quantiles of chi-squared of 99 degrees, 73.361 and 128.422, stand in every table. */
  @Test
  void theIntervalIsThatOfAVariance() {
    Interval interval = RangeChart.interval(99, 99);
    checks.close(
        "interval of a variance, lower", 99 / 128.422, interval.lower(), 1e-5, "chi-squared table");
    checks.close(
        "interval of a variance, upper", 99 / 73.361, interval.upper(), 1e-5, "chi-squared table");
  }

  /**
   * By hand: mean 90 %, σ = √(0.9 x 0.1 / 100) = 3 points; with 4 replicates chance makes 2.059 x 3
   * = 6.177 points, and the limit is 2.282 times that. The tolerance for 90 % is 12 points (7 CFR
   * 201.55).
   */
  @Test
  void aTestOfAFewIsHeldAgainstChance() {
    RangeChart chart = RangeChart.of(List.of(hundreds(84, 96, 90, 90)));
    RangeChart.Point point = chart.points().get(0);
    assertThat(point.meanPercent()).isEqualTo(90);
    assertThat(point.rangePercent()).hasValue(12);
    assertThat(point.limitPercent().getAsDouble()).isCloseTo(6.177 * 2.282, within(0.005));
    assertThat(point.isBeyondLimit()).isFalse();
    assertThat(point.isBeyondTolerance()).isFalse();
    assertThat(RangeChart.of(List.of(hundreds(83, 97, 90, 90))).points().get(0).isBeyondTolerance())
        .isTrue();
    assertThat(chart.hasOwnCentre()).isFalse();
    assertThat(chart.centre()).isEqualTo(1);
    // (36 + 36) / 9 of 3 degrees
    assertThat(chart.spread().getAsDouble()).isCloseTo(8 / 3.0, within(1e-9));
    assertThat(chart.steadiness()).isEqualTo(Steadiness.AS_BY_CHANCE);
  }

  /** Nineteen tests of range 0 and one of range 12, at 90 %: the mean range is 0.6 points. */
  @Test
  void fromTwentyTestsOnTheCentreIsTheLaboratorysOwn() {
    List<List<Replicate>> tests =
        new ArrayList<>(Collections.nCopies(19, hundreds(90, 90, 90, 90)));
    tests.add(hundreds(84, 96, 90, 90));
    RangeChart chart = RangeChart.of(tests);
    assertThat(chart.centre()).isCloseTo(0.6 / 6.177, within(1e-9));
    assertThat(chart.points().get(19).limitPercent().getAsDouble())
        .isCloseTo(0.6 * 2.282, within(0.001));
    assertThat(chart.points().get(19).isBeyondLimit()).isTrue();
    assertThat(chart.points().get(0).isBeyondLimit()).isFalse();
    assertThat(chart.steadiness()).isEqualTo(Steadiness.CLOSER);
  }

  @Test
  void replicatesByChanceAreCalledSoAndOthersAreNot() {
    SplittableRandom random = new SplittableRandom(20_26);
    assertThat(RangeChart.of(drawn(random, 200, 0)).steadiness())
        .isEqualTo(Steadiness.AS_BY_CHANCE);
    assertThat(RangeChart.of(drawn(random, 200, 0)).centre()).isCloseTo(1, within(0.08));
    assertThat(RangeChart.of(drawn(random, 200, 0.05)).steadiness())
        .isEqualTo(Steadiness.FURTHER_APART);
  }

  @Test
  void fiftiesAreCombinedAndWhatMakesNoHundredsIsShownWithoutRange() {
    List<Replicate> fifties = Collections.nCopies(8, new Replicate(50, 45));
    RangeChart chart =
        RangeChart.of(
            List.of(
                fifties,
                List.of(new Replicate(40, 30), new Replicate(60, 50)),
                hundreds(100, 100, 100, 100)));
    assertThat(chart.points().get(0).rangePercent()).hasValue(0);
    assertThat(chart.points().get(1).rangePercent()).isEmpty();
    assertThat(chart.points().get(1).isBeyondLimit()).isFalse();
    assertThat(chart.points().get(1).agreement()).isInstanceOf(Agreement.NotTabulated.class);
    // where all germinate chance makes no range, and there is no limit
    assertThat(chart.points().get(2).rangePercent()).hasValue(0);
    assertThat(chart.points().get(2).limitPercent()).isEmpty();
    assertThat(chart.compared()).isEqualTo(1);
  }

  @Test
  void ofNoTestNothingIsTold() {
    RangeChart chart = RangeChart.of(List.of());
    assertThat(chart.spread()).isEmpty();
    assertThat(chart.spreadInterval()).isEmpty();
    assertThat(chart.steadiness()).isEqualTo(Steadiness.AS_BY_CHANCE);
  }

  /** Tests of four replicates at 90 %, each replicate off by up to so much beside chance. */
  private static List<List<Replicate>> drawn(SplittableRandom random, int tests, double off) {
    return IntStream.range(0, tests)
        .mapToObj(
            test ->
                IntStream.range(0, 4)
                    .mapToObj(
                        replicate -> {
                          double share = 0.9 + off * (2 * random.nextDouble() - 1);
                          int normal = 0;
                          for (int seed = 0; seed < 100; seed++) {
                            normal += random.nextDouble() < share ? 1 : 0;
                          }
                          return new Replicate(100, normal);
                        })
                    .toList())
        .toList();
  }

  private static List<Replicate> hundreds(int... normal) {
    return IntStream.of(normal).mapToObj(each -> new Replicate(100, each)).toList();
  }
}
