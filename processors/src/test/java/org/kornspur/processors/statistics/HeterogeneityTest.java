package org.kornspur.processors.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Arrays;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.processors.PublishedChecks;
import org.kornspur.processors.statistics.Heterogeneity.Attribute;

class HeterogeneityTest {

  private static final String CHAPTER = "worked example in a reprinted chapter on seed testing";

  private final PublishedChecks checks = PublishedChecks.of("statistics");

  @Test
  void workedExampleOfPurity() {
    double[] purity = {
      99.4, 99.9, 99.6, 98.7, 99.5, 99.6, 98.9, 98.9, 99.0, 99.3, 98.5, 99.4, 99.6, 99.5, 99.1,
      98.2, 99.2, 99.9, 99.8, 99.5
    };
    Heterogeneity lot = Heterogeneity.ofPercentages(1000, 1.2, purity);
    checks.close("H value, purity: mean", 99.275, lot.mean(), 1e-9, CHAPTER);
    checks.close("H value, purity: W", 0.0864, lot.acceptableVariance(), 0.00005, CHAPTER);
    checks.close("H value, purity: V", 0.2125, lot.observedVariance(), 0.00005, CHAPTER);
    checks.close("H value, purity: H", 1.26, lot.h(), 0.005, CHAPTER);
    checks.close("H value, purity: critical", 1.09, lot.critical(), 1e-9, CHAPTER);
    assertThat(lot.heterogeneous()).isTrue();
  }

  @Test
  void workedExampleOfOtherSeeds() {
    double[] counts = {5, 8, 10, 20, 25, 9, 10, 11, 18, 16, 19, 22, 4, 13, 20, 30, 27, 12, 15, 18};
    Heterogeneity lot = Heterogeneity.of(Attribute.OTHER_SEEDS, counts);
    checks.close("H value, other seeds: mean", 15.6, lot.mean(), 1e-9, CHAPTER);
    checks.close("H value, other seeds: W", 21.84, lot.acceptableVariance(), 0.005, CHAPTER);
    checks.close("H value, other seeds: V", 51.621, lot.observedVariance(), 0.0005, CHAPTER);
    checks.close("H value, other seeds: H", 0.964, lot.h(), 0.0006, CHAPTER);
    assertThat(lot.heterogeneous()).isFalse();
  }

  /**
   * Cells from memory: samples, then f = 1.1, 1.2, 1.4 and 2.2; but for a unit of the last digit.
   */
  @ParameterizedTest
  @CsvSource({
    "5, 2.55, 2.78, 3.25, 5.10", "6, 2.22, 2.42, 2.83, 4.44", "7, 1.98, 2.17, 2.52, 3.98",
    "8, 1.80, 1.97, 2.30, 3.61", "9, 1.66, 1.81, 2.11, 3.32", "10, 1.55, 1.69, 1.97, 3.10",
    "20, 0.99, 1.09, 1.26, 2.00"
  })
  void criticalValues(int samples, double f11, double f12, double f14, double f22) {
    double[] factors = {1.1, 1.2, 1.4, 2.2};
    double[] cells = {f11, f12, f14, f22};
    for (int i = 0; i < cells.length; i++) {
      checks.close(
          "critical H, %d samples, f = %s".formatted(samples, factors[i]),
          cells[i],
          Heterogeneity.critical(samples, factors[i]),
          0.021,
          "International Rules for Seed Testing, table 2D (from memory, not verified)");
    }
  }

  @Test
  void aMixedLotHasNoHeterogeneity() {
    double[] same = new double[10];
    Arrays.fill(same, 98.5);
    assertThat(Heterogeneity.of(Attribute.PURITY, same).h()).isZero();
    assertThat(Heterogeneity.of(Attribute.PURITY, same).heterogeneous()).isFalse();
  }

  @Test
  void oneContainerFarOffMakesTheLotHeterogeneous() {
    double[] counts = {92, 93, 91, 92, 94, 93, 92, 91, 93, 60};
    assertThat(Heterogeneity.of(Attribute.GERMINATION, counts).heterogeneous()).isTrue();
  }

  @Test
  void refusesWhatCannotBeCompared() {
    assertThatThrownBy(() -> Heterogeneity.of(Attribute.PURITY, 98))
        .hasMessageContaining("at least two containers; there are 1");
    assertThatThrownBy(() -> Heterogeneity.of(Attribute.PURITY, 100, 100))
        .hasMessageContaining("all 0 or all 100 %");
    assertThatThrownBy(() -> Heterogeneity.of(Attribute.OTHER_SEEDS, 0, 0))
        .isInstanceOf(IllegalArgumentException.class);
    assertThat(Attribute.PURITY.testable(99.9)).isFalse();
    assertThat(Attribute.GERMINATION.testable(92)).isTrue();
  }
}
