package org.kornspur.api.kafka;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.kornspur.api.storage.CannotStart;
import org.kornspur.api.text.Language;

class SiteLanguageTest {

  @Test
  void aLanguageThatIsSpokenHereIsTaken() {
    assertThat(SiteLanguage.of("de")).isEqualTo(Language.GERMAN);
    assertThat(SiteLanguage.of("en")).isEqualTo(Language.ENGLISH);
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "DE", "German", "fr"})
  void anotherIsRefused(String setting) {
    assertThatThrownBy(() -> SiteLanguage.of(setting))
        .isInstanceOf(CannotStart.class)
        .hasMessageContaining("kornspur.language")
        .hasMessageContaining("'" + setting + "'")
        .hasMessageContaining("en, de");
  }
}
