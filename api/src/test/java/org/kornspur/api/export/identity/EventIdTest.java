package org.kornspur.api.export.identity;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.UUID;
import org.junit.jupiter.api.Test;

class EventIdTest {

  /** RFC 9562, appendix A.4: www.example.com in the name space of DNS. */
  @Test
  void isANameBasedUuidOfVersionFive() {
    UUID dns = UUID.fromString("6ba7b810-9dad-11d1-80b4-00c04fd430c8");
    assertThat(EventId.nameBased(dns, "www.example.com"))
        .isEqualTo(UUID.fromString("2ed6657d-e927-568b-95e1-2665a8aea6a2"));
  }

  @Test
  void comesBackFromItsText() {
    assertThat(EventId.uuidIn(EventId.ofFact("germ-0001")))
        .contains(EventId.uuidOfFact("germ-0001"));
    assertThat(EventId.uuidIn("urn:uuid:1-1-1-1-1")).isEmpty();
    assertThat(EventId.uuidIn("https://seed.example/events/1")).isEmpty();
  }
}
