package org.kornspur.ingest.intake;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Source: Unicode CLDR, Language Plural Rules, English, cardinal: the singular is for the whole
 * number 1 alone (i = 1 and v = 0); 0 and fractions have the plural.
 */
class CountedNounTest {

  @ParameterizedTest
  @CsvSource({
    "0, plant(s), 0 plants",
    "1, plant(s), 1 plant",
    "2, plant(s), 2 plants",
    "1, bod(y|ies) of ergot, 1 body of ergot",
    "0, bod(y|ies) of ergot, 0 bodies of ergot",
    "1, cross(|es), 1 cross",
    "3, cross(|es), 3 crosses",
    "1, crop(s) and lot(s), 1 crop and lot",
    "1, 'seed( is|s are) too few', 1 seed is too few",
    "11, 'seed( is|s are) too few', 11 seeds are too few",
    "-1, day(s), -1 days"
  })
  void oneAloneHasTheSingular(long count, String noun, String written) {
    assertThat(CountedNoun.of(count, noun)).isEqualTo(written);
  }

  @Test
  void aFractionHasThePlural() {
    assertThat(CountedNoun.noun(1, "percentage point(s)")).isEqualTo("percentage point");
    assertThat(CountedNoun.noun(1.5, "percentage point(s)")).isEqualTo("percentage points");
    assertThat(CountedNoun.noun(0.5, "percentage point(s)")).isEqualTo("percentage points");
  }
}
