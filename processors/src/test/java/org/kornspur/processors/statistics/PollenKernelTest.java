package org.kornspur.processors.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.kornspur.processors.PublishedChecks;

class PollenKernelTest {

  private final PublishedChecks checks = PublishedChecks.of("statistics");

  /** With exponents 2 and 3 the share within has a plain form. */
  @ParameterizedTest
  @ValueSource(doubles = {0, 1, 5, 20, 100, 500})
  void closedForms(double distanceM) {
    double x = distanceM / 30;
    assertThat(new PollenKernel(30, 2).shareWithin(distanceM))
        .isCloseTo(1 - 1 / Math.sqrt(1 + x * x), within(1e-12));
    assertThat(new PollenKernel(30, 3).shareWithin(distanceM))
        .isCloseTo(x * x / (1 + x * x), within(1e-12));
  }

  /** What a field sends is the integral of the density (1 + (r/a)^2)^(-(e+1)/2) over it, normed. */
  @ParameterizedTest
  @CsvSource({"1.5, 50, 100", "2, 300, 200", "2.5, 500, 20"})
  void agreesWithIntegrationOverTheRing(double exponent, double distanceM, double depthM) {
    PollenKernel kernel = new PollenKernel(10, exponent);
    double norm = (exponent - 1) / (2 * Math.PI * 100);
    int steps = 100_000;
    double sum = 0;
    for (int i = 0; i < steps; i++) {
      double r = distanceM + (i + 0.5) * depthM / steps;
      sum += r * norm * Math.pow(1 + r * r / 100, -(exponent + 1) / 2) * depthM / steps;
    }
    double frontageM = 80;
    double angle = 2 * Math.atan(frontageM / 2 / (distanceM + depthM / 2));
    assertThat(kernel.received(distanceM, depthM, frontageM))
        .isCloseTo(sum * angle, within(sum * angle * 1e-6));
  }

  /** A thin ring holds its circumference times its depth times the density there. */
  @ParameterizedTest
  @CsvSource({"1.5, 0.02, 20", "2, 0.6, 1", "2, 0.6, 300", "2.5, 10, 500"})
  void theDensityIsWhatAThinRingHolds(double exponent, double scaleM, double distanceM) {
    PollenKernel kernel = new PollenKernel(scaleM, exponent);
    double depthM = distanceM * 1e-4;
    double held =
        kernel.shareWithin(distanceM + depthM / 2) - kernel.shareWithin(distanceM - depthM / 2);
    assertThat(2 * Math.PI * distanceM * depthM * kernel.density(distanceM))
        .isCloseTo(held, within(held * 1e-5));
  }

  /** A small field far off is a point: its area times the density there. */
  @Test
  void aSmallFieldFarOffIsAPoint() {
    PollenKernel kernel = new PollenKernel(10, 2);
    double density = 1 / (2 * Math.PI * 100) * Math.pow(1 + 505.0 * 505 / 100, -1.5);
    assertThat(kernel.received(500, 10, 10)).isCloseTo(100 * density, within(density));
  }

  @Test
  void isCalibratedToTheTracerExperiment() {
    HybridityParameters parameters = HybridityParameters.published();
    double distanceM = parameters.kernelDistanceM().spread().likely();
    PollenKernel kernel =
        PollenKernel.calibrated(
            distanceM,
            parameters.kernelShareWithin().spread().likely(),
            parameters.kernelTailExponent().spread().likely());
    checks.close(
        "share of rye pollen within 20 m",
        0.97,
        kernel.shareWithin(20),
        1e-9,
        parameters.kernelDistanceM().source().text());
  }

  @Test
  void lessArrivesFromFartherAndFromSmallerFields() {
    PollenKernel kernel = PollenKernel.calibrated(20, 0.97, 2);
    assertThat(kernel.received(300, 200, 200)).isGreaterThan(kernel.received(500, 200, 200));
    assertThat(kernel.received(300, 200, 200)).isGreaterThan(kernel.received(300, 50, 200));
    assertThat(kernel.received(300, 200, 200)).isGreaterThan(kernel.received(300, 200, 50));
    assertThat(kernel.received(300, 200, 200)).isLessThan(0.01);
  }
}
