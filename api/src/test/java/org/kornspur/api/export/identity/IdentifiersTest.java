package org.kornspur.api.export.identity;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.kornspur.ingest.contract.Subject;

class IdentifiersTest {
  private static final Identifiers PLAIN = new Identifiers("https://seed.example/");

  /** An invented item of an invented company. */
  private static final Identifiers WITH_GTIN =
      new Identifiers("https://seed.example", lotId -> Optional.of(new Gtin("4012345000016")));

  @Test
  void namesALotByItsPage() {
    assertThat(PLAIN.lot("L25/7")).isEqualTo("https://seed.example/lots/L25%2F7");
    assertThat(PLAIN.subject("https://seed.example/lots/L25%2F7")).contains(Subject.lot("L25/7"));
    assertThat(PLAIN.subject("https://seed.example/crops/C25-1")).contains(Subject.crop("C25-1"));
    assertThat(PLAIN.subject("https://other.example/lots/L25")).isEmpty();
  }

  /**
   * The form of the canonical URI: GS1 Digital Link Standard: URI Syntax 1.2, section 4; of the
   * LGTIN: GS1 EPC Tag Data Standard, section 6.4.1 (company prefix, indicator and item, lot).
   */
  @Test
  void namesALotByGtinAndLotNumber() {
    String link = "https://id.gs1.org/01/04012345000016/10/L25-7";
    assertThat(WITH_GTIN.lot("L25-7")).isEqualTo(link);
    assertThat(WITH_GTIN.subject(link)).contains(Subject.lot("L25-7"));
    assertThat(WITH_GTIN.subject("urn:epc:class:lgtin:4012345.000001.L25-7"))
        .contains(Subject.lot("L25-7"));
    assertThat(WITH_GTIN.lotLink("L25-7"))
        .isEqualTo("https://seed.example/01/04012345000016/10/L25-7");
  }

  @Test
  void aLotOfAnotherCompanyIsAnotherLot() {
    assertThat(PLAIN.subject("urn:epc:class:lgtin:0614141.107346.101"))
        .contains(Subject.lot("10614141073464/101"));
  }

  /** Application identifier 10 holds at most twenty characters. */
  @Test
  void aLotNumberTooLongForTheKeyIsNamedByItsPage() {
    assertThat(WITH_GTIN.lot("L".repeat(21))).startsWith("https://seed.example/lots/");
  }
}
