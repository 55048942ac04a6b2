package org.kornspur.processors.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.kornspur.processors.statistics.ExpectedHybridity.Crop;
import org.kornspur.processors.statistics.ExpectedHybridity.ForeignSource;
import org.kornspur.processors.statistics.HybridityParameters.Parameter;

class ExpectedHybridityTest {

  private static final HybridityParameters PUBLISHED = HybridityParameters.published();

  /** All parameters exact and a count so large that the beta distribution is a point. */
  private static final HybridityParameters EXACT =
      new HybridityParameters(exactly(0.5), exactly(0.8), exactly(2), exactly(20), exactly(0.97));

  private static final TriangularRange FULL = TriangularRange.exactly(1);

  @Test
  void withoutUncertaintyTheForecastIsTheFormula() {
    ForeignSource source =
        new ForeignSource(
            new SourceExtent.Facing(100, 200, 300, 1), 2, TriangularRange.exactly(0.5));
    Crop crop =
        new Crop(
            2_000_000,
            200_000_000,
            TriangularRange.exactly(0.05),
            TriangularRange.exactly(0.9),
            true,
            List.of(source));
    double wanted = 0.05 * 0.9;
    double shed = 0.95 * 0.01 * 0.5;
    double foreign = PollenKernel.calibrated(20, 0.97, 2).received(100, 200, 300) * 2 * 0.5;
    double borne = 0.05 * 0.8;
    double female = 1 - borne / (borne + 0.95);
    ExpectedHybridity forecast = ExpectedHybridity.forecast(crop, EXACT, 200, 1, 0.95);
    assertThat(forecast.mean())
        .isCloseTo(female * wanted / (wanted + shed + foreign), within(1e-4));
    assertThat(forecast.selfedOrSibbed())
        .isCloseTo(female * shed / (wanted + shed + foreign), within(1e-4));
    assertThat(forecast.pollinatorSeed()).isCloseTo(1 - female, within(1e-12));
    assertThat(
            forecast.mean()
                + forecast.selfedOrSibbed()
                + forecast.outcrossed()
                + forecast.pollinatorSeed())
        .isCloseTo(1, within(1e-12));
  }

  /** By hand: what lies on the crop counts whole, the rest by area and density. */
  @Test
  void aSourceByDistanceIsTheSumOfItsParts() {
    PollenKernel kernel = PollenKernel.calibrated(20, 0.97, 2);
    SourceExtent extent =
        new SourceExtent.ByDistance(
            0.01, List.of(new SourceExtent.Part(300, 40_000), new SourceExtent.Part(600, 10_000)));
    assertThat(extent.received(kernel))
        .isCloseTo(
            0.01 + 40_000 * kernel.density(300) + 10_000 * kernel.density(600), within(1e-15));
  }

  @Test
  void theSameSeedGivesTheSameAnswer() {
    Crop crop = crop(3, 1000, 500);
    ExpectedHybridity first = ExpectedHybridity.forecast(crop, PUBLISHED, 2000, 42, 0.95);
    assertThat(ExpectedHybridity.forecast(crop, PUBLISHED, 2000, 42, 0.95)).isEqualTo(first);
    assertThat(ExpectedHybridity.forecast(crop, PUBLISHED, 2000, 43, 0.95)).isNotEqualTo(first);
    assertThat(first.interval().contains(first.mean())).isTrue();
  }

  /** Two seeds differ by no more than the simulation's own error. */
  @Test
  void seedsAgreeWithinTheSimulationError() {
    Crop crop = crop(3, 1000, 500);
    ExpectedHybridity one = ExpectedHybridity.forecast(crop, PUBLISHED, 20_000, 1, 0.95);
    ExpectedHybridity two = ExpectedHybridity.forecast(crop, PUBLISHED, 20_000, 2, 0.95);
    double width = one.interval().upper() - one.interval().lower();
    assertThat(one.mean()).isCloseTo(two.mean(), within(width / 50));
    assertThat(one.interval().lower()).isCloseTo(two.interval().lower(), within(width / 15));
  }

  @Test
  void moreSheddersNearerFieldsAndLessPollinatorNeverHelp() {
    double before = 1;
    for (int shedders : new int[] {0, 5, 10, 20, 50, 100}) {
      double mean = forecast(crop(shedders, 1000, 500)).mean();
      assertThat(mean).isLessThan(before);
      before = mean;
    }
    before = 0;
    for (double distanceM : new double[] {20, 50, 100, 300, 1000}) {
      double mean = forecast(crop(3, 1000, distanceM)).mean();
      assertThat(mean).isGreaterThan(before);
      before = mean;
    }
    Crop overlapping =
        new Crop(3, 1000, TriangularRange.exactly(0.05), FULL, false, List.of(neighbour(500)));
    Crop missing =
        new Crop(
            3,
            1000,
            TriangularRange.exactly(0.05),
            TriangularRange.exactly(0.4),
            false,
            List.of(neighbour(500)));
    assertThat(forecast(missing).mean()).isLessThan(forecast(overlapping).mean());
  }

  @Test
  void moreFemalesExaminedNarrowTheInterval() {
    Interval few = forecast(crop(2, 200, 500)).interval();
    Interval many = forecast(crop(200, 20_000, 500)).interval();
    assertThat(many.upper() - many.lower()).isLessThan(few.upper() - few.lower());
  }

  @Test
  void triangularDrawsHaveTheKnownMean() {
    TriangularRange spread = new TriangularRange(0.2, 0.5, 1.1);
    double sum = 0;
    for (int i = 0; i < 100_000; i++) {
      sum += spread.quantile((i + 0.5) / 100_000);
    }
    assertThat(sum / 100_000).isCloseTo((0.2 + 0.5 + 1.1) / 3, within(1e-5));
  }

  @Test
  void everyParameterNamesWhereItComesFrom() {
    assertThat(PUBLISHED.kernelDistanceM().source().verified()).isTrue();
    assertThat(PUBLISHED.shedderPollen().source().text())
        .isEqualTo(
            "Assumption without a source, to be replaced by results of marker tests as they come");
  }

  @Test
  void refusesTooFewRuns() {
    assertThatThrownBy(() -> ExpectedHybridity.forecast(crop(1, 100, 500), PUBLISHED, 10, 1, 0.95))
        .hasMessageContaining("at least 100 runs; the number given is 10");
  }

  private static ExpectedHybridity forecast(Crop crop) {
    return ExpectedHybridity.forecast(crop, PUBLISHED, 4000, 7, 0.95);
  }

  private static Crop crop(int shedders, int examined, double distanceM) {
    return new Crop(
        shedders,
        examined,
        new TriangularRange(0.04, 0.05, 0.06),
        new TriangularRange(0.7, 0.9, 1),
        false,
        List.of(neighbour(distanceM)));
  }

  private static ForeignSource neighbour(double distanceM) {
    return new ForeignSource(
        new SourceExtent.Facing(distanceM, 200, 300, 1), 1, new TriangularRange(0.5, 0.8, 1));
  }

  private static Parameter exactly(double value) {
    return new Parameter(TriangularRange.exactly(value), new Source("set by the test", true));
  }
}
