package org.kornspur.api.export.identity;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class GtinTest {

  /**
   * Worked examples: gs1.org, "How to calculate a check digit manually" (629104150021 → 3); GS1
   * Sweden, "Så beräknas kontrollsiffran" (730001100001 → 7); GS1 India, "How to calculate the
   * check digit" (890400021003 → 7).
   */
  @ParameterizedTest
  @CsvSource({"629104150021,3", "730001100001,7", "890400021003,7"})
  void computesTheCheckDigitsOfTheWorkedExamples(String body, int expected) {
    assertThat(Gtin.checkDigit(body)).isEqualTo(expected);
    assertThat(new Gtin(body + expected).digits()).isEqualTo("0" + body + expected);
  }

  @Test
  void refusesAWrongCheckDigitWithTheRightOne() {
    assertThatThrownBy(() -> new Gtin("6291041500214"))
        .hasMessageContaining("is 4 and should be 3");
    assertThatThrownBy(() -> new Gtin("629104150021x"))
        .isInstanceOf(IllegalArgumentException.class);
  }
}
