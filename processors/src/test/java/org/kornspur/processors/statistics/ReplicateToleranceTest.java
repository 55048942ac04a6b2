package org.kornspur.processors.statistics;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.processors.PublishedChecks;

class ReplicateToleranceTest {

  private static final String CFR = "7 CFR 201.55(a)";

  private final PublishedChecks checks = PublishedChecks.of("statistics");

  /** Row by row as the text prints it: mean, its mirror, four replicates, two replicates. */
  @ParameterizedTest
  @CsvSource({
    "99, 2, 5,",
    "98, 3, 6,",
    "97, 4, 7, 6",
    "96, 5, 8, 6",
    "95, 6, 9, 7",
    "94, 7, 10, 8",
    "93, 8, 10, 8",
    "92, 9, 11, 9",
    "91, 10, 11, 9",
    "90, 11, 12, 9",
    "89, 12, 12, 10",
    "88, 13, 13, 10",
    "87, 14, 13, 11",
    "86, 15, 14, 11",
    "85, 16, 14, 11",
    "84, 17, 14, 11",
    "83, 18, 15, 12",
    "82, 19, 15, 12",
    "81, 20, 15, 12",
    "80, 21, 16, 13",
    "79, 22, 16, 13",
    "78, 23, 16, 13",
    "77, 24, 17, 13",
    "76, 25, 17, 13",
    "75, 26, 17, 14",
    "74, 27, 17, 14",
    "73, 28, 17, 14",
    "72, 29, 18, 14",
    "71, 30, 18, 14"
  })
  void everyPublishedRangeIsTheOneThatGoverns(int mean, int mirror, int ofFour, Integer ofTwo) {
    for (int m : new int[] {mean, mirror}) {
      same(
          "range of four replicates of 100, mean " + m + " %",
          ofFour,
          ReplicateTolerance.tableOfFour(),
          m);
      if (ofTwo != null) {
        same(
            "range of two replicates of 100, mean " + m + " %",
            ofTwo,
            ReplicateTolerance.tableOfTwo(),
            m);
      }
    }
  }

  private void same(String check, int published, BandedTable table, int mean) {
    BandedTable.Band band = table.at(mean).orElseThrow();
    checks.same(check, published, (int) band.value(), CFR);
    assertThat(band.source())
        .isEqualTo(
            new Source(
                CFR + ", table of maximum tolerated ranges between 100-seed replicates", true));
  }

  @Test
  void theTableBelowTheOneThatWasReadSaysThatItIsFromMemory() {
    BandedTable.Band band = ReplicateTolerance.tableOfFour().at(60).orElseThrow();
    assertThat(band.value()).isEqualTo(19);
    assertThat(band.source().text()).endsWith("table 5B");
  }

  /** The table has a row for every mean from 2 to 99 and never widens towards the ends. */
  @Test
  void rangesNarrowTowardsTheEnds() {
    int[] ranges =
        IntStream.rangeClosed(51, 99)
            .map(m -> (int) ReplicateTolerance.tableOfFour().at(m).orElseThrow().value())
            .toArray();
    List<Integer> narrowing = Arrays.stream(ranges).boxed().toList();
    assertThat(narrowing).isSortedAccordingTo(Collections.reverseOrder());
    IntStream.rangeClosed(2, 99)
        .forEach(m -> assertThat(ReplicateTolerance.tableOfFour().at(m)).isPresent());
  }

  /** Mean 95.5 rounds up to 96, where 8 points are tolerated, not 9. */
  @Test
  void looksUpTheRoundedMean() {
    assertThat(ReplicateTolerance.judge(hundreds(100, 97, 94, 91)))
        .isInstanceOfSatisfying(
            Agreement.Disagrees.class,
            o -> {
              assertThat(o.difference()).isEqualTo(9);
              assertThat(o.tolerated()).isEqualTo(8);
            });
    assertThat(ReplicateTolerance.judge(hundreds(100, 96, 93, 92)))
        .isInstanceOfSatisfying(
            Agreement.Agrees.class, o -> assertThat(o.difference()).isEqualTo(8));
  }

  @Test
  void joinsReplicatesOfFiftyAndTwentyFiveInTheOrderGiven() {
    List<Replicate> fifties =
        IntStream.of(50, 40, 45, 45, 45, 45, 45, 45).mapToObj(n -> new Replicate(50, n)).toList();
    assertThat(ReplicateTolerance.judge(fifties))
        .isInstanceOfSatisfying(Agreement.Agrees.class, o -> assertThat(o.difference()).isZero());
    List<Replicate> twentyFives = Collections.nCopies(16, new Replicate(25, 20));
    assertThat(ReplicateTolerance.judge(twentyFives)).isInstanceOf(Agreement.Agrees.class);
  }

  @Test
  void refusesLayoutsThatNoPublishedNumberHoldsFor() {
    List<Replicate> twoHundreds = List.of(new Replicate(200, 180), new Replicate(200, 181));
    assertThat(ReplicateTolerance.judge(twoHundreds))
        .isInstanceOfSatisfying(
            Agreement.NotTabulated.class,
            o -> assertThat(o.reason()).isEqualTo(new NoTable.UnevenReplicates(List.of(200, 200))));
    assertThat(ReplicateTolerance.judge(hundreds(90, 91, 92)))
        .isInstanceOfSatisfying(
            Agreement.NotTabulated.class,
            o -> assertThat(o.reason()).isEqualTo(new NoTable.NumberOfReplicates(3)));
    assertThat(ReplicateTolerance.judge(hundreds(100, 100, 100, 99)))
        .isInstanceOfSatisfying(
            Agreement.Agrees.class, o -> assertThat(o.difference()).isEqualTo(1));
  }

  /** Every pair and every four that the ends of the tables do not list is within the row there. */
  @Test
  void noTestBeyondTheEndsOfTheTablesCanBeOutOfTolerance() {
    for (int a = 0; a <= 100; a++) {
      for (int b = 0; b <= a; b++) {
        int mean = GerminationMean.wholePercent(hundreds(a, b));
        if (mean > 97 || mean < 4) {
          assertThat(ReplicateTolerance.judge(hundreds(a, b))).isInstanceOf(Agreement.Agrees.class);
        }
      }
    }
    assertThat(ReplicateTolerance.judge(hundreds(100, 100, 100, 98)))
        .isInstanceOf(Agreement.Agrees.class);
    assertThat(ReplicateTolerance.judge(hundreds(5, 0, 0, 0))).isInstanceOf(Agreement.Agrees.class);
  }

  private static List<Replicate> hundreds(int... normal) {
    return Arrays.stream(normal).mapToObj(n -> new Replicate(100, n)).toList();
  }
}
