package org.kornspur.processors.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;

class SamplingPlanTest {

  /** 20 plants with one off-type allowed, as UPOV guidelines for 1 % have it, by closed form. */
  @Test
  void risksOfTwentyPlantsWithOneOffType() {
    SamplingPlan plan = forStandard(20, 0.01, 0.95);
    assertThat(plan.acceptanceNumber()).isEqualTo(1);
    double accepted = Math.pow(0.99, 20) + 20 * 0.01 * Math.pow(0.99, 19);
    assertThat(plan.producersRisk(0.01)).isCloseTo(1 - accepted, within(1e-12));
    double atTen = Math.pow(0.9, 20) + 20 * 0.1 * Math.pow(0.9, 19);
    assertThat(plan.consumersRisk(0.10)).isCloseTo(atTen, within(1e-12));
  }

  @Property(tries = 100)
  void worseMaterialIsAcceptedLessOften(
      @ForAll @IntRange(min = 5, max = 500) int examined,
      @ForAll @IntRange(min = 1, max = 98) int percent) {
    SamplingPlan plan = forStandard(examined, 0.02, 0.95);
    assertThat(plan.acceptanceProbability((percent + 1) / 100.0))
        .isLessThanOrEqualTo(plan.acceptanceProbability(percent / 100.0));
  }

  private static SamplingPlan forStandard(int examined, double standard, double acceptance) {
    return new SamplingPlan(
        examined, ExactBinomial.acceptanceNumber(examined, standard, acceptance));
  }
}
