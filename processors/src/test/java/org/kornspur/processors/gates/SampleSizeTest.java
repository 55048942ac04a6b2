package org.kornspur.processors.gates;

import static org.assertj.core.api.Assertions.assertThat;

import org.assertj.core.data.Offset;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.finding.SampleSizeFinding.ConsumersRisk;
import org.kornspur.processors.finding.SampleSizeFinding.ConsumersRiskByArea;

/** The consumer's risk at one and a half times the limit, against tables and by hand. */
class SampleSizeTest {

  @ParameterizedTest(name = "{0} plants, at most {1} %: {2} % passes in {3} % of cases")
  @CsvSource(
      textBlock =
          """
          # by hand: (1 - 0.03)^1 and (1 - 0.03)^20 = 0.5438, none allowed
          1,   2, 3, 97
          20,  2, 3, 54.38
          # by hand: 0.97^50 + 50 * 0.03 * 0.97^49 = 0.2181 + 0.3372, one allowed
          50,  2, 3, 55.53
          """)
  void ofPlants(int plants, double limitPercent, double percent, double riskPercent) {
    ConsumersRisk risk =
        (ConsumersRisk) SampleSize.riskOfShare(plants, limitPercent / 100).orElseThrow();
    assertThat(risk.share().number()).isCloseTo(percent, Offset.offset(1e-9));
    assertThat(risk.risk().number()).isCloseTo(riskPercent, Offset.offset(0.01));
  }

  /** Of 200 plants a crop with 3 % shedding passes in more than one of four cases. */
  @ParameterizedTest
  @CsvSource({"200, 25, 30", "1000, 2, 4"})
  void oneOfFourWithTwoHundredPlants(int plants, double above, double below) {
    ConsumersRisk risk = (ConsumersRisk) SampleSize.riskOfShare(plants, 0.02).orElseThrow();
    assertThat(risk.risk().number()).isBetween(above, below);
  }

  @ParameterizedTest(name = "at most {0} in {1} m2, counted {2} m2: passes in {4} % of cases")
  @CsvSource(
      textBlock =
          """
          # tables of the cumulative Poisson distribution: mean 7.5, at most 5: 0.2414
          5,  150, 150, 7.5, 24.14
          # mean 1.5, at most 1: 0.5578
          1,  10,  10,  1.5, 55.78
          # mean 0.15, none: 0.8607
          1,  10,  1,   0.15, 86.07
          """)
  void ofAnArea(double most, double inM2, double countedM2, double expected, double riskPercent) {
    ConsumersRiskByArea risk =
        (ConsumersRiskByArea) SampleSize.riskOfArea(countedM2, most / inM2).orElseThrow();
    assertThat(risk.plants()).isEqualTo(new Amount(risk.plants().number(), "plants"));
    assertThat(risk.plants().number()).isCloseTo(expected, Offset.offset(1e-9));
    assertThat(risk.risk().number()).isCloseTo(riskPercent, Offset.offset(0.01));
  }
}
