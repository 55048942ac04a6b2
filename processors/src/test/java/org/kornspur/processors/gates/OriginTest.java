package org.kornspur.processors.gates;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.contract.Category;
import org.kornspur.processors.fixture.Dossiers;
import org.kornspur.processors.fixture.Facts;

class OriginTest {

  @Test
  void aLotAmongItsOwnAncestorsIsWrong() {
    Judged judged =
        Judged.by(
            "EU",
            new Origin(),
            Dossiers.lot("l1")
                .with(
                    Facts.declared("l1", Facts.HYBRID, Category.CERTIFIED, 100).at("2024-08-01"),
                    Facts.conditioning().from("l0", 100).into("l1", 90))
                .parentInCircle("l0", Dossiers.f1())
                .dossier());
    assertThat(judged.state("ancestors")).isEqualTo("NOT_MET");
    judged.row("origin, lot among its own ancestors", "NOT_MET", judged.state("ancestors"));
  }

  @Test
  void aLotConditionedIntoItselfIsWrong() {
    Judged judged =
        Judged.by(
            "EU",
            new Origin(),
            Dossiers.lot("l1")
                .with(
                    Facts.declared("l1", Facts.HYBRID, Category.CERTIFIED, 100).at("2024-08-01"),
                    Facts.conditioning().from("l1", 100).into("l1", 90))
                .dossier());
    assertThat(judged.state("ancestors")).isEqualTo("NOT_MET");
  }

  @ParameterizedTest(name = "declared on {0}, dispatched {1}: {2}")
  @CsvSource(
      textBlock =
          """
          2024-08-01, 2024-08-02, MET
          2024-08-01T15:00:00Z, 2024-08-01, MET
          2024-08-02, 2024-08-01, NOT_MET
          """)
  void nothingGoesOutBeforeItCameIn(String in, String out, String expected) {
    Judged judged =
        Judged.by(
            "EU",
            new Origin(),
            Dossiers.lot("l1")
                .with(
                    Facts.declared("l1", Facts.HYBRID, Category.CERTIFIED, 100).at(in),
                    Facts.dispatch("l1", 10).at(out))
                .dossier());
    assertThat(judged.state("order of days")).isEqualTo(expected);
    assertThat(judged.state("ancestors")).isEqualTo("MET");
    judged.row("origin, in %s, out %s".formatted(in, out), expected, expected);
  }
}
