package org.kornspur.processors.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;
import org.kornspur.processors.PublishedChecks;

class DispersionTest {
  private static final String QCC =
      "documentation of the R package qcc, function qccOverdispersionTest, with its output";

  private final PublishedChecks checks = PublishedChecks.of("statistics");

  /** Counts of 50 each; data of Wetherill and Brown (1991). */
  @Test
  void exampleOfShares() {
    int[] found = {
      12, 11, 18, 11, 10, 16, 9, 11, 14, 15, 11, 9, 10, 13, 12, 8, 12, 13, 10, 12, 13, 16, 12, 18,
      16, 10, 16, 10, 12, 14
    };
    int[] examined = new int[found.length];
    Arrays.fill(examined, 50);
    Dispersion dispersion = Dispersion.ofShares(found, examined);
    checks.close("chi-squared of shares", 22.16924, dispersion.chiSquared(), 5e-6, QCC);
    checks.close("spread of shares by chance", 0.7644566, dispersion.chiSquared() / 29, 5e-8, QCC);
    checks.close("probability of shares", 0.81311, dispersion.probability(), 5e-6, QCC);
    assertThat(dispersion.factor()).as("never below 1").isEqualTo(1);
    assertThat(dispersion.interval(0.95)).isEqualTo(ExactBinomial.interval(374, 1500, 0.95));
  }

  @Test
  void exampleOfCounts() {
    int[] found = {
      11, 8, 13, 11, 13, 17, 25, 23, 11, 16, 9, 15, 10, 16, 12, 8, 9, 15, 4, 12, 12, 12, 15, 17, 14,
      17, 12, 12, 7, 16
    };
    double[] exposure = new double[found.length];
    Arrays.fill(exposure, 1);
    Dispersion dispersion = Dispersion.ofRates(found, exposure);
    checks.close("chi-squared of counts", 42.69388, dispersion.chiSquared(), 5e-6, QCC);
    checks.close("spread of counts by chance", 1.472203, dispersion.factor(), 5e-7, QCC);
    checks.close("probability of counts", 0.048579, dispersion.probability(), 5e-7, QCC);
    assertThat(dispersion.isSimulated()).isFalse();
  }

  /** By hand: both ways of 5 in one of two halves of 40 are 2 x C(20, 5) / C(40, 5). */
  @Test
  void fewExpectedAreSimulatedAsTheExactTestHasThem() {
    Dispersion dispersion = Dispersion.ofShares(new int[] {0, 5}, new int[] {20, 20});
    assertThat(dispersion.isSimulated()).isTrue();
    assertThat(dispersion.probability()).isCloseTo(2 * 15504 / 658008.0, within(0.015));
    assertThat(dispersion.probability()).isEqualTo(dispersion.probability());
    Dispersion mostly = Dispersion.ofShares(new int[] {20, 15}, new int[] {20, 20});
    assertThat(mostly.probability()).isEqualTo(dispersion.probability());
  }

  /** By hand: all 6 in one of three equal areas have 3 / 3^6. */
  @Test
  void fewExpectedOnAreasAreSimulated() {
    Dispersion dispersion = Dispersion.ofRates(new int[] {6, 0, 0}, new double[] {50, 50, 50});
    assertThat(dispersion.probability()).isCloseTo(3 / 729.0, within(0.004));
  }

  @Property(tries = 300)
  void theIntervalIsNeverNarrower(
      @ForAll @IntRange(min = 0, max = 200) int found,
      @ForAll @DoubleRange(min = 1, max = 20) double factor) {
    Interval share = ExactBinomial.interval(found, 200, 0.95);
    Interval wider = Dispersion.share(found, 200, factor, 0.95);
    assertThat(wider.lower()).isLessThanOrEqualTo(share.lower() + 1e-9);
    assertThat(wider.upper()).isGreaterThanOrEqualTo(share.upper() - 1e-9);
    Interval rate = ExactPoisson.interval(found, 150, 0.95);
    Interval widerRate = Dispersion.rate(found, 150, factor, 0.95);
    assertThat(widerRate.lower()).isLessThanOrEqualTo(rate.lower() + 1e-9);
    assertThat(widerRate.upper()).isGreaterThanOrEqualTo(rate.upper() - 1e-9);
  }

  @Test
  void whereNothingIsFoundNothingDiffers() {
    Dispersion none = Dispersion.ofShares(new int[] {0, 0}, new int[] {100, 50});
    assertThat(none.probability()).isEqualTo(1);
    assertThat(none.factor()).isEqualTo(1);
    Dispersion all = Dispersion.ofShares(new int[] {100, 50}, new int[] {100, 50});
    assertThat(all.probability()).isEqualTo(1);
    assertThatThrownBy(() -> Dispersion.ofShares(new int[] {1}, new int[] {2}))
        .hasMessageContaining("Two samples or more");
  }
}
