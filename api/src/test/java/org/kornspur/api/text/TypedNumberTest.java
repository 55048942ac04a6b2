package org.kornspur.api.text;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.time.ZoneOffset;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.api.text.TypedNumber.Ambiguous;
import org.kornspur.api.text.TypedNumber.NoNumber;
import org.kornspur.api.text.TypedNumber.Plain;

class TypedNumberTest {

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "GERMAN | 1250 | 1250",
        "GERMAN | 1,250 | 1.250",
        "GERMAN | 12,5 | 12.5",
        "GERMAN | -0,125 | -0.125",
        // thousands have three digits and begin with none that is 0
        "GERMAN | 12.5 | 12.5",
        "GERMAN | 1.25 | 1.25",
        "GERMAN | 0.125 | 0.125",
        "GERMAN | 1250.125 | 1250.125",
        "ENGLISH | 1.250 | 1.250",
        "ENGLISH | 12,5 | 12.5",
        "ENGLISH | 0,125 | 0.125"
      })
  void whatCanBeReadInOneWayIsRead(Language language, String text, BigDecimal number) {
    assertThat(TypedNumber.of(text, language)).isEqualTo(new Plain(number));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "GERMAN | 1.250 | 1250 | 1,250",
        "GERMAN | -12.500 | -12500 | -12,500",
        "GERMAN | 999.999 | 999999 | 999,999",
        "ENGLISH | 1,250 | 1250 | 1.250"
      })
  void whatCanBeReadInTwoWaysIsNotGuessed(
      Language language, String text, String grouped, String decimal) {
    assertThat(TypedNumber.of(text, language)).isEqualTo(new Ambiguous(grouped, decimal));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "GERMAN | 1.000",
        "GERMAN | 1,000",
        "ENGLISH | 1.000",
        "ENGLISH | 1,000",
      })
  void aWholeNumberWithPartedThousandsIsNeverOne(Language language, String text) {
    assertThat(TypedNumber.whole(text, language)).isInstanceOf(Ambiguous.class);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {"1.250,5", "1,250.5", "1.250.000", "1 250", "1e3", "NaN", "'", ".5", "5.", "--1"})
  void allElseIsNoNumber(String text) {
    for (Language language : Language.values()) {
      assertThat(TypedNumber.of(text, language)).isEqualTo(new NoNumber());
    }
  }

  /** What a form is filled with must be taken when it is sent as it is. */
  @ParameterizedTest
  @CsvSource({"1250", "1.25", "1.125", "999.999", "0", "0.000", "-12.125", "1200000.5", "100"})
  void whatTheProgramWritesIntoAFieldIsReadAsItWas(BigDecimal number) {
    for (Language language : Language.values()) {
      String typed = new LocalFormat(language, ZoneOffset.UTC).typed(number);
      assertThat(TypedNumber.of(typed, language))
          .isInstanceOfSatisfying(
              Plain.class, read -> assertThat(read.value()).isEqualByComparingTo(number));
    }
  }
}
