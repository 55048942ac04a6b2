package org.kornspur.processors.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.processors.PublishedChecks;

class ExactPoissonTest {

  private final PublishedChecks checks = PublishedChecks.of("statistics");

  /** 95 % limits as tables of the Poisson mean print them (from memory, not verified). */
  @ParameterizedTest
  @CsvSource({
    "0, 0.000, 3.689",
    "1, 0.025, 5.572",
    "2, 0.242, 7.225",
    "3, 0.619, 8.767",
    "5, 1.623, 11.668",
    "10, 4.795, 18.390"
  })
  void agreesWithThePrintedLimits(int count, double lower, double upper) {
    Interval ours = ExactPoisson.interval(count, 1, 0.95);
    String source = "limits of a Poisson mean as printed in textbooks (from memory, not verified)";
    checks.close("Poisson count " + count + ", lower", lower, ours.lower(), 0.0006, source);
    checks.close("Poisson count " + count + ", upper", upper, ours.upper(), 0.0006, source);
  }

  @Test
  void ratesScaleWithWhatWasLookedThrough() {
    Interval by150 = ExactPoisson.interval(5, 150, 0.95);
    assertThat(by150.contains(5 / 150.0)).isTrue();
    assertThat(by150.upper()).isCloseTo(11.668 / 150, within(1e-5));
  }

  @ParameterizedTest
  @CsvSource({"0.5", "2", "6", "20", "60"})
  void probabilitiesAddUp(double mean) {
    for (int count : new int[] {0, 1, 2, 5, 20, 80}) {
      assertThat(ExactPoisson.atMost(count, mean)).isCloseTo(summed(count, mean), within(1e-12));
    }
  }

  @Test
  void refusesAnAreaThatIsNotAboveZero() {
    assertThatThrownBy(() -> ExactPoisson.interval(1, 0, 0.95))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("exposure must be above 0");
  }

  private static double summed(int count, double mean) {
    double term = Math.exp(-mean);
    double sum = term;
    for (int k = 1; k <= count; k++) {
      term *= mean / k;
      sum += term;
    }
    return sum;
  }
}
