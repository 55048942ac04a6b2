package org.kornspur.processors.statistics;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.processors.PublishedChecks;

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
          PurityRangeTest.table(samples[i]).at(tenths / 10.0).orElseThrow().value(),
          "Decree 61/2011 of the Czech Republic, annex 1");
    }
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
  void aRangeOfThreeContainersIsRefused() {
    assertThat(PurityRangeTest.judge(99, 99, 99)).isInstanceOf(Agreement.NotTabulated.class);
    assertThat(PurityRangeTest.judge(99.5, 99.9, 99.1, 99.5, 99.5))
        .isInstanceOf(Agreement.Agrees.class);
    assertThat(PurityRangeTest.judge(99.5, 99.9, 98.7, 99.9, 99.5))
        .isInstanceOf(Agreement.Disagrees.class);
  }
}
