package org.kornspur.processors.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.kornspur.contract.ShareBasis;
import org.kornspur.processors.statistics.PollinatorShare.Part;

class BlendShareTest {

  /**
   * By hand: 950 kg of 25 g are 38,000,000 kernels, 90 % viable 34,200,000; 50 kg of 40 g are
   * 1,250,000 kernels, 80 % viable 1,000,000.
   */
  private static final Part FEMALE = part(false, 950, 25, 0.90);

  private static final Part POLLINATOR = part(true, 50, 40, 0.80);

  @Test
  void countsMassKernelsAndViableKernels() {
    List<Part> blend = List.of(FEMALE, POLLINATOR);
    assertThat(PollinatorShare.of(blend, ShareBasis.MASS).share()).isCloseTo(0.05, within(1e-12));
    assertThat(PollinatorShare.of(blend, ShareBasis.KERNELS).share())
        .isCloseTo(1_250_000 / 39_250_000.0, within(1e-12));
    assertThat(PollinatorShare.of(blend, ShareBasis.VIABLE_KERNELS).share())
        .isCloseTo(1_000_000 / 35_200_000.0, within(1e-12));
  }

  /**
   * By hand: with 950 kg and 50 kg the share is 0.05, and one measurement of the pollinator's
   * kernel weight that errs by 2.38 % moves it by 0.05 x 0.95 x 0.0238 = 0.00113. Counted as two,
   * for two portions, it would come to 0.00080.
   */
  @Test
  void oneMeasurementUsedTwiceErrsOnce() {
    Estimate weight = new Estimate(30, 30 * 0.0238, "test of the pollinator");
    Estimate sure = Estimate.exact(1);
    Estimate femaleWeight = Estimate.exact(30);
    Part female = new Part(false, Estimate.exact(950), femaleWeight, sure);
    PollinatorShare inOne =
        PollinatorShare.of(
            List.of(female, new Part(true, Estimate.exact(50), weight, sure)), ShareBasis.KERNELS);
    PollinatorShare inTwo =
        PollinatorShare.of(
            List.of(
                female,
                new Part(true, Estimate.exact(25), weight, sure),
                new Part(true, Estimate.exact(25), weight, sure)),
            ShareBasis.KERNELS);
    assertThat(inOne.standardError()).isCloseTo(0.00113, within(0.000005));
    assertThat(inTwo.standardError()).isCloseTo(inOne.standardError(), within(1e-15));
  }

  /** The delta method against a seeded simulation of the same four lots. */
  @Test
  void errorAndIntervalAgreeWithSimulation() {
    List<Part> parts =
        List.of(
            uncertain(false, 600, 4, 25, 0.3, 376, 400),
            uncertain(false, 350, 3, 27, 0.4, 360, 400),
            uncertain(true, 30, 1, 38, 0.6, 340, 400),
            uncertain(true, 20, 1, 33, 0.5, 352, 400));
    PollinatorShare share = PollinatorShare.of(parts, ShareBasis.VIABLE_KERNELS);
    Interval interval = share.interval(0.95);
    Random random = new Random(20261125);
    int runs = 200_000;
    double sum = 0;
    double squares = 0;
    int inside = 0;
    for (int run = 0; run < runs; run++) {
      double female = 0;
      double pollinator = 0;
      for (Part part : parts) {
        double drawn =
            drawn(part.massKg(), random)
                / drawn(part.thousandKernelWeightG(), random)
                * drawn(part.germination(), random);
        if (part.pollinator()) {
          pollinator += drawn;
        } else {
          female += drawn;
        }
      }
      double simulated = pollinator / (pollinator + female);
      sum += simulated;
      squares += simulated * simulated;
      inside += interval.contains(simulated) ? 1 : 0;
    }
    double mean = sum / runs;
    double deviation = Math.sqrt(squares / runs - mean * mean);
    assertThat(share.share()).isCloseTo(mean, within(mean * 0.002));
    assertThat(share.standardError()).isCloseTo(deviation, within(deviation * 0.02));
    assertThat((double) inside / runs).isCloseTo(0.95, within(0.005));
  }

  @Test
  void morePollinatorIsALargerShare() {
    double before = 0;
    for (double massKg = 5; massKg < 200; massKg += 5) {
      PollinatorShare share =
          PollinatorShare.of(
              List.of(FEMALE, part(true, massKg, 40, 0.8)), ShareBasis.VIABLE_KERNELS);
      assertThat(share.share()).isGreaterThan(before);
      assertThat(share.interval(0.95).contains(share.share())).isTrue();
      before = share.share();
    }
  }

  @Test
  void aMixtureOfOneComponentIsExact() {
    assertThat(PollinatorShare.of(List.of(FEMALE), ShareBasis.KERNELS).interval(0.95).upper())
        .isZero();
    assertThatThrownBy(() -> PollinatorShare.of(List.of(), ShareBasis.KERNELS))
        .isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> part(true, 10, 30, 1.2)).hasMessageContaining("germination");
  }

  private static Part part(boolean pollinator, double massKg, double weightG, double germination) {
    return new Part(
        pollinator, Estimate.exact(massKg), Estimate.exact(weightG), Estimate.exact(germination));
  }

  private static Part uncertain(
      boolean pollinator,
      double massKg,
      double massError,
      double weightG,
      double weightError,
      int normalSeedlings,
      int seeds) {
    return new Part(
        pollinator,
        new Estimate(massKg, massError),
        new Estimate(weightG, weightError),
        germination(normalSeedlings, seeds));
  }

  /** With its binomial error. */
  private static Estimate germination(int normalSeedlings, int seeds) {
    double share = (double) normalSeedlings / seeds;
    return new Estimate(share, Math.sqrt(share * (1 - share) / seeds));
  }

  private static double drawn(Estimate estimate, Random random) {
    return estimate.value() + estimate.standardError() * random.nextGaussian();
  }
}
