package org.kornspur.processors.advice;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Collections;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.kornspur.processors.statistics.ExactBinomial;
import org.kornspur.processors.statistics.Interval;

/** Numbers are invented; chi-squared by hand. */
class BlendUniformityTest {
  private static final List<Double> THOUSANDS = Collections.nCopies(4, 1000.0);

  @Test
  void containersThatDifferMakeAMixtureUneven() {
    BlendUniformity advice = BlendUniformity.of(List.of(20.0, 80.0, 50.0, 50.0), THOUSANDS);
    // twice 30 squared over 1,000 x 0.05 x 0.95
    assertThat(advice.chiSquared()).isCloseTo(1800 / 47.5, within(1e-9));
    assertThat(advice.uneven()).isTrue();
    assertThat(advice.factor()).isCloseTo(1800 / 47.5 / 3, within(1e-9));
    assertThat(advice.share()).isCloseTo(0.05, within(1e-12));
    Interval asOneSample = ExactBinomial.interval(200, 4000, 0.95);
    assertThat(advice.interval().lower()).isLessThan(asOneSample.lower());
    assertThat(advice.interval().upper()).isGreaterThan(asOneSample.upper());
  }

  @Test
  void containersThatDifferByChanceDoNot() {
    BlendUniformity advice = BlendUniformity.of(List.of(48.0, 52.0, 55.0, 45.0), THOUSANDS);
    assertThat(advice.uneven()).isFalse();
    assertThat(advice.factor()).isEqualTo(1);
    assertThat(advice.interval()).isEqualTo(ExactBinomial.interval(200, 4000, 0.95));
  }

  @Test
  void refusesCountsThatCannotBe() {
    assertThatThrownBy(() -> BlendUniformity.of(List.of(5.0), List.of(100.0)))
        .isInstanceOf(AdviceRefusedException.class);
    assertThatThrownBy(() -> BlendUniformity.of(List.of(5.0, 5.0), List.of(100.0)))
        .isInstanceOf(AdviceRefusedException.class);
    assertThatThrownBy(() -> BlendUniformity.of(List.of(5.0, 101.0), List.of(100.0, 100.0)))
        .isInstanceOf(AdviceRefusedException.class);
    assertThatThrownBy(() -> BlendUniformity.of(List.of(5.0, 4.5), List.of(100.0, 100.0)))
        .isInstanceOf(AdviceRefusedException.class);
  }
}
