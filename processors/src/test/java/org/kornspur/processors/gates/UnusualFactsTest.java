package org.kornspur.processors.gates;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.contract.Category;
import org.kornspur.contract.CropRole;
import org.kornspur.contract.FloweringPart;
import org.kornspur.contract.PostControlMethod;
import org.kornspur.processors.fixture.Dossiers;
import org.kornspur.processors.fixture.Draft;
import org.kornspur.processors.fixture.Facts;

/** What does not fit together, or no rye does, is never fit; common practice, no source. */
class UnusualFactsTest {

  @ParameterizedTest(name = "harvested 2024-08-05, sampled {0}, tested {1}: {2}")
  @CsvSource({
    "2024-08-06, 2024-08-09, NONE",
    "2024-08-05, 2024-08-05, NONE",
    "2024-08-04, 2024-08-09, OWED",
    "2024-08-06, 2024-07-20, OWED"
  })
  void seedThatIsNotThereCannotBeTested(String sampled, String tested, String expected) {
    Judged judged =
        Judged.by(
            "EU",
            new OriginGate(),
            Dossiers.lot("l1")
                .with(
                    Facts.harvest("c1", "l1", 5000),
                    Facts.sampling("l1", 48, 5000, 20).at(sampled),
                    Facts.purity("l1", 99, 1, 0).at(tested))
                .parentCrop("c1", Dossiers.f1())
                .dossier());
    assertThat(judged.state("days of tests")).isEqualTo(expected);
  }

  @Test
  void seedThatWasBoughtInMayHaveBeenTestedBefore() {
    Judged judged =
        Judged.by(
            "EU",
            new OriginGate(),
            Dossiers.lot("l1")
                .with(
                    Facts.declared("l1", Facts.HYBRID, Category.CERTIFIED, 1000).at("2024-09-10"),
                    Facts.purity("l1", 99, 1, 0).at("2024-09-01"))
                .dossier());
    assertThat(judged.worst()).isEqualTo("MET");
  }

  @ParameterizedTest(name = "bought in, harvested in 2024, tested {0}: {1}")
  @CsvSource({
    // from memory: rye is harvested from June on, north of the equator
    "2024-06-01, NONE",
    "2024-05-31, OWED",
    "2024-02-01, OWED",
    "2023-12-31, OWED",
    "2022-09-01, OWED"
  })
  void seedThatWasBoughtInWasNotTestedBeforeItsHarvest(String tested, String expected) {
    Judged judged =
        Judged.by(
            "EU",
            new OriginGate(),
            Dossiers.lot("l1")
                .with(
                    Facts.declared("l1", Facts.HYBRID, Category.CERTIFIED, 1000).at("2024-09-10"),
                    Facts.germination("l1", 95, 95, 95, 95).at(tested))
                .dossier());
    assertThat(judged.state("days of tests")).isEqualTo(expected);
  }

  @ParameterizedTest(name = "crop of 2024, visited {0} at BBCH {1}: {2}")
  @CsvSource({
    "2024-06-05, 65, NONE",
    "2023-06-05, 65, OWED",
    "2025-06-05, 65, OWED",
    "2022-11-05, 12, OWED",
    // rye that was sown in the autumn before
    "2023-11-05, 13, NONE"
  })
  void aCropIsVisitedInItsYear(String visited, int stage, String expected) {
    Judged judged =
        Judged.by(
            "EU",
            new OriginGate(),
            Dossiers.crop("c1")
                .with(
                    Facts.crop("c1", CropRole.F1_MIXTURE),
                    Facts.inspection("c1")
                        .offTypesInArea(0, 150)
                        .with(visit -> visit.setBbchStage(stage))
                        .at(visited))
                .scheme()
                .dossier());
    assertThat(judged.state("year of visits")).isEqualTo(expected);
  }

  @Test
  void southOfTheEquatorRyeFlowersInTheYearBeforeItsHarvest() {
    Judged judged =
        Judged.by(
            "EU",
            new OriginGate(),
            Dossiers.crop("c1")
                .with(
                    Facts.crop("c1", CropRole.F1_MIXTURE)
                        .with(crop -> crop.setOutline(Facts.square(-58.0, -37.0, 0.003))),
                    Facts.inspection("c1")
                        .offTypesInArea(0, 150)
                        .with(visit -> visit.setBbchStage(65))
                        .at("2023-11-10"))
                .scheme()
                .dossier());
    assertThat(judged.state("year of visits")).isEqualTo("NONE");
  }

  @Test
  void sterilityIsCheckedInTheYearOfTheCrop() {
    Judged judged =
        Judged.by(
            "EU",
            new OriginGate(),
            Dossiers.crop("c1")
                .with(
                    Facts.crop("c1", CropRole.STERILE_FEMALE),
                    Facts.sterility("c1", 1000, 0).at("2023-06-05"))
                .scheme()
                .dossier());
    assertThat(judged.state("year of visits")).isEqualTo("OWED");
  }

  @ParameterizedTest(name = "crop year {0}, harvested in 2024: {1}")
  @CsvSource({"2024, NONE", "2023, OWED", "2025, OWED"})
  void aCropIsHarvestedInItsYear(int cropYear, String expected) {
    Judged judged =
        Judged.by(
            "EU",
            new OriginGate(),
            Dossiers.crop("c1")
                .with(
                    Facts.crop("c1", CropRole.F1_MIXTURE).with(crop -> crop.setCropYear(cropYear)),
                    Facts.harvest("c1", "l1", 5000))
                .scheme()
                .dossier());
    assertThat(judged.state("year of harvest")).isEqualTo(expected);
  }

  @Test
  void seedOfAYearThatHasNotComeIsNone() {
    Judged judged =
        Judged.by(
            "EU",
            new OriginGate(),
            Dossiers.lot("l1")
                .with(
                    Facts.declared("l1", Facts.HYBRID, Category.CERTIFIED, 1000)
                        .with(lot -> lot.setCropYear(2025)))
                .dossier());
    assertThat(judged.state("year of harvest")).isEqualTo("OWED");
  }

  @ParameterizedTest(name = "{0} kg from {1} ha in 6.9: {2}")
  @CsvSource({
    "65000, 6.5, NONE",
    "75000, 6.5, NONE",
    "510000, 6.5, OWED",
    // the lesser of what was sown and what the outline holds
    "50000, 0.5, OWED",
    "85000, 20, OWED"
  })
  void noRyeYieldsFiftyOneTonnes(double massKg, double sownHa, String expected) {
    Judged judged =
        Judged.by(
            "EU",
            new OriginGate(),
            Dossiers.crop("c1")
                .with(
                    Facts.crop("c1", CropRole.F1_MIXTURE),
                    Facts.sowing("c1").of("m1", 600).on(sownHa),
                    Facts.harvest("c1", "l1", massKg))
                .scheme()
                .dossier());
    assertThat(judged.state("yield")).isEqualTo(expected);
  }

  @ParameterizedTest(name = "100 kernels weigh {0} g: {1}")
  @CsvSource({"3.1, NONE", "9.0, OWED", "0.9, OWED"})
  void noRyeHasKernelsOfNinetyMilligrams(double gramsOf100, String expected) {
    Judged judged =
        Judged.by(
            "EU",
            new OriginGate(),
            Dossiers.lot("l1")
                .with(
                    Facts.declared("l1", Facts.HYBRID, Category.CERTIFIED, 1000),
                    Facts.kernelWeight("l1", gramsOf100, gramsOf100))
                .dossier());
    assertThat(judged.state("kernel weight")).isEqualTo(expected);
    judged.row(
        "100 kernels of %s g".formatted(gramsOf100), expected, judged.state("kernel weight"));
  }

  /** 80 ergot bodies in 10 kg are 4 in 500 g; of the 1,000 g that were sent in they would be 40. */
  @ParameterizedTest(name = "{0} g for other seeds and {1} g for purity of 1,000 g: {2}")
  @CsvSource({"1000, 120, MET", "10000, 120, OWED", "1000.1, 120, OWED", "500, 9930, OWED"})
  void noMoreIsTestedThanWasSentIn(double otherSeedsG, double pureG, String expected) {
    Judged judged =
        Judged.by(
            "EU",
            new OriginGate(),
            Dossiers.lot("l1")
                .with(
                    Facts.declared("l1", Facts.HYBRID, Category.CERTIFIED, 1000),
                    Facts.sampling("l1", 40, 1000, 40),
                    Facts.purity("l1", pureG, 0, 0),
                    Facts.otherSeeds("l1").with(test -> test.setSampleG(otherSeedsG)))
                .dossier());
    assertThat(judged.worst()).isEqualTo(expected);
  }

  @ParameterizedTest(name = "{0}: sown {1} and {2} ha in an outline of 6.9 ha: {3}")
  @CsvSource({
    "F1_MIXTURE, 6.9, 0.001, NONE",
    "F1_MIXTURE, 7.3, 0.001, OWED",
    "F1_MIXTURE, 3.5, 3.5, NONE",
    // ground that was drilled again
    "F1_MIXTURE, 6.5, 1.5, NONE",
    // strips of both components: each sowing may have gone over the whole field
    "STERILE_FEMALE, 6.9, 6.9, NONE",
    "STERILE_FEMALE, 7.3, 1.0, OWED"
  })
  void noMoreIsSownThanTheOutlineHolds(
      CropRole role, double firstHa, double secondHa, String expected) {
    Judged judged =
        Judged.by(
            "EU",
            new OriginGate(),
            Dossiers.crop("c1")
                .with(
                    Facts.crop("c1", role),
                    Facts.sowing("c1").of("m1", 600).on(firstHa),
                    Facts.sowing("c1").of("m2", 600).on(secondHa))
                .scheme()
                .dossier());
    assertThat(judged.state("area sown")).isEqualTo(expected);
  }

  @ParameterizedTest(name = "harvested on 1 August, inspected on {0}: {1}")
  @CsvSource({"2024-07-31, NONE", "2024-08-01, NONE", "2024-08-02, OWED", "2024-09-10, OWED"})
  void noCropStandsAfterItsHarvest(String visited, String expected) {
    Draft<?> harvest = Facts.harvest("c1", "l1", 5000).at("2024-08-01");
    List<Draft<?>> looks =
        List.of(
            Facts.inspection("c1").with(visit -> visit.setBbchStage(92)).at(visited),
            Facts.sterility("c1", 1000, 0).at(visited),
            Facts.flowering("c1", FloweringPart.FEMALE, 75).at(visited));
    for (Draft<?> look : looks) {
      assertThat(origin(harvest, look).state("visits after harvest")).isEqualTo(expected);
    }
    Draft<?> ears =
        Facts.sterility("c1", 0, 0)
            .with(check -> check.setBaggedEars(100).setBaggedEarsWithSeed(0))
            .at(visited);
    assertThat(origin(harvest, ears).state("visits after harvest")).isEqualTo("NONE");
  }

  @ParameterizedTest(name = "flowering {0} to {1}, BBCH {2} on {3}: {4}")
  @CsvSource({
    "2024-06-01, 2024-06-15, 65, 2024-03-10, OWED",
    "2024-06-01, 2024-06-15, 65, 2024-05-21, OWED",
    "2024-06-01, 2024-06-15, 65, 2024-05-22, NONE",
    "2024-06-01, 2024-06-15, 65, 2024-06-25, NONE",
    "2024-06-01, 2024-06-15, 65, 2024-06-26, OWED",
    "2024-06-01, 2024-06-15, 55, 2024-03-10, NONE",
    "2024-06-01,           , 65, 2024-03-10, OWED",
    "2024-06-01,           , 65, 2024-07-20, NONE",
    "          , 2024-06-15, 65, 2024-03-10, OWED",
    // where nothing is declared there is nothing to hold it against
    "          ,           , 65, 2024-03-10, NONE"
  })
  void noCropFlowersFarFromItsFlowering(
      LocalDate from, LocalDate to, int stage, String seen, String expected) {
    Draft<?> declared =
        Facts.crop("c1", CropRole.STERILE_FEMALE)
            .with(crop -> crop.setFloweringFrom(from).setFloweringTo(to));
    List<Draft<?>> looks =
        List.of(
            Facts.inspection("c1").with(visit -> visit.setBbchStage(stage)).at(seen),
            Facts.flowering("c1", FloweringPart.FEMALE, stage).at(seen));
    for (Draft<?> look : looks) {
      Dossiers crop = Dossiers.crop("c1").with(declared, look).scheme();
      assertThat(Judged.by("EU", new OriginGate(), crop.dossier()).state("days in flower"))
          .isEqualTo(expected);
    }
  }

  private static Judged origin(Draft<?>... facts) {
    return Judged.by(
        "EU",
        new OriginGate(),
        Dossiers.crop("c1")
            .with(Facts.crop("c1", CropRole.STERILE_FEMALE))
            .with(facts)
            .scheme()
            .dossier());
  }

  @ParameterizedTest(name = "harvested on 1 and 4 August, inspected on {0}: {1}")
  @CsvSource({"2024-08-02, NONE", "2024-08-04, NONE", "2024-08-05, OWED"})
  void aCropStandsUntilItsLastHarvest(String visited, String expected) {
    Judged judged =
        origin(
            Facts.harvest("c1", "l1", 5000).at("2024-08-01"),
            Facts.harvest("c1", "l2", 5000).at("2024-08-04"),
            Facts.inspection("c1").with(visit -> visit.setBbchStage(92)).at(visited));
    assertThat(judged.state("visits after harvest")).isEqualTo(expected);
  }

  @ParameterizedTest(name = "{0} m2 counted in an outline of 6.9 ha: {1}")
  @CsvSource({"150, NONE", "70000, NONE", "73000, OWED", "1000000, OWED"})
  void noMoreIsCountedThanTheOutlineHolds(double areaM2, String expected) {
    assertThat(
            origin(
                    Facts.inspection("c1").offTypesInArea(0, areaM2 / 2),
                    Facts.inspection("c1").offTypesInArea(0, areaM2 / 2))
                .state("area counted"))
        .isEqualTo(expected);
  }

  /** Common practice, no source. */
  @ParameterizedTest(name = "{0}: {1} and {2} kg on 5 ha each: {3}")
  @CsvSource({
    "F1_MIXTURE, 300, 300, NONE",
    "F1_MIXTURE, 1, 0.001, OWED",
    "F1_MIXTURE, 49, 0.5, OWED",
    "F1_MIXTURE, 300, 1250, NONE",
    "F1_MIXTURE, 300, 15000, OWED",
    // lines are sown thinner than farms sow
    "STERILE_FEMALE, 5, 0.5, NONE",
    "STERILE_FEMALE, 0.5, 0.5, OWED",
    // 34.5 kg on each half of the field is half the rate; 1,000 kg twice over it is twice
    "F1_MIXTURE, 34, 34, OWED",
    "F1_MIXTURE, 1000, 1000, OWED",
    "STERILE_FEMALE, 1000, 1000, OWED",
    "FERTILE_LINE, 5, 1251, OWED"
  })
  void whatWasSownFitsTheArea(CropRole role, double firstKg, double secondKg, String expected) {
    Judged judged =
        Judged.by(
            "EU",
            new OriginGate(),
            Dossiers.crop("c1")
                .with(
                    Facts.crop("c1", role),
                    Facts.sowing("c1").of("m1", firstKg).on(5),
                    Facts.sowing("c1").of("m2", secondKg).on(5))
                .scheme()
                .dossier());
    assertThat(judged.state("sowing rate")).isEqualTo(expected);
    judged.row("%s, %s and %s kg on 5 ha".formatted(role, firstKg, secondKg), expected, expected);
  }

  /** Common practice, no source: what was seen in flower counts as what was declared. */
  @ParameterizedTest(name = "seen in flower 2024-06-12, harvested {0}: {1}")
  @CsvSource({"2024-06-12, OWED", "2024-06-13, OWED", "2024-07-02, OWED", "2024-07-25, NONE"})
  void noCropIsHarvestedWhereItWasSeenInFlower(String harvested, String expected) {
    Judged judged =
        Judged.by(
            "EU",
            new OriginGate(),
            Dossiers.crop("c1")
                .with(
                    Facts.crop("c1", CropRole.F1_MIXTURE)
                        .with(crop -> crop.setFloweringFrom(null).setFloweringTo(null)),
                    Facts.inspection("c1").with(visit -> visit.setBbchStage(65)).at("2024-06-12"),
                    Facts.harvest("c1", "l1", 5000).at(harvested))
                .scheme()
                .dossier());
    assertThat(judged.state("day of harvest")).isEqualTo(expected);
  }

  /** Common practice, no source: rye sown in spring takes some three months to flower. */
  @ParameterizedTest(name = "sown {0}, seen at BBCH {1} on 2024-06-12: {2}")
  @CsvSource({
    "2023-09-25, 65, NONE",
    "2024-03-20, 65, NONE",
    "2024-05-31, 65, OWED",
    "2024-05-31, 31, NONE",
    "2024-07-01, 31, OWED"
  })
  void noCropIsSeenBeforeItGrew(String sown, int stage, String expected) {
    Judged judged =
        Judged.by(
            "EU",
            new OriginGate(),
            Dossiers.crop("c1")
                .with(
                    Facts.crop("c1", CropRole.F1_MIXTURE),
                    Facts.sowing("c1").of("m1", 500).on(5).at(sown),
                    Facts.inspection("c1")
                        .with(visit -> visit.setBbchStage(stage))
                        .at("2024-06-12"))
                .scheme()
                .dossier());
    assertThat(judged.state("visits before growth")).isEqualTo(expected);
  }

  /** Common practice, no source: nowhere has rye ears in winter. */
  @ParameterizedTest(name = "seen at BBCH {0} on {1}, at {2} degrees: {3}")
  @CsvSource({
    "65, 2024-06-12, 52, NONE",
    "65, 2024-03-20, 30, NONE",
    "65, 2024-01-20, 52, OWED",
    "55, 2024-02-20, 52, OWED",
    "31, 2024-02-20, 30, NONE",
    "65, 2023-11-20, -30, NONE",
    "65, 2024-06-12, -30, OWED"
  })
  void noRyeFlowersInWinter(int stage, String on, double latitude, String expected) {
    Judged judged =
        Judged.by(
            "EU",
            new OriginGate(),
            Dossiers.crop("c1")
                .with(
                    Facts.crop("c1", CropRole.F1_MIXTURE)
                        .with(crop -> crop.setOutline(Facts.square(10, latitude, 0.003))),
                    Facts.inspection("c1").with(visit -> visit.setBbchStage(stage)).at(on))
                .scheme()
                .dossier());
    assertThat(judged.state("visits in winter")).isEqualTo(expected);
  }

  /** Common practice, no source: winter rye is sown in the autumn before, summer rye in spring. */
  @ParameterizedTest(name = "crop of 2024 in flower from 1 June, sown {0}: {1}")
  @CsvSource({
    "2023-09-25, NONE",
    "2024-03-20, NONE",
    "2024-06-01, NONE",
    "2024-06-02, OWED",
    "2022-09-25, OWED",
    "2020-09-25, OWED"
  })
  void ryeIsSownForTheNextHarvest(String sown, String expected) {
    Judged judged =
        Judged.by(
            "EU",
            new OriginGate(),
            Dossiers.crop("c1")
                .with(
                    Facts.crop("c1", CropRole.F1_MIXTURE)
                        .with(crop -> crop.setFloweringFrom(LocalDate.of(2024, 6, 1))),
                    Facts.sowing("c1").of("m1", 500).on(5).at("2023-09-20"),
                    Facts.sowing("c1").of("m1", 500).on(5).at(sown))
                .scheme()
                .dossier());
    assertThat(judged.state("day of sowing")).isEqualTo(expected);
  }

  /** Common practice, no source. */
  @ParameterizedTest(name = "moisture {0} %: {1}")
  @CsvSource({"1.3, OWED", "4.9, OWED", "5, NONE", "13, NONE"})
  void noSeedInStoreIsDrierThanItCanBe(double percent, String expected) {
    Judged judged =
        Judged.by(
            "EU",
            new OriginGate(),
            Dossiers.lot("l1")
                .with(
                    Facts.declared("l1", Facts.HYBRID, Category.CERTIFIED, 1000),
                    Facts.moisture("l1", percent))
                .dossier());
    assertThat(judged.state("moisture")).isEqualTo(expected);
  }

  /** Common practice, no source. */
  @ParameterizedTest(name = "100 kg came 1 August, 900 kg 20 August; {0} kg went {1}: {2}")
  @CsvSource({
    "1000, 2024-08-02, OWED",
    "101, 2024-08-02, OWED",
    // what scales differ by
    "100.4, 2024-08-02, NONE",
    "100, 2024-08-02, NONE",
    "1000, 2024-08-20, NONE",
    "1000, 2024-09-01, NONE",
    // the mass balance says it
    "1100, 2024-08-02, NONE"
  })
  void noMoreGoesOutThanHasComeIn(double massKg, String on, String expected) {
    Draft<?> out = Facts.conditioning().from("l1", massKg).into("l2", massKg).at(on).id("out");
    Dossiers lot =
        Dossiers.lot("l1")
            .with(
                Facts.harvest("c1", "l1", 100).at("2024-08-01"),
                Facts.harvest("c1", "l1", 900).at("2024-08-20"))
            .parentCrop("c1", Dossiers.f1());
    assertThat(Judged.by("EU", new OriginGate(), lot.with(out).dossier()).state("stock by day"))
        .isEqualTo(expected);
  }

  @Test
  void whatWentOutWhileMoreCameInIsConfirmedByItsReason() {
    Draft<?> out =
        Facts.conditioning()
            .from("l1", 1000)
            .into("l2", 900)
            .screenings(100)
            .at("2024-08-02")
            .correcting("before", "cleaned from 2 to 21 August while the harvest came in");
    Dossiers lot =
        Dossiers.lot("l1")
            .with(
                Facts.harvest("c1", "l1", 100).at("2024-08-01"),
                Facts.harvest("c1", "l1", 900).at("2024-08-20"),
                out)
            .parentCrop("c1", Dossiers.f1());
    assertThat(Judged.by("EU", new OriginGate(), lot.dossier()).state("stock by day"))
        .isEqualTo("NONE");
  }

  /** Common practice, no source: a kernel ripens weeks after flowering. */
  @ParameterizedTest(name = "flowering {0} to {1}, harvested {2}: {3}")
  @CsvSource({
    "2024-06-01, 2024-06-20, 2024-06-15, OWED",
    "2024-06-01, 2024-06-20, 2024-06-20, OWED",
    "2024-06-01, 2024-06-20, 2024-07-10, OWED",
    "2024-06-01, 2024-06-20, 2024-07-11, NONE",
    "2024-06-01, 2024-06-20, 2024-07-25, NONE",
    "2024-06-01,           , 2024-05-30, OWED",
    "2024-06-01,           , 2024-07-25, NONE",
    "          ,           , 2024-06-15, NONE"
  })
  void noCropIsHarvestedUnripe(LocalDate from, LocalDate to, String harvested, String expected) {
    Judged judged =
        Judged.by(
            "EU",
            new OriginGate(),
            Dossiers.crop("c1")
                .with(
                    Facts.crop("c1", CropRole.F1_MIXTURE)
                        .with(crop -> crop.setFloweringFrom(from).setFloweringTo(to)),
                    Facts.harvest("c1", "l1", 5000).at(harvested))
                .scheme()
                .dossier());
    assertThat(judged.state("day of harvest")).isEqualTo(expected);
  }

  /** Common practice, no source. */
  @ParameterizedTest(name = "of 2024, declared {0}, {1} read {2}: {3}")
  @CsvSource({
    "2024-09-10, PLOT, 2024-09-11, OWED",
    "2024-09-10, PLOT, 2025-01-07, OWED",
    "2024-08-01, PLOT, 2024-12-05, OWED",
    "2024-08-01, PLOT, 2025-02-28, OWED",
    "2024-09-10, PLOT, 2025-06-15, NONE",
    "2024-09-10, MARKER, 2024-09-11, NONE",
    // south of the equator the seed of January is grown in the same year
    "2024-02-01, PLOT, 2024-11-10, NONE",
    // bought in late: its breeder had it in a plot before
    "2025-09-10, PLOT, 2025-09-11, NONE"
  })
  void plantsAreCountedWhenThereAreAny(
      String declared, PostControlMethod method, String read, String expected) {
    Judged judged =
        Judged.by(
            "EU",
            new OriginGate(),
            Dossiers.lot("l1")
                .with(
                    Facts.declared("l1", Facts.SINGLE_CROSS, Category.BASIC, 1000).at(declared),
                    Facts.postControl("l1", 2000, 0)
                        .with(result -> result.setMethod(method))
                        .at(read))
                .dossier());
    assertThat(judged.state("days of plots")).isEqualTo(expected);
  }
}
