package org.kornspur.api.text;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.time.ZoneId;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class LocalFormatTest {

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "Europe/Berlin | ENGLISH | 2025-06-02T12:03:00Z | 14:03 CEST",
        "Europe/Berlin | GERMAN | 2025-06-02T12:03:00Z | 14:03 MESZ",
        "Europe/Berlin | GERMAN | 2025-12-02T12:03:00Z | 13:03 MEZ",
        // the hour that the clocks go through twice
        "Europe/Berlin | ENGLISH | 2025-10-26T00:30:00Z | 02:30 CEST",
        "Europe/Berlin | ENGLISH | 2025-10-26T01:30:00Z | 02:30 CET",
        "Etc/UTC | ENGLISH | 2025-06-02T12:03:00Z | 12:03 UTC",
        "Z | GERMAN | 2025-06-02T12:03:00Z | 12:03 UTC",
        "+05:30 | ENGLISH | 2025-06-02T12:03:00Z | 17:33 UTC+05:30"
      })
  void aTimeStandsBesideItsZone(ZoneId zone, Language language, Instant time, String shown) {
    assertThat(new LocalFormat(language, zone).minute(time).replace('\u00a0', ' ')).endsWith(shown);
  }
}
