package org.kornspur.api.export;

import static org.assertj.core.api.Assertions.assertThatCode;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import io.quarkus.runtime.StartupEvent;
import io.quarkus.runtime.configuration.ConfigurationException;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.kornspur.api.export.identity.Vocabulary;

/**
 * Settings that name nothing outside stop the start. The GTIN is the worked example of the GS1
 * General Specifications, section 7.9.1: 6291041500213, of check digit 3.
 */
class SiteIdentifiersTest {

  @Test
  void aGtinThatIsNoneIsToldAtTheStart() {
    assertThatCode(() -> check("6291041500213", Optional.of("629104150")))
        .doesNotThrowAnyException();
    assertThatThrownBy(() -> check("6291041500214", Optional.empty()))
        .isInstanceOf(ConfigurationException.class)
        .hasNoCause()
        .hasMessageContaining("kornspur.gtin of HYB-01")
        .hasMessageContaining("its check digit is 4 and should be 3");
    assertThatThrownBy(() -> check("6291041500213", Optional.of("4012345")))
        .isInstanceOf(ConfigurationException.class)
        .hasMessageContaining("not under the company prefix 4012345");
  }

  private static void check(String gtin, Optional<String> prefix) {
    SiteIdentifiers.checkSettings(
        new StartupEvent(),
        new ExportSettings() {
          @Override
          public String publicAddress() {
            return "https://seed.example";
          }

          @Override
          public String vocabularyAddress() {
            return Vocabulary.NAMESPACE;
          }

          @Override
          public Optional<String> gs1CompanyPrefix() {
            return prefix;
          }

          @Override
          public Map<String, String> gtin() {
            return Map.of("HYB-01", gtin);
          }
        });
  }
}
