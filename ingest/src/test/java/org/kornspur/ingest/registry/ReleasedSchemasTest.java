package org.kornspur.ingest.registry;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.List;
import org.apache.avro.Schema;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.kornspur.contract.Harvest;
import org.kornspur.ingest.registry.SchemaLedger.Addition;
import org.kornspur.ingest.registry.SchemaLedger.Decision;
import org.kornspur.ingest.registry.SchemaLedger.Incompatible;

/** Facts that were written under any release stay readable, and old programs read new facts. */
class ReleasedSchemasTest {

  private final SchemaLedger ledger = new SchemaLedger();

  @BeforeEach
  void shouldBeAbleToRegisterReleaseAfterRelease() throws IOException {
    for (String release : ReleasedSchemas.releases()) {
      for (Schema schema : ReleasedSchemas.of(release)) {
        if (ledger.decide(schema.getFullName(), schema) instanceof Addition addition) {
          ledger.apply(addition.entry());
        }
        assertThat(ledger.find(schema.getFullName(), schema)).as(release).isPresent();
      }
    }
  }

  static List<Schema> present() {
    return ReleasedSchemas.present().toList();
  }

  @ParameterizedTest
  @MethodSource("present")
  void shouldFitEveryReleasedSchema(Schema schema) {
    Decision decision = ledger.decide(schema.getFullName(), schema);
    assertThat(decision)
        .as("Give every new field a default, and keep every field that has none: %s", decision)
        .isNotInstanceOf(Incompatible.class);
  }

  @Test
  void shouldHaveDroppedNoReleasedRecord() throws IOException {
    List<String> presentNames = present().stream().map(Schema::getFullName).toList();
    for (String release : ReleasedSchemas.releases()) {
      assertThat(ReleasedSchemas.of(release))
          .as(release)
          .isNotEmpty()
          .extracting(Schema::getFullName)
          .isSubsetOf(presentNames);
    }
  }

  /** The gate itself: a mass in tonnes where kilograms were released must not pass. */
  @Test
  void shouldRefuseADeliberateBreak() {
    String broken = Harvest.getClassSchema().toString().replace("massKg", "massT");
    Schema schema = new Schema.Parser().parse(broken);
    assertThat(schema).isNotEqualTo(Harvest.getClassSchema());
    assertThat(ledger.decide(schema.getFullName(), schema)).isInstanceOf(Incompatible.class);
  }
}
