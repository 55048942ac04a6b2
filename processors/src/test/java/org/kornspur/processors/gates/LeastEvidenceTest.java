package org.kornspur.processors.gates;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.contract.Category;
import org.kornspur.contract.CropRole;
import org.kornspur.contract.FloweringPart;
import org.kornspur.contract.InspectedPart;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.fixture.Dossiers;
import org.kornspur.processors.fixture.Facts;

/**
 * No count is met on too little: below the least sample, or before the growth stage from which on
 * it tells, evidence is owed, and what fails already fails. Where the text gives no least sample
 * the number is common practice, no source.
 */
class LeastEvidenceTest {

  @ParameterizedTest(name = "{0} {1}: {2} off-types in {3} m2 at BBCH {4}: {5}")
  @CsvSource(
      textBlock =
          """
          # SaatV Annex 2 no. 1.1.1 counts by 150 m2
          DE, STERILE_FEMALE, 0, 1,   65, OWED
          DE, F1_MIXTURE,     0, 149, 65, OWED
          DE, F1_MIXTURE,     0, 150, 65, MET
          # common practice, no source
          EU, F1_MIXTURE,     0, 1,   65, OWED
          EU, F1_MIXTURE,     0, 150, 65, MET
          EU, POLLINATOR,     1, 30,  65, OWED
          # before the ears emerge
          EU, F1_MIXTURE,     0, 150, 31, OWED
          EU, F1_MIXTURE,     0, 150, 51, MET
          # what fails already fails, thin or early
          EU, F1_MIXTURE,     2, 10,  65, NOT_MET
          EU, F1_MIXTURE,     16, 150, 31, NOT_MET
          """)
  void ofOffTypesByArea(
      String book, CropRole role, int offTypes, double areaM2, int stage, String expected) {
    Judged judged =
        Judged.by(
            book,
            new OffTypesGate(),
            Dossiers.crop("c1")
                .with(
                    Facts.crop("c1", role),
                    Facts.inspection("c1")
                        .offTypesInArea(offTypes, areaM2)
                        .with(count -> count.setBbchStage(stage)))
                .dossier());
    assertThat(judged.worst()).isEqualTo(expected);
    judged.row(
        "least area, %s %s: %d off-types in %s m2 at BBCH %d"
            .formatted(book, role, offTypes, areaM2, stage),
        expected,
        judged.worst());
  }

  @Test
  void ofOffTypesByAreaTakesSmallVisitsTogether() {
    Judged judged =
        Judged.by(
            "EU",
            new OffTypesGate(),
            Dossiers.crop("c1")
                .with(
                    Facts.crop("c1", CropRole.F1_MIXTURE),
                    Facts.inspection("c1").visit(1).offTypesInArea(0, 75).at("2024-06-01"),
                    Facts.inspection("c1").visit(2).offTypesInArea(0, 75).at("2024-06-08"))
                .dossier());
    assertThat(judged.worst()).isEqualTo("MET");
  }

  @ParameterizedTest(name = "US {0}: {1} off-types among {2} plants: {3}")
  @CsvSource(
      textBlock =
          """
          # 7 CFR 201.76: the number of plants in which one is permitted, from memory for rye
          STERILE_FEMALE, 0, 1,    OWED
          STERILE_FEMALE, 0, 2999, OWED
          STERILE_FEMALE, 0, 3000, MET
          F1_MIXTURE,     0, 999,  OWED
          F1_MIXTURE,     0, 1000, MET
          """)
  void ofOffTypesByPlants(CropRole role, int offTypes, int plants, String expected) {
    Judged judged =
        Judged.by(
            "US",
            new OffTypesGate(),
            Dossiers.crop("c1")
                .with(
                    Facts.crop("c1", role), Facts.inspection("c1").offTypesAmong(offTypes, plants))
                .dossier());
    assertThat(judged.worst()).isEqualTo(expected);
  }

  @Test
  void thePollenParentAloneSaysNothingOfTheFemale() {
    Judged judged =
        Judged.by(
            "EU",
            new OffTypesGate(),
            Dossiers.crop("c1")
                .with(
                    Facts.crop("c1", CropRole.STERILE_FEMALE),
                    Facts.inspection("c1").of(InspectedPart.POLLEN_PARENT).offTypesInArea(0, 150))
                .dossier());
    assertThat(judged.worst()).isEqualTo("OWED");
  }

  @ParameterizedTest(name = "{0} smutted plants in {1} m2: {2}")
  @CsvSource(
      textBlock =
          """
          # SaatV Annex 2 no. 1.1.1 and 1.2.1 count by 150 m2
          0, 1,   OWED
          0, 150, MET
          1, 10,  NOT_MET
          """)
  void ofOtherPlants(int smut, double areaM2, String expected) {
    Judged judged =
        Judged.by(
            "DE",
            new OtherPlantsGate(),
            Dossiers.crop("c1")
                .with(
                    Facts.crop("c1", CropRole.F1_MIXTURE),
                    Facts.inspection("c1")
                        .offTypesInArea(0, areaM2)
                        .with(
                            count ->
                                count
                                    .setOtherCerealPlants(0)
                                    .setHardToSeparatePlants(0)
                                    .setWildOatPlants(0)
                                    .setSmutPlants(smut)))
                .dossier());
    assertThat(judged.state("smuts")).isEqualTo(expected);
  }

  @ParameterizedTest(name = "{0} shedding among {1} in flower at BBCH {2}: {3}")
  @CsvSource(
      textBlock =
          """
          # common practice, no source: 1,000 plants in flower, BBCH 61 to 69
          0,  1,    65, OWED
          4,  200,  65, OWED
          0,  999,  65, OWED
          20, 1000, 65, MET
          0,  1000, 55, OWED
          # one of ten fails already
          1,  10,   65, NOT_MET
          """)
  void ofSheddingFemales(int shedding, int inFlower, int stage, String expected) {
    Judged judged =
        Judged.by(
            "EU",
            new SheddingFemalesGate(),
            Dossiers.crop("c1")
                .with(
                    Facts.crop("c1", CropRole.STERILE_FEMALE),
                    Facts.inspection("c1")
                        .female()
                        .sheddingAmong(shedding, inFlower)
                        .with(count -> count.setBbchStage(stage)))
                .dossier());
    assertThat(judged.worst()).isEqualTo(expected);
  }

  @ParameterizedTest(name = "{0} of {1} plants shed, {2} of {3} ears set seed, on {4}: {5}")
  @CsvSource(
      textBlock =
          """
          # common practice, no source: 1,000 plants, or 100 bagged ears
          0, 1,    ,  ,    2024-06-05, OWED
          0, 999,  ,  ,    2024-06-05, OWED
          0, 1000, ,  ,    2024-06-05, MET
          0, 0,    0, 1,   2024-06-15, OWED
          0, 0,    0, 100, 2024-06-15, MET
          0, 0,    0, 100, 2024-07-20, MET
          # bagged ears show their seed from the end of flowering on
          0, 0,    0, 100, 2024-05-10, OWED
          0, 0,    0, 100, 2024-06-05, OWED
          0, 0,    3, 100, 2024-06-05, NOT_MET
          # few ears beside enough plants are no want
          0, 1000, 0, 10,  2024-06-05, MET
          0, 1000, 1, 10,  2024-06-05, NOT_MET
          # the crop flowers from 1 to 15 June
          0, 1000, ,  ,    2024-05-20, OWED
          0, 1000, ,  ,    2024-07-01, OWED
          30, 1000, , ,    2024-05-20, NOT_MET
          """)
  void ofSterility(
      int shedding, int plants, Integer withSeed, Integer bagged, String on, String expected) {
    Judged judged =
        Judged.by(
            "EU",
            new FemaleSterilityGate(),
            Dossiers.crop("c1")
                .with(
                    Facts.crop("c1", CropRole.STERILE_FEMALE)
                        .with(
                            crop ->
                                crop.setFloweringFrom(LocalDate.of(2024, 6, 1))
                                    .setFloweringTo(LocalDate.of(2024, 6, 15))),
                    Facts.sterility("c1", plants, shedding)
                        .with(check -> check.setBaggedEars(bagged).setBaggedEarsWithSeed(withSeed))
                        .at(on))
                .dossier());
    assertThat(judged.worst()).isEqualTo(expected);
  }

  @ParameterizedTest(name = "{0}, visits at BBCH {1} and {2} on days {3} and {4}: {5}")
  @CsvSource(
      textBlock =
          """
          # common practice, no source: from BBCH 51 on, one in flower (61 to 69)
          EU,    31, 31, 1, 8, OWED
          EU,    55, 57, 1, 8, OWED
          EU,    31, 65, 1, 8, MET
          EU,    55, 65, 1, 8, MET
          # the example house asks for two: one too early, or both on one day, is one
          HOUSE, 31, 65, 1, 8, OWED
          HOUSE, 63, 65, 5, 5, OWED
          HOUSE, 63, 65, 5, 8, MET
          """)
  void ofVisits(String book, int first, int second, int firstDay, int secondDay, String expected) {
    Judged judged =
        Judged.by(
            book,
            new FieldInspectionsGate(),
            Dossiers.crop("c1")
                .with(
                    Facts.crop("c1", CropRole.POLLINATOR),
                    Facts.inspection("c1")
                        .visit(1)
                        .offTypesInArea(0, 150)
                        .with(count -> count.setBbchStage(first))
                        .at("2024-06-0" + firstDay),
                    Facts.inspection("c1")
                        .visit(2)
                        .offTypesInArea(0, 150)
                        .with(count -> count.setBbchStage(second))
                        .at("2024-06-0" + secondDay))
                .dossier());
    assertThat(judged.worst()).isEqualTo(expected);
  }

  @ParameterizedTest(name = "{0} {1}: {2} visits: {3}")
  @CsvSource(
      textBlock =
          """
          # SaatV section 7(1), (1a) and (2), read
          DE, STERILE_FEMALE, 2, OWED
          DE, STERILE_FEMALE, 3, MET
          DE, MAINTAINER,     1, OWED
          DE, MAINTAINER,     2, MET
          DE, POLLINATOR,     1, OWED
          DE, POLLINATOR,     2, MET
          DE, F1_MIXTURE,     1, OWED
          DE, F1_MIXTURE,     2, MET
          """)
  void ofVisitsByTheSeedOrdinance(String book, CropRole role, int visits, String expected) {
    Dossiers dossiers = Dossiers.crop("c1").with(Facts.crop("c1", role));
    for (int visit = 1; visit <= visits; visit++) {
      dossiers.with(
          Facts.inspection("c1").visit(visit).offTypesInArea(0, 150).at("2024-06-0" + visit));
    }
    Judged judged = Judged.by(book, new FieldInspectionsGate(), dossiers.dossier());
    assertThat(judged.worst()).isEqualTo(expected);
    judged.row("visits, %s %s: %d".formatted(book, role, visits), expected, judged.worst());
  }

  @Test
  void theFertileComponentBesideTheSterileOneIsVisitedTwice() {
    Dossiers dossiers = Dossiers.crop("c1").with(Facts.crop("c1", CropRole.STERILE_FEMALE));
    for (int visit = 1; visit <= 3; visit++) {
      dossiers.with(
          Facts.inspection("c1")
              .visit(visit)
              .female()
              .offTypesInArea(0, 150)
              .at("2024-06-0" + visit));
    }
    // SaatV section 7(1) and (2) no. 2
    assertThat(Judged.by("DE", new FieldInspectionsGate(), dossiers.dossier()).worst())
        .isEqualTo("OWED");
    dossiers.with(
        Facts.inspection("c1").visit(1).of(InspectedPart.POLLEN_PARENT).at("2024-06-01"),
        Facts.inspection("c1").visit(2).of(InspectedPart.POLLEN_PARENT).at("2024-06-02"));
    assertThat(Judged.by("DE", new FieldInspectionsGate(), dossiers.dossier()).worst())
        .isEqualTo("MET");
  }

  @ParameterizedTest(name = "{0} off-types of {1} plants: {2}")
  @CsvSource(
      textBlock =
          """
          # common practice, no source: 1,000 plants of a component
          0, 1,    OWED
          0, 999,  OWED
          0, 1000, MET
          1, 1,    NOT_MET
          """)
  void ofPostControl(int offTypes, int plants, String expected) {
    Judged judged =
        Judged.by(
            "EU",
            new PostControlGate(),
            Dossiers.lot("l1")
                .scheme()
                .with(
                    Facts.declared("l1", Facts.RESTORER, Category.BASIC, 1000),
                    Facts.postControl("l1", plants, offTypes))
                .dossier());
    assertThat(judged.worst()).isEqualTo(expected);
  }

  @Test
  void aSmallPlotBesideALargeOneIsNoWant() {
    Dossiers lot =
        Dossiers.lot("l1")
            .scheme()
            .with(
                Facts.declared("l1", Facts.RESTORER, Category.BASIC, 1000),
                Facts.postControl("l1", 2000, 0).with(plot -> plot.setPlotOrTestId("large")),
                Facts.postControl("l1", 100, 0).with(plot -> plot.setPlotOrTestId("small")));
    assertThat(Judged.by("EU", new PostControlGate(), lot.dossier()).worst()).isEqualTo("MET");
    lot.with(Facts.postControl("l1", 100, 9).with(plot -> plot.setPlotOrTestId("bad")));
    assertThat(Judged.by("EU", new PostControlGate(), lot.dossier()).worst()).isEqualTo("NOT_MET");
  }

  @ParameterizedTest(
      name = "plots of 600 and {2} plants, {0} and {1} off-types, ids alike {3}: {4}")
  @CsvSource(
      textBlock =
          """
          # common practice, no source: replicates are counted together, and each fails alone
          0, 0, 650, false, MET
          0, 0, 399, false, OWED
          0, 0, 650, true,  OWED
          0, 9, 650, false, NOT_MET
          # 4 of 600 and 4 of 650 hold by themselves; 8 of 1,250 are the reject number of 99.7 %
          4, 4, 650, false, OWED
          """)
  void ofPostControlTakesPlotsTogether(
      int first, int second, int plants, boolean alike, String expected) {
    Dossiers lot =
        Dossiers.lot("l1")
            .scheme()
            .with(
                Facts.declared("l1", Facts.RESTORER, Category.BASIC, 1000),
                Facts.postControl("l1", 600, first).with(plot -> plot.setPlotOrTestId("1")),
                Facts.postControl("l1", plants, second)
                    .with(plot -> plot.setPlotOrTestId(alike ? "1" : "2")));
    assertThat(Judged.by("EU", new PostControlGate(), lot.dossier()).worst()).isEqualTo(expected);
  }

  /** Of certified seed no post-control is asked for. */
  @ParameterizedTest(name = "{0} off-types among {1} plants of certified seed: {2}")
  @CsvSource({"0, 300, MET", "1, 300, MET", "2, 50, OWED", "9, 50, NOT_MET"})
  void aSmallCleanPlotIsNoWantWhereNoneIsAskedFor(int offTypes, int plants, String expected) {
    Dossiers lot =
        Dossiers.lot("l1")
            .with(
                Facts.declared("l1", Facts.HYBRID, Category.CERTIFIED, 1000),
                Facts.postControl("l1", plants, offTypes));
    assertThat(Judged.by("EU", new PostControlGate(), lot.dossier()).worst()).isEqualTo(expected);
  }

  /** One count under two ids is one count; common practice, no source. */
  @Test
  void aRepeatMakesNoCountLarger() {
    Dossiers crop =
        Dossiers.crop("c1")
            .with(
                Facts.crop("c1", CropRole.F1_MIXTURE),
                Facts.inspection("c1").offTypesInArea(0, 75).id("a"),
                Facts.inspection("c1").offTypesInArea(0, 75).id("b"));
    assertThat(Judged.by("EU", new OffTypesGate(), crop.dossier()).worst()).isEqualTo("OWED");
    crop.with(Facts.inspection("c1").offTypesInArea(0, 76));
    assertThat(Judged.by("EU", new OffTypesGate(), crop.dossier()).worst()).isEqualTo("MET");

    Dossiers female =
        Dossiers.crop("c1")
            .with(
                Facts.crop("c1", CropRole.STERILE_FEMALE)
                    .with(
                        declared ->
                            declared
                                .setFloweringFrom(LocalDate.of(2024, 6, 1))
                                .setFloweringTo(LocalDate.of(2024, 6, 15))),
                Facts.sterility("c1", 500, 0).at("2024-06-05").id("a"),
                Facts.sterility("c1", 500, 0).at("2024-06-05").id("b"));
    assertThat(Judged.by("EU", new FemaleSterilityGate(), female.dossier()).worst())
        .isEqualTo("OWED");
    female.with(Facts.sterility("c1", 500, 0).at("2024-06-06"));
    assertThat(Judged.by("EU", new FemaleSterilityGate(), female.dossier()).worst())
        .isEqualTo("MET");
  }

  @Test
  void whatFailsCountsEachTime() {
    Judged judged =
        Judged.by(
            "EU",
            new OffTypesGate(),
            Dossiers.crop("c1")
                .with(
                    Facts.crop("c1", CropRole.F1_MIXTURE),
                    Facts.inspection("c1").offTypesInArea(12, 75),
                    Facts.inspection("c1").offTypesInArea(12, 75),
                    Facts.inspection("c1").offTypesInArea(0, 75))
                .dossier());
    assertThat(judged.worst()).isEqualTo("NOT_MET");
  }

  @ParameterizedTest(name = "{0}: {1} counted in {2} m2: {3}")
  @CsvSource(
      textBlock =
          """
          # off-types of a basic cross are limited in both components; that one was looked at is
          # common practice, no source
          EU,   ,              ,    OWED
          EU,   POLLEN_PARENT, 150, MET
          EU,   POLLEN_PARENT, 149, OWED
          EU,   WHOLE_CROP,    150, MET
          EU,   WHOLE_CROP,    1,   OWED
          OECD, ,              ,    OWED
          HOUSE, ,             ,    OWED
          HOUSE, POLLEN_PARENT, 150, MET
          """)
  void ofThePollenParent(String book, InspectedPart part, Double areaM2, String expected) {
    Dossiers crop =
        Dossiers.crop("c1")
            .with(
                Facts.crop("c1", CropRole.STERILE_FEMALE),
                Facts.inspection("c1").female().offTypesInArea(0, 450));
    if (part != null) {
      crop.with(Facts.inspection("c1").of(part).offTypesInArea(0, areaM2));
    }
    assertThat(Judged.by(book, new OffTypesGate(), crop.dossier()).worst()).isEqualTo(expected);
  }

  @Test
  void oneVisitThatIsCountedOnTwoDaysIsOneVisit() {
    Judged judged =
        Judged.by(
            "HOUSE",
            new FieldInspectionsGate(),
            Dossiers.crop("c1")
                .with(
                    Facts.crop("c1", CropRole.POLLINATOR),
                    Facts.inspection("c1").visit(1).at("2024-06-05"),
                    Facts.inspection("c1").visit(1).at("2024-06-06"))
                .dossier());
    assertThat(judged.worst()).isEqualTo("OWED");
  }

  @ParameterizedTest(name = "five spots of 30 m2 with none, {0} minutes apart: {1}")
  @CsvSource({"0, OWED", "5, MET"})
  void equalSpotsAreToldApartByTheirTime(int minutes, String expected) {
    Dossiers crop = Dossiers.crop("c1").with(Facts.crop("c1", CropRole.F1_MIXTURE));
    for (int spot = 0; spot < 5; spot++) {
      crop.with(
          Facts.inspection("c1")
              .offTypesInArea(0, 30)
              .at("2024-06-05T09:%02d:00Z".formatted(spot * minutes)));
    }
    assertThat(Judged.by("EU", new OffTypesGate(), crop.dossier()).worst()).isEqualTo(expected);
  }

  @ParameterizedTest(name = "declared until {0}, {1} seen in flower on {2} and {3}: {4}")
  @CsvSource(
      textBlock =
          """
          # 1,000 plants on 18 June; common practice, no source
          2024-06-15, FEMALE,        ,           ,           OWED
          2024-06-15, FEMALE,        2024-06-14, 2024-06-20, MET
          2024-06-15, POLLEN_PARENT, 2024-06-14, 2024-06-20, OWED
                    , FEMALE,        2024-06-14, 2024-06-20, MET
                    , FEMALE,        2024-06-18, 2024-06-18, MET
                    , FEMALE,        2024-06-14, 2024-06-17, OWED
                    , POLLEN_PARENT, 2024-06-14, 2024-06-20, OWED
          # longer than any rye flowers
                    , FEMALE,        2024-05-01, 2024-06-30, OWED
          """)
  void sterilityShowsBetweenTwoLooksInFlower(
      LocalDate to, FloweringPart part, String first, String second, String expected) {
    Dossiers crop =
        Dossiers.crop("c1")
            .with(
                Facts.crop("c1", CropRole.STERILE_FEMALE)
                    .with(
                        declared ->
                            declared
                                .setFloweringFrom(to == null ? null : LocalDate.of(2024, 6, 1))
                                .setFloweringTo(to)),
                Facts.sterility("c1", 1000, 0).at("2024-06-18"));
    if (first != null) {
      crop.with(
          Facts.flowering("c1", part, 65).at(first), Facts.flowering("c1", part, 65).at(second));
    }
    Judged judged = Judged.by("EU", new FemaleSterilityGate(), crop.dossier());
    assertThat(judged.worst()).isEqualTo(expected);
    if (expected.equals("OWED")) {
      judged.asksFor(new Evidence.FloweringDays());
    }
  }

  @ParameterizedTest(name = "{0} m2 at BBCH 51, in flower {1} and {2} m2: {3}")
  @CsvSource(
      textBlock =
          """
          # common practice, no source: what sheds or is not true to type shows in flower alone
          149.9, 0.1, ,   OWED
          150,   ,    ,   OWED
          150,   150, ,   MET
          150,   75,  75, MET
          150,   75,  74, OWED
          """)
  void aGlanceAtAFewPlantsInFlowerIsNoVisit(
      double before, Double first, Double second, String expected) {
    Dossiers crop =
        Dossiers.crop("c1")
            .with(
                Facts.crop("c1", CropRole.POLLINATOR),
                Facts.inspection("c1")
                    .offTypesInArea(0, before)
                    .with(count -> count.setBbchStage(51))
                    .at("2024-05-25"),
                Facts.inspection("c1").visit(2).with(c -> c.setAreaM2(first)).at("2024-06-05"),
                Facts.inspection("c1").visit(3).with(c -> c.setAreaM2(second)).at("2024-06-08"));
    assertThat(Judged.by("EU", new FieldInspectionsGate(), crop.dossier()).worst())
        .isEqualTo(expected);
  }
}
