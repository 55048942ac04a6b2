package org.kornspur.processors.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;
import org.kornspur.processors.PublishedChecks;

class MarkerCorrectionTest {
  /** The documentation was read; it takes the examples from published surveys. */
  private static final String EPI_R =
      "documentation of the R package epiR, function epi.prev, worked examples";

  private final PublishedChecks checks = PublishedChecks.of("statistics");

  /** 23 of 150 by a test of 96 % sensitivity and 89 % specificity: 5.1 per 100, 0 to 13. */
  @Test
  void workedExampleOfAHerd() {
    MarkerCorrection method = new MarkerCorrection(1 - 0.89, 1 - 0.96);
    checks.close(
        "true share, 23 of 150, in 100", 5.1, 100 * method.trueShare(23.0 / 150), 0.05, EPI_R);
    // the documentation uses Blaker's interval here; to whole numbers both are the same
    Interval interval = method.trueShare(23, 150, 0.95).interval();
    checks.close("true share, 23 of 150, lower end", 0, 100 * interval.lower(), 0.5, EPI_R);
    checks.close("true share, 23 of 150, upper end", 13, 100 * interval.upper(), 0.5, EPI_R);
  }

  /** 6 of 151 at 96.4 % and 92.7 %, Clopper-Pearson: 0 per 100, 0 to 1.3. */
  @Test
  void workedExampleOfASurvey() {
    MarkerCorrection method = new MarkerCorrection(1 - 0.927, 1 - 0.964);
    checks.close("true share, 6 of 151, in 100", 0, 100 * method.trueShare(6.0 / 151), 1e-9, EPI_R);
    Interval interval = method.trueShare(6, 151, 0.95).interval();
    checks.close("true share, 6 of 151, lower end", 0, 100 * interval.lower(), 1e-9, EPI_R);
    checks.close("true share, 6 of 151, upper end", 1.3, 100 * interval.upper(), 0.05, EPI_R);
  }

  @Property(tries = 500)
  void theTrueShareIsFoundAgain(
      @ForAll @DoubleRange(min = 0, max = 1) double share,
      @ForAll @DoubleRange(min = 0, max = 0.45) double falsePositive,
      @ForAll @DoubleRange(min = 0, max = 0.45) double falseNegative) {
    MarkerCorrection method = new MarkerCorrection(falsePositive, falseNegative);
    assertThat(method.trueShare(method.apparent(share))).isCloseTo(share, within(1e-9));
  }

  @Test
  void aMethodWithoutErrorsChangesNothing() {
    Interval counted = ExactBinomial.interval(34, 480, 0.95);
    assertThat(MarkerCorrection.NONE.trueShare(34, 480, 0.95).interval()).isEqualTo(counted);
    assertThat(MarkerCorrection.NONE.apparent(0.003)).isEqualTo(0.003);
    assertThat(MarkerCorrection.NONE.canTell(0)).isTrue();
  }

  @Test
  void aMethodThatErrsTooOftenTellsNothing() {
    MarkerCorrection blind = new MarkerCorrection(0.6, 0.4);
    assertThat(blind.separates()).isFalse();
    assertThat(blind.canTell(0.9)).isFalse();
    assertThatThrownBy(() -> blind.trueShare(0.5)).hasMessageContaining("tells nothing");
    assertThat(new MarkerCorrection(0.003, 0).canTell(0.003)).isFalse();
    assertThat(new MarkerCorrection(0.002, 0.3).canTell(0.003)).isTrue();
    assertThatThrownBy(() -> new MarkerCorrection(1.5, 0)).hasMessageContaining("1.5");
  }

  /** What is expected of the sum of two counts is expected by the rates put together. */
  @Test
  void countsByTwoMethodsArePutTogether() {
    MarkerCorrection first = new MarkerCorrection(0.02, 0.1);
    MarkerCorrection second = new MarkerCorrection(0.005, 0.04);
    MarkerCorrection both =
        MarkerCorrection.together(
            List.of(
                new MarkerCorrection.Counted(100, first),
                new MarkerCorrection.Counted(300, second)));
    double expected = 100 * first.apparent(0.07) + 300 * second.apparent(0.07);
    assertThat(400 * both.apparent(0.07)).isCloseTo(expected, within(1e-9));
  }
}
