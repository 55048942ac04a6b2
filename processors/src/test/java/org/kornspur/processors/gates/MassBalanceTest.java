package org.kornspur.processors.gates;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.contract.Category;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.finding.Advice;
import org.kornspur.processors.finding.LotFinding;
import org.kornspur.processors.fixture.Dossiers;
import org.kornspur.processors.fixture.Facts;
import org.kornspur.processors.standards.Limit;

class MassBalanceTest {

  @ParameterizedTest(name = "{0}: {1} kg out of 1,000 kg: {2}")
  @CsvSource(
      textBlock =
          """
          # common practice, no source: half a percent of weighing; the example house a fifth
          EU, 1000, MET
          EU, 1005, MET
          EU, 1005.1, NOT_MET
          HOUSE, 1002, MET
          HOUSE, 1003, NOT_MET
          EU, 10, MET
          """)
  void noLotGivesOutMoreThanItHolds(String book, double outKg, String expected) {
    Judged judged =
        Judged.by(
            book,
            new MassBalance(),
            Dossiers.lot("l1")
                .with(
                    Facts.declared("l1", Facts.HYBRID, Category.CERTIFIED, 1000),
                    Facts.dispatch("l1", outKg / 2),
                    Facts.dispatch("l1", outKg / 2))
                .dossier());
    assertThat(judged.worst()).isEqualTo(expected);
    judged.row("mass balance, %s, %s of 1000 kg".formatted(book, outKg), expected, expected);
  }

  @Test
  void aSecondDeclarationAddsNoSeed() {
    Judged judged =
        Judged.by(
            "EU",
            new MassBalance(),
            Dossiers.lot("l1")
                .with(
                    Facts.declared("l1", Facts.HYBRID, Category.CERTIFIED, 1000),
                    Facts.declared("l1", Facts.HYBRID, Category.CERTIFIED, 1000),
                    Facts.dispatch("l1", 1900))
                .dossier());
    assertThat(judged.worst()).isEqualTo("NOT_MET");
  }

  @ParameterizedTest(name = "1,000 kg in, {0} kg out, {1} kg screenings: {2}")
  @CsvSource({"850, 150, MET", "900, 150, NOT_MET", "1005, 0, MET"})
  void conditioningMakesNoSeed(double outKg, double screeningsKg, String expected) {
    Judged judged =
        Judged.by(
            "EU",
            new MassBalance(),
            Dossiers.lot("l1")
                .with(
                    Facts.conditioning()
                        .id("k")
                        .from("l0", 1000)
                        .into("l1", outKg)
                        .screenings(screeningsKg))
                .parent("l0", Dossiers.f1())
                .dossier());
    assertThat(judged.state("conditioning k")).isEqualTo(expected);
    judged.row(
        "mass balance, conditioning 1000 -> %s + %s kg".formatted(outKg, screeningsKg),
        expected,
        expected);
  }

  @ParameterizedTest(name = "1,000 kg in, {0} kg out, {1} kg screenings, {2} kg dried off: {3}")
  @CsvSource({"850, 100, 50, MET", "850, 100, 100, NOT_MET", "850, 100, , MET"})
  void whatDriesOffIsNoSeed(
      double outKg, double screeningsKg, Double dryingLossKg, String expected) {
    Judged judged =
        Judged.by(
            "EU",
            new MassBalance(),
            Dossiers.lot("l1")
                .with(
                    Facts.conditioning()
                        .id("k")
                        .from("l0", 1000)
                        .into("l1", outKg)
                        .screenings(screeningsKg)
                        .driedOff(dryingLossKg))
                .parent("l0", Dossiers.f1())
                .dossier());
    assertThat(judged.state("conditioning k")).isEqualTo(expected);
  }

  @Test
  void saysThatTheToleranceHasNoSource() {
    Judged judged =
        Judged.by(
            "EU",
            new MassBalance(),
            Dossiers.lot("l1")
                .with(
                    Facts.declared("l1", Facts.HYBRID, Category.CERTIFIED, 1000),
                    Facts.dispatch("l1", 1500))
                .dossier());
    judged
        .found(
            new LotFinding.GaveOut(
                Amount.kilograms(1500), Amount.kilograms(1000), Optional.of(Amount.percent(50))))
        .advises(new Advice.FindWrongWeight());
    assertThat(judged.limit().text()).isEqualTo(Limit.NO_SOURCE);
  }
}
