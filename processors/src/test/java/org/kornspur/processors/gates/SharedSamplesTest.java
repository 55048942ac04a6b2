package org.kornspur.processors.gates;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.contract.Category;
import org.kornspur.contract.CropRole;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.dossier.Material;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.RuleFinding;
import org.kornspur.processors.fixture.Dossiers;
import org.kornspur.processors.fixture.Facts;
import org.kornspur.processors.standards.Rulebooks;
import org.kornspur.processors.verdict.Measured;
import org.kornspur.processors.verdict.Verdict;

/** A sample and a measurement stand for what they were taken from; common sense, no source. */
class SharedSamplesTest {

  @Test
  void aLotInTwoPortionsIsNoSurerThanInOne() {
    Measured.Interval whole = interval(Facts.blend("mix").female("f", 950).pollinator("p", 50));
    Measured.Interval portions =
        interval(
            Facts.blend("mix")
                .female("f", 475)
                .female("f", 475)
                .pollinator("p", 25)
                .pollinator("p", 25));
    assertThat(portions.lower()).isCloseTo(whole.lower(), within(1e-12));
    assertThat(portions.upper()).isCloseTo(whole.upper(), within(1e-12));
  }

  private static Measured.Interval interval(Facts.BlendDraft blend) {
    Verdict.Met met =
        (Verdict.Met)
            Judged.by(
                    "EU",
                    new BlendShareGate(),
                    Dossiers.lot("mix")
                        .with(blend)
                        .scheme()
                        .parent("f", component(Facts.SINGLE_CROSS), 32, 92)
                        .parent("p", component(Facts.RESTORER), 28, 85)
                        .dossier())
                .only();
    return met.measured().interval().orElseThrow();
  }

  @ParameterizedTest(name = "lot of {0} kg, sample drawn from {1} kg: {2}")
  @CsvSource({
    "2000, 500, OWED",
    "2000, 1900, OWED",
    "2000, 2000, MET",
    "2000, 1995, MET",
    "2000, 2400, MET"
  })
  void aSampleOfAPartDoesNotStandForTheWhole(double lotKg, double sampledKg, String expected) {
    Judged judged =
        Judged.by("EU", new SamplingGate(), lot(lotKg, sampledKg, "2024-08-20").dossier());
    assertThat(judged.worst()).isEqualTo(expected);
    judged.row(
        "lot of %s kg, sample drawn of %s kg".formatted(lotKg, sampledKg),
        expected,
        judged.worst());
    if (expected.equals("OWED")) {
      judged.asksFor(new Evidence.SampleOfWholeLot(Amount.kilograms(lotKg)));
    }
  }

  @Test
  void whatLeftTheLotBeforeItWasSampledWasNeverSampled() {
    assertThat(
            Judged.by(
                    "EU",
                    new SamplingGate(),
                    lot(2000, 500, "2024-10-01")
                        .with(Facts.dispatch("l1", 1500).at("2024-09-15"))
                        .dossier())
                .worst())
        .isEqualTo("OWED");
    assertThat(
            Judged.by(
                    "EU",
                    new SamplingGate(),
                    lot(2000, 500, "2024-10-01")
                        .with(Facts.split("l1").into("l2", 1500).at("2024-09-15"))
                        .dossier())
                .worst())
        .isEqualTo("OWED");
    assertThat(
            Judged.by(
                    "EU",
                    new SamplingGate(),
                    lot(2000, 500, "2024-10-01")
                        .with(
                            Facts.conditioning().from("l1", 1500).into("l2", 1500).at("2024-09-15"))
                        .dossier())
                .worst())
        .as("conditioned seed is sampled again")
        .isEqualTo("MET");
  }

  /** That nobody samples seed that is gone needs no source. */
  @ParameterizedTest(name = "2,000 kg, of which {0} kg left on {1}, sampled 20 August: {2}")
  @CsvSource({
    "2000, 2024-08-19, OWED",
    "1, 2024-08-19, MET",
    "500, 2024-08-19, OWED",
    "2000, 2024-08-20, MET",
    "2000, 2024-09-01, MET"
  })
  void aSampleDoesNotStandForSeedThatWasGone(double goneKg, String on, String expected) {
    Dossiers sold =
        lot(2000, 2000, "2024-08-20").with(Facts.dispatch("l1", goneKg).at(on + "T06:00:00Z"));
    assertThat(Judged.by("EU", new SamplingGate(), sold.dossier()).worst()).isEqualTo(expected);
  }

  /** Germination is tested again after a year, of what is left by then. */
  @ParameterizedTest(name = "first sample tested on {0}, the second says {1} kg: {2}")
  @CsvSource({
    "2023-08-25, 500, true",
    "2023-08-25, 2000, true",
    "2023-08-25, 400, false",
    "2023-08-01, 500, false",
    ", 500, false"
  })
  void aFurtherSampleStandsForWhatIsLeftWhereTheRestWasTested(
      String firstTested, double secondKg, boolean expected) {
    Dossiers lot =
        lot(2000, 2000, "2023-08-20")
            .with(
                Facts.dispatch("l1", 1500).at("2023-09-01"),
                Facts.sampling("l1", 48, secondKg, 20)
                    .at("2024-08-20")
                    .with(again -> again.setSampleId("again")),
                Facts.germination("l1", 92, 92, 92, 92)
                    .at("2024-09-01")
                    .with(test -> test.setSampleId("again")));
    if (firstTested != null) {
      lot.with(Facts.germination("l1", 92, 92, 92, 92).at(firstTested));
    }
    assertThat(
            SamplingGate.good(lot.dossier(), Rulebooks.bundled().find("EU").orElseThrow()).stream()
                .anyMatch(good -> good.getSampleId().equals("again")))
        .isEqualTo(expected);
  }

  @Test
  void seedThatFilledALotAnewIsNotThatWhichWasDividedOff() {
    Dossiers lot =
        lot(4000, 9000, "2024-08-20")
            .with(
                Facts.split("l1").into("part", 4000).at("2024-08-02"),
                Facts.merge("l1").of("c", 2500).of("d", 2500).at("2024-08-10"));
    assertThat(Judged.by("EU", new SamplingGate(), lot.dossier()).worst()).isEqualTo("OWED");
  }

  @ParameterizedTest(name = "1,000 kg came in on 1 August, 1,000 kg on {0}, sampled 20 August: {1}")
  @CsvSource({"2024-08-02, MET", "2024-08-20, MET", "2024-08-21, OWED", "2024-10-05, OWED"})
  void aSampleDoesNotStandForSeedThatCameInLater(String cameIn, String expected) {
    Judged judged =
        Judged.by(
            "EU",
            new SamplingGate(),
            Dossiers.lot("l1")
                .with(
                    Facts.merge("l1").of("a", 500).of("b", 500).at("2024-08-01"),
                    Facts.merge("l1").of("c", 500).of("d", 500).at(cameIn),
                    Facts.sampling("l1", 48, 2000, 20).at("2024-08-20"))
                .parent("a", Dossiers.f1())
                .dossier());
    assertThat(judged.worst()).isEqualTo(expected);
  }

  @ParameterizedTest(name = "sampled on 20 August, tested on {0}: {1}")
  @CsvSource({"2024-08-20, MET", "2024-09-10, MET", "2024-08-19, OWED", "2024-04-10, OWED"})
  void noSampleWasTestedBeforeItWasDrawn(String tested, String expected) {
    Dossiers lot =
        lot(2000, 2000, "2024-08-20").with(Facts.germination("l1", 92, 92, 92, 92).at(tested));
    assertThat(Judged.by("EU", new SamplingGate(), lot.dossier()).worst()).isEqualTo(expected);
    lot.with(Facts.germination("l1", 92, 92, 92, 92).at("2024-09-01"));
    assertThat(Judged.by("EU", new SamplingGate(), lot.dossier()).worst()).isEqualTo("MET");
  }

  @Test
  void aTestOfASampleThatNobodyDrewIsNone() {
    Judged judged =
        Judged.by(
            "EU",
            new SamplingGate(),
            lot(2000, 2000, "2024-08-20")
                .with(
                    Facts.purity("l1", 119, 1, 0),
                    Facts.germination("l1", 92, 92, 92, 92)
                        .with(test -> test.setSampleId("sample of another lot")))
                .dossier());
    assertThat(judged.worst()).isEqualTo("OWED");
    judged.asksFor(new Evidence.TestsOfDrawnSample(List.of(FactType.GERMINATION_TEST)));
  }

  private static Dossiers lot(double lotKg, double sampledKg, String drawn) {
    return Dossiers.lot("l1")
        .with(
            Facts.declared("l1", Facts.HYBRID, Category.CERTIFIED, lotKg),
            Facts.sampling("l1", 48, sampledKg, 20).at(drawn));
  }

  /** The breeder's figure has the day on which the breeder stated it, not that of a rulebook. */
  @Test
  void aBreedersFigureDoesNotBearTheDayOfARulebook() {
    Verdict verdict =
        Judged.by(
                "EU",
                new BlendShareGate(),
                Dossiers.lot("mix")
                    .with(Facts.blend("mix").female("f", 950).pollinator("p", 50))
                    .scheme(Facts.hybrid().at("2019-03-01"))
                    .parent("f", component(Facts.SINGLE_CROSS), 32, 92)
                    .parent("p", component(Facts.RESTORER), 28, 85)
                    .dossier())
            .only();
    assertThat(verdict.limit().orElseThrow().inForceFrom()).isEqualTo(LocalDate.of(2019, 3, 1));
  }

  @Test
  void whichBookJudgesAMixtureOfTwoIsTold() {
    Dossiers mixture =
        Dossiers.lot("mix")
            .with(Facts.blend("mix").female("f", 950).pollinator("p", 50))
            .scheme()
            .parent("f", under("EU", Facts.SINGLE_CROSS))
            .parent("p", under("DE", Facts.RESTORER));
    assertThat(Judged.by("EU", new ComponentsGate(), mixture.dossier()).worst()).isEqualTo("MET");
    assertThat(
            MissingLimits.notes(mixture.dossier(), Rulebooks.bundled().find("EU").orElseThrow())
                .stream()
                .map(note -> note.finding()))
        .contains(new RuleFinding.JudgedByBookOfFemale("EU", List.of("DE")).coded());
  }

  @Test
  void whichBookJudgedSeedThatWasSownIsTold() {
    Dossiers crop =
        Dossiers.crop("c1")
            .with(
                Facts.crop("c1", CropRole.POLLINATOR)
                    .with(declared -> declared.setRulebookId("DE")),
                Facts.sowing("c1").of("p", 500))
            .parent("p", under("US", Facts.RESTORER));
    assertThat(
            MissingLimits.notes(crop.dossier(), Rulebooks.bundled().find("DE").orElseThrow())
                .stream()
                .map(note -> note.finding()))
        .contains(new RuleFinding.SownOfOtherBooks("DE", List.of("US")).coded());
  }

  @Test
  void partsOfSeveralBooksLeaveItOpen() {
    for (Dossiers lot :
        List.of(
            Dossiers.lot("mix")
                .with(Facts.blend("mix").female("f", 500).female("g", 450).pollinator("p", 50))
                .scheme()
                .parent("f", under("EU", Facts.SINGLE_CROSS))
                .parent("g", under("DE", Facts.SINGLE_CROSS))
                .parent("p", under("EU", Facts.RESTORER)),
            Dossiers.lot("whole")
                .with(Facts.merge("whole").of("f", 500).of("g", 450))
                .scheme()
                .parent("f", under("DE", Facts.SINGLE_CROSS))
                .parent("g", under("EU", Facts.SINGLE_CROSS)))) {
      Judged judged = Judged.by("EU", new ComponentsGate(), lot.dossier());
      assertThat(judged.worst()).isEqualTo("OWED");
      judged
          .found(new RuleFinding.SeveralBooks(List.of("DE", "EU")))
          .asksFor(new Evidence.OneRulebook());
    }
  }

  private static Material component(String seed) {
    return Dossiers.component(seed, Category.BASIC);
  }

  private static Material under(String book, String seed) {
    return new Material(Facts.HYBRID, seed, Material.Kind.COMPONENT, Category.BASIC, 2024, book);
  }
}
