package org.kornspur.processors.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.stream.IntStream;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.processors.PublishedChecks;
import org.kornspur.processors.statistics.Heterogeneity.Attribute;

/** Tolerances between two values of one lot, cell by cell as their texts print them. */
class PublishedTablesTest {

  private static final String VARIATION = "SSI 2005/328, schedule 7";

  private final PublishedChecks checks = PublishedChecks.of("statistics");

  /** The text has bands of the mean; both ends of each are tried. */
  @ParameterizedTest
  @CsvSource({
    "96, 5",
    "100, 5",
    "90, 6",
    "95.5, 6",
    "80, 7",
    "89.5, 7",
    "70, 8",
    "79.5, 8",
    "60, 9",
    "69.5, 9",
    "59.5, 10",
    "0, 10"
  })
  void statedGermination(double mean, int tolerance) {
    BandedTable.Band band = StatedValueTolerance.table().at(mean).orElseThrow();
    checks.same(
        "tolerance to a stated germination, mean " + mean + " %",
        tolerance,
        (int) band.value(),
        "7 CFR 201.63");
    assertThat(band.source().verified()).isTrue();
  }

  @ParameterizedTest
  @CsvSource({
    "99-100, 2",
    "97-98, 3",
    "94-96, 4",
    "91-93, 5",
    "87-90, 6",
    "82-86, 7",
    "76-81, 8",
    "69-75, 9",
    "65-68, 10"
  })
  void variationOfGermination(String band, int limit) {
    String[] ends = band.split("-", -1);
    IntStream.rangeClosed(Integer.parseInt(ends[0]), Integer.parseInt(ends[1]))
        .forEach(
            stated ->
                checks.same(
                    "limit of variation, germination " + stated + " %",
                    limit,
                    (int) LimitsOfVariation.germinationTable().at(stated).orElseThrow().value(),
                    VARIATION));
  }

  @ParameterizedTest
  @CsvSource({
    "999, 1000, 0.2", "998, 998, 0.3", "996, 997, 0.4", "993, 995, 0.5", "990, 992, 0.6",
    "985, 989, 0.7", "983, 984, 0.8", "975, 982, 0.9", "970, 974, 1.0", "965, 969, 1.1",
    "955, 964, 1.2", "950, 954, 1.3"
  })
  void variationOfPurity(int fromTenths, int toTenths, double limit) {
    IntStream.rangeClosed(fromTenths, toTenths)
        .forEach(
            tenths ->
                checks.same(
                    "limit of variation, purity " + tenths / 10.0 + " %",
                    limit,
                    LimitsOfVariation.purityTable().at(tenths / 10.0).orElseThrow().value(),
                    VARIATION));
  }

  @ParameterizedTest
  @CsvSource({
    "0, 0, 1",
    "1, 1, 3",
    "2, 2, 4",
    "3, 4, 5",
    "5, 6, 6",
    "7, 8, 7",
    "9, 11, 8",
    "12, 14, 9",
    "15, 17, 10",
    "18, 20, 11"
  })
  void variationOfOtherSeeds(int from, int to, int limit) {
    IntStream.rangeClosed(from, to)
        .forEach(
            seeds ->
                checks.same(
                    "limit of variation, " + seeds + " other seeds",
                    limit,
                    (int) LimitsOfVariation.otherSeedsTable().at(seeds).orElseThrow().value(),
                    VARIATION));
  }

  /** Beside each cell stands what 2.24 times the binomial deviation of a difference would give. */
  @ParameterizedTest
  @CsvSource({
    "98, 99, 2",
    "95, 97, 3",
    "91, 94, 4",
    "85, 90, 5",
    "77, 84, 6",
    "60, 76, 7",
    "51, 59, 8"
  })
  void twoTests(int from, int to, int tolerance) {
    for (int mean = from; mean <= to; mean++) {
      double theory = 2.2414 * Math.sqrt(2 * mean * (100.0 - mean) / 400);
      BandedTable.Band band = TestCompatibility.table().at(mean).orElseThrow();
      checks.same(
          "two tests of 400, mean %d %% (theory %.2f)".formatted(mean, theory),
          tolerance,
          (int) band.value(),
          band.source().text());
      assertThat(band.value())
          .as("no cell lies a whole point off theory")
          .isBetween(theory - 1, theory + 1);
      assertThat(TestCompatibility.table().at(101 - mean).orElseThrow().value())
          .isEqualTo(tolerance);
    }
  }

  @ParameterizedTest
  @CsvSource({
    "999, 0.5, 0.5, 0.6",
    "998, 0.7, 0.8, 0.8",
    "997, 0.8, 0.9, 1.0",
    "996, 1.0, 1.1, 1.2",
    "995, 1.1, 1.2, 1.3",
    "994, 1.2, 1.3, 1.4",
    "993, 1.3, 1.4, 1.6"
  })
  void rangeOfPurity(int tenths, double toNine, double toNineteen, double twenty) {
    double[] published = {toNine, toNine, toNineteen, toNineteen, twenty};
    int[] samples = {5, 9, 10, 19, 20};
    for (int i = 0; i < samples.length; i++) {
      checks.same(
          "range of purity, mean %s %%, %d samples".formatted(tenths / 10.0, samples[i]),
          published[i],
          RangeTest.table(samples[i]).at(tenths / 10.0).orElseThrow().value(),
          "Decree 61/2011 of the Czech Republic, annex 1");
    }
  }

  /**
   * The same cells and others of the decree's table, by the formula that stands in for the rest.
   */
  @ParameterizedTest
  @CsvSource({
    "99.9, 0.5, 0.5, 0.6",
    "99.8, 0.7, 0.8, 0.8",
    "99.7, 0.8, 0.9, 1.0",
    "99.6, 1.0, 1.1, 1.2",
    "99.5, 1.1, 1.2, 1.3",
    "99.4, 1.2, 1.3, 1.4",
    "99.3, 1.3, 1.4, 1.6",
    "88, 5.0, 5.6, 6.1",
    "87, 5.1, 5.8, 6.3",
    "86, 5.3, 5.9, 6.5",
    "85, 5.4, 6.1, 6.7",
    "84, 5.6, 6.3, 6.9",
    "83, 5.7, 6.4, 7.0"
  })
  void computedRangeOfPurity(double mean, double toNine, double toNineteen, double twenty) {
    double[] published = {toNine, toNineteen, twenty};
    int[] samples = {5, 10, 20};
    for (int i = 0; i < samples.length; i++) {
      checks.close(
          "computed range of purity, mean %s %%, %d samples".formatted(mean, samples[i]),
          published[i],
          RangeTest.computed(Attribute.PURITY, mean, samples[i]),
          1e-9,
          "Decree 61/2011 of the Czech Republic, annex 1, table 9");
    }
  }

  @Test
  void computedRangeOfGermination() {
    checks.close(
        "computed range of germination, mean 90 %, 15 samples",
        17,
        RangeTest.computed(Attribute.GERMINATION, 90, 15),
        1e-9,
        "worked example of the range test in a reprinted chapter on seed testing");
    double[] results = {99, 91, 92, 84, 94, 90, 79, 91, 88, 92, 90, 89, 93, 91, 87};
    assertThat(RangeTest.judge(Attribute.GERMINATION, results))
        .as("a range of 20 where 17 is tolerated")
        .isInstanceOf(Agreement.Disagrees.class);
  }

  /** P(range of k normal values at most q) by its integral, the definition itself. */
  @ParameterizedTest
  @CsvSource({"5", "10", "20"})
  void pointsOfTheRange(int samples) {
    double q = RangeTest.rangePoint(samples);
    NormalDistribution normal = NormalDistribution.of(0, 1);
    double step = 0.01;
    double probability = 0;
    for (double z = -8; z < 14; z += step) {
      double within = normal.cumulativeProbability(z) - normal.cumulativeProbability(z - q);
      probability += step * samples * normal.density(z) * Math.pow(within, samples - 1);
    }
    assertThat(probability).isCloseTo(0.99, within(0.0002));
  }

  @Test
  void comparisonsCountOnlyOnTheSideThatMatters() {
    assertThat(LimitsOfVariation.germination(90, 84)).isInstanceOf(Agreement.Agrees.class);
    assertThat(LimitsOfVariation.germination(90, 83)).isInstanceOf(Agreement.Disagrees.class);
    assertThat(LimitsOfVariation.germination(85, 99)).isInstanceOf(Agreement.Agrees.class);
    assertThat(LimitsOfVariation.germination(60, 50)).isInstanceOf(Agreement.NotTabulated.class);
    assertThat(LimitsOfVariation.purity(98.0, 97.1)).isInstanceOf(Agreement.Agrees.class);
    assertThat(LimitsOfVariation.purity(98.0, 97.0)).isInstanceOf(Agreement.Disagrees.class);
    assertThat(LimitsOfVariation.otherSeeds(10, 18)).isInstanceOf(Agreement.Agrees.class);
    assertThat(LimitsOfVariation.otherSeeds(10, 19)).isInstanceOf(Agreement.Disagrees.class);
    assertThat(StatedValueTolerance.compare(92, 86, 400))
        .as("mean 89, tolerance 7")
        .isInstanceOf(Agreement.Agrees.class);
    assertThat(StatedValueTolerance.compare(95, 88, 400))
        .as("mean 91.5, tolerance 6")
        .isInstanceOf(Agreement.Disagrees.class);
    assertThat(StatedValueTolerance.compare(92, 86, 200))
        .isInstanceOf(Agreement.NotTabulated.class);
    assertThat(TestCompatibility.compare(92, 400, 88, 400)).isInstanceOf(Agreement.Agrees.class);
    assertThat(TestCompatibility.compare(100, 400, 99, 400)).isInstanceOf(Agreement.Agrees.class);
    assertThat(TestCompatibility.compare(95, 400, 85, 400)).isInstanceOf(Agreement.Disagrees.class);
    assertThat(TestCompatibility.compare(95, 200, 85, 400))
        .isInstanceOf(Agreement.NotTabulated.class);
  }

  @Test
  void meansWithoutARowAreComputedAndSoMarked() {
    Agreement.Agrees purity =
        (Agreement.Agrees) RangeTest.judge(Attribute.PURITY, 98.1, 98.4, 97.9, 98.2, 98.0);
    assertThat(purity.source().verified()).isFalse();
    // by hand: 4.60 x the root of 98.1 x 1.9 / 1,000 x 1.1
    assertThat(purity.tolerated()).isEqualTo(2.1);
    Agreement.Agrees seeds =
        (Agreement.Agrees) RangeTest.judge(Attribute.OTHER_SEEDS, 12, 18, 15, 20, 10);
    // by hand: 4.60 x the root of 15 x 1.4
    assertThat(seeds.tolerated()).isCloseTo(21.08, within(0.005));
    assertThat(RangeTest.judge(Attribute.OTHER_SEEDS, 0, 0, 0, 1, 1))
        .isInstanceOf(Agreement.NotTabulated.class);
    assertThat(
            ((Agreement.Agrees) RangeTest.judge(Attribute.PURITY, 99.5, 99.5, 99.5, 99.5, 99.5))
                .source()
                .verified())
        .isTrue();
  }

  @Test
  void aRangeOfThreeContainersIsRefused() {
    assertThat(RangeTest.judge(Attribute.PURITY, 99, 99, 99))
        .isInstanceOf(Agreement.NotTabulated.class);
    assertThat(RangeTest.judge(Attribute.PURITY, 99.5, 99.9, 99.1, 99.5, 99.5))
        .isInstanceOf(Agreement.Agrees.class);
    assertThat(RangeTest.judge(Attribute.PURITY, 99.5, 99.9, 98.7, 99.9, 99.5))
        .isInstanceOf(Agreement.Disagrees.class);
  }
}
