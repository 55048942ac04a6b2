package org.kornspur.processors.gates;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.contract.Category;
import org.kornspur.contract.PostControlMethod;
import org.kornspur.contract.PostControlResult;
import org.kornspur.contract.ShareBasis;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.MarkerFinding;
import org.kornspur.processors.fixture.Dossiers;
import org.kornspur.processors.fixture.Facts;

/** A marker test speaks for a lot only as far as the errors of its method allow. */
class MarkerErrorsTest {
  private static final List<String> WORST_FIRST = List.of("NOT_MET", "OWED", "MET");

  @ParameterizedTest(name = "{0} % and {1} %, {2} of 2,000: {3}")
  @CsvSource(
      textBlock =
          """
          # the standard is 99.7 %: from 11 of 2,000 on it is rejected, as in a control plot
          ,    ,   0,  OWED
          ,    ,   10, OWED
          ,    ,   11, NOT_MET
          0,   ,   10, OWED
          0,   0,  10, MET
          0,   0,  11, NOT_MET
          0.1, 0.5, 5, MET
          # 30 % are missed: of 0.3 % just 0.21 % are called, 4.2 plants; P(X >= 9) is 2.8 % and
          # P(X >= 8) is 6.4 % (Poisson, by hand)
          0,   30, 8,  MET
          0,   30, 9,  NOT_MET
          # what a method makes up excuses nothing
          0.2, 0,  11, NOT_MET
          # its errors alone reach the standard, or it tells nothing
          0.3, 0,  0,  OWED
          0.3, 0,  11, NOT_MET
          60,  40, 0,  OWED
          60,  40, 11, NOT_MET
          """)
  void offTypes(Double falsePositive, Double falseNegative, int found, String expected) {
    Judged judged = judged(marker(2000, found, falsePositive, falseNegative));
    assertThat(judged.state("off-types, marker test P-l1")).isEqualTo(expected);
    judged.row(
        "marker test, %s %% and %s %%, %d of 2000".formatted(falsePositive, falseNegative, found),
        expected,
        judged.state("off-types, marker test P-l1"));
  }

  @Test
  void asksForWhatIsMissing() {
    judged(marker(2000, 3, null, null))
        .found(new MarkerFinding.NoErrorRates())
        .asksFor(new Evidence.ErrorRatesOfMethod());
    judged(marker(2000, 3, 0.5, 0.0))
        .found(
            new MarkerFinding.LimitWithinErrors(
                Amount.percent(0.5), Amount.percent(100 * ((100 - 99.7) / 100))))
        .asksFor(new Evidence.CountByOtherMethod());
    judged(marker(2000, 3, 70.0, 30.0))
        .found(new MarkerFinding.TellsNothing(Amount.percent(70), Amount.percent(30)))
        .asksFor(new Evidence.CountByOtherMethod());
    judged(marker(50, 0, null, null))
        .asksFor(
            new Evidence.LargerCount(new Amount(1000, "plants")),
            new Evidence.ErrorRatesOfMethod());
  }

  /** Of 1,000 plants a method that misses 99 % has looked at 10; 1,000 are asked for. */
  @ParameterizedTest(name = "{0} plants, {1} % missed: {2}")
  @CsvSource({"1000, 99, OWED", "1999, 50, OWED", "2000, 50, MET", "1000, 0, MET"})
  void plantsThatTheMethodMissesWereNotLookedAt(int plants, double falseNegative, String expected) {
    Judged judged = judged(marker(plants, 0, 0.0, falseNegative));
    assertThat(judged.worst()).isEqualTo(expected);
    if (expected.equals("OWED")) {
      judged.asksFor(new Evidence.LargerCount(new Amount(1000, "plants")));
    }
    judged.row(
        "marker test, %d plants, %s %% missed".formatted(plants, falseNegative),
        expected,
        judged.worst());
  }

  @Test
  void aTestThatMissesTooMuchMakesNoSmallPlotGood() {
    Judged judged =
        Judged.by(
            "EU",
            new PostControlGate(),
            lot()
                .with(marker(1000, 0, 0.0, 99.0), Facts.postControl("l1", 100, 0).id("plot"))
                .dossier());
    assertThat(judged.worst()).isEqualTo("OWED");
  }

  @Test
  void aGoodPlotBesideItOwesNothing() {
    Judged judged =
        Judged.by(
            "EU",
            new PostControlGate(),
            lot()
                .with(
                    marker(2000, 3, null, null),
                    Facts.postControl("l1", 2000, 3)
                        .id("plot")
                        .with(result -> result.setStatedPurityPercent(99.7)))
                .dossier());
    assertThat(judged.worst()).isEqualTo("MET");
  }

  /** Of the same count no rates, stated or not, make more than a plot would. */
  @Property(tries = 300)
  void ratesNeverMakeALotBetter(
      @ForAll @IntRange(min = 0, max = 20) int found,
      @ForAll @DoubleRange(min = 0, max = 60) double falsePositive,
      @ForAll @DoubleRange(min = 0, max = 60) double falseNegative) {
    int asPlot =
        rank(
            Facts.postControl("l1", 2000, found)
                .with(result -> result.setStatedPurityPercent(99.7)));
    int without = rank(marker(2000, found, null, null));
    assertThat(rank(marker(2000, found, falsePositive, falseNegative))).isLessThanOrEqualTo(asPlot);
    assertThat(without).isLessThanOrEqualTo(asPlot);
    assertThat(without).isLessThan(WORST_FIRST.indexOf("MET"));
  }

  @ParameterizedTest(name = "{0} % and {1} %, {2} of 2,000 kernels: {3}")
  @CsvSource(
      textBlock =
          """
          # the breeder's 5 % with a tolerance of 1 point; 100 of 2,000 is 4.1 to 6.0 %
          ,    ,    100, OWED
          ,    ,    160, NOT_MET
          ,    ,    2,   NOT_MET
          0.1, 0.5, 100, MET
          # a fifth is missed: 6.25 % (5.1 to 7.6 %); two fifths: 8.3 % (6.8 to 10.1 %)
          0,   20,  100, OWED
          0,   40,  100, NOT_MET
          # what a method makes up excuses nothing
          3,   0,   160, NOT_MET
          # its errors alone reach the upper end of the ratio
          6.5, 0,   100, OWED
          60,  40,  100, OWED
          """)
  void shareOfPollinator(
      Double falsePositive, Double falseNegative, int pollinator, String expected) {
    Judged judged =
        Judged.by(
            "EU",
            new BlendShareGate(),
            Dossiers.lot("mix")
                .with(
                    Facts.blend("mix").female("f", 956).pollinator("p", 44),
                    Facts.composition("mix", 2000, pollinator)
                        .id("k1")
                        .with(
                            sample ->
                                sample
                                    .setFalsePositivePercent(falsePositive)
                                    .setFalseNegativePercent(falseNegative)))
                .scheme(Facts.hybrid().with(hybrid -> hybrid.setShareBasis(ShareBasis.KERNELS)))
                .parent("f", Dossiers.component(Facts.SINGLE_CROSS, Category.BASIC), 32, 92)
                .parent("p", Dossiers.component(Facts.RESTORER, Category.BASIC), 28, 85)
                .dossier());
    assertThat(judged.state("sample sample of mix, fact k1")).isEqualTo(expected);
    judged.row(
        "marker test of kernels, %s %% and %s %%, %d of 2000"
            .formatted(falsePositive, falseNegative, pollinator),
        expected,
        expected);
  }

  private static int rank(Facts.Plain<PostControlResult.Builder> result) {
    return WORST_FIRST.indexOf(judged(result).worst());
  }

  private static Judged judged(Facts.Plain<PostControlResult.Builder> result) {
    return Judged.by("EU", new PostControlGate(), lot().with(result).dossier());
  }

  private static Dossiers lot() {
    return Dossiers.lot("l1")
        .scheme()
        .with(Facts.declared("l1", Facts.RESTORER, Category.BASIC, 1000));
  }

  private static Facts.Plain<PostControlResult.Builder> marker(
      int plants, int found, Double falsePositive, Double falseNegative) {
    return Facts.postControl("l1", plants, found)
        .with(
            result ->
                result
                    .setMethod(PostControlMethod.MARKER)
                    .setStatedPurityPercent(99.7)
                    .setFalsePositivePercent(falsePositive)
                    .setFalseNegativePercent(falseNegative));
  }
}
