package org.kornspur.processors.gates;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.BiFunction;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.contract.Category;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.finding.Advice;
import org.kornspur.processors.finding.LotFinding;
import org.kornspur.processors.fixture.Dossiers;
import org.kornspur.processors.fixture.Draft;
import org.kornspur.processors.fixture.Facts;
import org.kornspur.processors.fixture.JudgedFacts;
import org.kornspur.processors.judging.Judge;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Rulebooks;
import org.kornspur.processors.verdict.Fitness;

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
            new MassBalanceGate(),
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
            new MassBalanceGate(),
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
            new MassBalanceGate(),
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

  /** Common practice, no source: a dressing with its water and colour weighs some 0.5 to 1.5 %. */
  @ParameterizedTest(name = "1,000 kg into {0} kg and {1} kg screenings, {2}: {3}")
  @CsvSource({
    "1006, 0, invented dressing, MET",
    "1025, 0, invented dressing, MET",
    "1026, 0, invented dressing, NOT_MET",
    "915, 100, invented dressing, MET",
    "1006, 0, , NOT_MET",
    "1006, 0, ' ', NOT_MET"
  })
  void aDressingWeighsSomething(
      double outKg, double screeningsKg, String treatment, String expected) {
    Judged judged =
        Judged.by(
            "EU",
            new MassBalanceGate(),
            Dossiers.lot("l1")
                .with(
                    Facts.conditioning()
                        .id("k")
                        .from("l0", 1000)
                        .into("l1", outKg)
                        .screenings(screeningsKg)
                        .treatedWith(treatment))
                .parent("l0", Dossiers.f1())
                .dossier());
    assertThat(judged.state("conditioning k")).isEqualTo(expected);
  }

  @ParameterizedTest(name = "1,000 kg in, {0} kg out, {1} kg screenings, {2} kg dried off: {3}")
  @CsvSource({"850, 100, 50, MET", "850, 100, 100, NOT_MET", "850, 100, , MET"})
  void whatDriesOffIsNoSeed(
      double outKg, double screeningsKg, Double dryingLossKg, String expected) {
    Judged judged =
        Judged.by(
            "EU",
            new MassBalanceGate(),
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
            new MassBalanceGate(),
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

  /** Common practice, no source. */
  @ParameterizedTest(name = "50 t in, {0} kg out, {1} kg screenings, corrects {2}: {3}")
  @CsvSource({
    "10000, 0, , OWED",
    "44000, 0, , OWED",
    "45000, 0, , MET",
    "30000, 20000, , MET",
    "10000, 40000, , OWED",
    // as many screenings, said again with the reason
    "10000, 40000, k0, MET",
    // a reason is no record
    "10000, 0, k0, OWED"
  })
  void moreThanIsUsualIsNotLostWithoutAWord(
      double outKg, double screeningsKg, String corrects, String expected) {
    Facts.ConditioningDraft conditioning =
        Facts.conditioning().id("k").from("l0", 50_000).into("l1", outKg).screenings(screeningsKg);
    if (corrects != null) {
      conditioning.correcting(corrects, "full of ergot, sorted by colour");
    }
    Judged judged =
        Judged.by(
            "EU",
            new MassBalanceGate(),
            Dossiers.lot("l1").with(conditioning).parent("l0", Dossiers.f1()).dossier());
    assertThat(judged.state("conditioning k")).isEqualTo(expected);
  }

  /** Common practice, no source. */
  @ParameterizedTest(name = "1,000 kg into {0} kg, {1} kg screenings, {2} kg dried off: {4}")
  @CsvSource({
    "800, 0, 200, , MET",
    "500, 0, 500, , OWED",
    "500, 0, 500, k0, MET",
    // each usual by itself, and less than half is left
    "11, 390, 500, , OWED",
    "420, 390, 190, , OWED",
    "500, 350, 150, , MET",
    "420, 390, 190, k0, MET"
  })
  void noSeedDriesOffWithoutAWord(
      double outKg, double screeningsKg, double driedKg, String corrects, String expected) {
    Facts.ConditioningDraft conditioning =
        Facts.conditioning()
            .id("k")
            .from("l0", 1000)
            .into("l1", outKg)
            .screenings(screeningsKg)
            .driedOff(driedKg);
    if (corrects != null) {
      conditioning.correcting(corrects, "harvested wet, full of ergot");
    }
    Judged judged =
        Judged.by(
            "EU",
            new MassBalanceGate(),
            Dossiers.lot("l1").with(conditioning).parent("l0", Dossiers.f1()).dossier());
    assertThat(judged.state("conditioning k")).isEqualTo(expected);
  }

  /**
   * Each work by itself is within what scales and a dressing explain. Common practice, no source.
   */
  @ParameterizedTest(name = "1,000 kg, {0} times {1} % heavier, {2}: {3}")
  @CsvSource({
    "1, 2.5, invented dressing, FIT",
    "2, 1.0, invented dressing, FIT",
    "2, 2.0, invented dressing, NOT_FIT",
    "5, 1.0, invented dressing, NOT_FIT",
    "1, 0.4, , FIT",
    "2, 0.4, , NOT_FIT"
  })
  void manyWorksTogetherMakeNoSeed(int works, double percent, String treatment, Fitness expected) {
    assertThat(
            after(
                works,
                percent,
                (kg, next) ->
                    Facts.conditioning()
                        .from("N" + (next - 1), kg)
                        .into("N" + next, kg * (1 + percent / 100))
                        .treatedWith(treatment)))
        .isEqualTo(expected);
  }

  @ParameterizedTest(name = "divided {0} times into {1} % more: {2}")
  @CsvSource({"1, 0.4, FIT", "2, 0.4, NOT_FIT", "9, 0.05, FIT", "12, 0.05, NOT_FIT"})
  void dividingOftenMakesNoSeed(int times, double percent, Fitness expected) {
    assertThat(
            after(
                times,
                percent,
                (kg, next) ->
                    Facts.split("N" + (next - 1)).into("N" + next, kg * (1 + percent / 100))))
        .isEqualTo(expected);
  }

  /** How the last of some lots stands, of which each was made of the one before and is tested. */
  private static Fitness after(
      int times, double percent, BiFunction<Double, Integer, Draft<?>> made) {
    List<Draft<?>> facts = new ArrayList<>();
    facts.add(Facts.laboratory("LAB1"));
    facts.add(
        Facts.declared("N0", Facts.HYBRID, Category.CERTIFIED, 1000)
            .with(lot -> lot.setRulebookId("DE"))
            .at("2024-08-01"));
    tests(facts, 0, 1000, "2024-08-05");
    double kg = 1000;
    for (int next = 1; next <= times; next++) {
      LocalDate day = LocalDate.of(2024, 8, 10).plusDays(2L * next);
      facts.add(made.apply(kg, next).at(day.toString()));
      kg *= 1 + percent / 100;
      tests(facts, next, kg, day.plusDays(1).toString());
    }
    return JudgedFacts.by(Judge.by(Rulebooks.bundled()), facts).state("N" + times);
  }

  private static void tests(List<Draft<?>> facts, int of, double kg, String on) {
    String lot = "N" + of;
    facts.add(Facts.sampling(lot, 40, kg, 40).at(on));
    facts.add(Facts.germination(lot, 95, 94, 96, 95).at(on));
    facts.add(Facts.purity(lot, 119.4, 0.5, 0.1).at(on));
    facts.add(Facts.moisture(lot, 13).at(on));
    facts.add(Facts.otherSeeds(lot).at(on));
  }
}
