package org.kornspur.api.kafka;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.ZoneId;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.kornspur.api.storage.CannotStart;

/** Source of the names: IANA time zone database. */
class SiteTimeZoneTest {

  @Test
  void aNameOfTheDatabaseIsTaken() {
    assertThat(SiteTimeZone.of(Optional.of("Europe/Berlin"))).contains(ZoneId.of("Europe/Berlin"));
    assertThat(SiteTimeZone.of(Optional.empty())).isEmpty();
  }

  @ParameterizedTest
  @ValueSource(strings = {"Berlin", "CEST", "Europe/Berln", "+25", " "})
  void whatIsNoZoneIsRefusedAndNotTakenForUtc(String name) {
    assertThatThrownBy(() -> SiteTimeZone.of(Optional.of(name)))
        .isInstanceOf(CannotStart.class)
        .hasMessageContaining("kornspur.time-zone")
        .hasMessageContaining("'" + name + "'")
        .hasMessageContaining("Europe/Berlin");
  }
}
