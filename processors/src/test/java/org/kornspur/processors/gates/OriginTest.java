package org.kornspur.processors.gates;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.contract.Category;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.processors.dossier.Material;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.fixture.Dossiers;
import org.kornspur.processors.fixture.Draft;
import org.kornspur.processors.fixture.Facts;

class OriginTest {

  @Test
  void aLotAmongItsOwnAncestorsIsWrong() {
    Judged judged =
        Judged.by(
            "EU",
            new OriginGate(),
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
            new OriginGate(),
            Dossiers.lot("l1")
                .with(
                    Facts.declared("l1", Facts.HYBRID, Category.CERTIFIED, 100).at("2024-08-01"),
                    Facts.conditioning().from("l1", 100).into("l1", 90))
                .dossier());
    assertThat(judged.state("ancestors")).isEqualTo("NOT_MET");
  }

  /** Common sense of the pedigree, no source. */
  @Test
  void aLotIsDeclaredOnlyWithoutAHistory() {
    Draft<?> declared = Facts.declared("l1", Facts.HYBRID, Category.CERTIFIED, 100).id("d");
    Draft<?> blend = Facts.blend("l1").female("f", 95).pollinator("p", 5).id("blend");
    Draft<?> merge = Facts.merge("l1").of("a", 50).of("b", 50).id("merge");
    Draft<?> admixture = Facts.admixture("l1").hybrid("a", 90).openPollinated("o", 10).id("mix");
    Draft<?> split = Facts.split("a").into("l1", 50).id("split");
    Draft<?> conditioning = Facts.conditioning().from("a", 50).into("l1", 45).id("work");
    Draft<?> harvest = Facts.harvest("c1", "l1", 50).id("harvest");
    for (Draft<?> history : List.of(blend, merge, admixture, split, conditioning, harvest)) {
      Judged judged = origins(declared, history);
      assertThat(judged.state("several origins")).as(history.factId()).isEqualTo("OWED");
      judged.asksFor(
          new Evidence.Correction(Fact.each(Stream.of("d", history.factId()).sorted().toList())));
    }
    assertThat(origins(blend, merge).state("several origins")).isEqualTo("OWED");
    assertThat(origins(blend, admixture).state("several origins")).isEqualTo("OWED");
    assertThat(origins(admixture, merge).state("several origins")).isEqualTo("OWED");
    assertThat(origins(merge, split, conditioning, harvest).state("several origins"))
        .as("seed that may be one material")
        .isEqualTo("NONE");
    assertThat(origins(blend, Facts.blend("l1").female("f", 9).pollinator("p", 1)).worst())
        .isEqualTo("MET");
  }

  private static Judged origins(Draft<?>... facts) {
    return Judged.by(
        "EU",
        new OriginGate(),
        Dossiers.lot("l1")
            .with(facts)
            .parent("a", Dossiers.f1())
            .parent("f", Dossiers.component(Facts.SINGLE_CROSS, Category.BASIC))
            .dossier());
  }

  /** What a lot is follows from its history: a declaration beside it changes no gate. */
  @Test
  void aDeclarationDoesNotReplaceAHistory() {
    Dossiers mixture =
        Dossiers.lot("l1")
            .with(
                Facts.blend("l1").female("f", 95).pollinator("p", 5),
                Facts.declared("l1", Facts.HYBRID, Category.CERTIFIED, 1)
                    .with(lot -> lot.setRulebookId("US")))
            .parent("f", Dossiers.component(Facts.SINGLE_CROSS, Category.BASIC));
    assertThat(mixture.dossier().material()).contains(Dossiers.mixture());
  }

  /** Whichever lot stands first by name. */
  @ParameterizedTest
  @CsvSource({"a, b", "b, a"})
  void seedOfTwoYearsIsJudgedByTheTextOfTheLater(String of2024, String of2025) {
    Material later = in2025(Dossiers.f1());
    for (Dossiers lot :
        List.of(
            Dossiers.lot("l1").with(Facts.merge("l1").of("a", 50).of("b", 50)),
            Dossiers.lot("l1")
                .with(Facts.split("a").into("l1", 50), Facts.split("b").into("l1", 50)),
            Dossiers.lot("l1")
                .with(
                    Facts.admixture("l1")
                        .hybrid("a", 50)
                        .hybrid("b", 50)
                        .openPollinated("o", 10)))) {
      lot.parent(of2024, Dossiers.f1()).parent(of2025, later);
      assertThat(lot.dossier().material()).contains(later);
    }
    Material female = Dossiers.component(Facts.SINGLE_CROSS, Category.BASIC);
    assertThat(
            Dossiers.lot("l1")
                .with(Facts.blend("l1").female("a", 50).female("b", 45).pollinator("p", 5))
                .parent(of2024, female)
                .parent(of2025, in2025(female))
                .dossier()
                .material())
        .contains(in2025(Dossiers.mixture()));
  }

  private static Material in2025(Material seed) {
    return new Material(
        seed.hybridId(), seed.seedId(), seed.kind(), seed.category(), 2025, seed.rulebookId());
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
            new OriginGate(),
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
