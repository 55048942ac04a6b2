package org.kornspur.processors.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Collections;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Half up, by the International Rules for Seed Testing 5.8 and 3.6 (from memory, not verified). */
class RoundingTest {

  @ParameterizedTest
  @CsvSource({"84.5, 85", "84.49, 84", "84.75, 85", "85.5, 86", "0, 0", "100, 100", "0.5, 1"})
  void germinationGoesToWholePercentHalvesUp(double percent, int rounded) {
    assertThat(Rounding.wholePercent(percent)).isEqualTo(rounded);
  }

  /** 98.05, 0.25 and 97.95 have no exact binary form; they round as they are written. */
  @ParameterizedTest
  @CsvSource({"97.95, 98.0", "97.949, 97.9", "98.05, 98.1", "0.25, 0.3", "99.96, 100.0"})
  void purityGoesToOneDecimalHalvesUp(double percent, double rounded) {
    assertThat(Rounding.tenthPercent(percent)).isEqualTo(rounded);
  }

  @ParameterizedTest
  @CsvSource({"0.049, true", "0.05, false", "0, false", "0.001, true"})
  void whatIsFoundBelowATwentiethOfAPercentIsTrace(double percent, boolean trace) {
    assertThat(Rounding.isTrace(percent)).isEqualTo(trace);
  }

  @Test
  void meanOfReplicatesIsRoundedOnce() {
    List<Replicate> replicates =
        List.of(
            new Replicate(100, 84), new Replicate(100, 85),
            new Replicate(100, 84), new Replicate(100, 85));
    assertThat(GerminationMean.percent(replicates)).isEqualTo(84.5);
    assertThat(GerminationMean.wholePercent(replicates)).isEqualTo(85);
    assertThatThrownBy(() -> GerminationMean.percent(Collections.emptyList()))
        .isInstanceOf(IllegalArgumentException.class);
  }
}
