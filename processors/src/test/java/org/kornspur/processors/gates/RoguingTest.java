package org.kornspur.processors.gates;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.contract.CropRole;
import org.kornspur.contract.InspectedPart;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.fixture.Dossiers;
import org.kornspur.processors.fixture.Draft;
import org.kornspur.processors.fixture.Facts;
import org.kornspur.processors.fixture.Verdicts;
import org.kornspur.processors.verdict.Measured;
import org.kornspur.processors.verdict.Verdict;

/**
 * What a later visit finds gone: nothing before the flower, by the days in it. SaatV section 8(1),
 * read, has faults that can be mended inspected again; the days are common practice, no source.
 */
class RoguingTest {

  @ParameterizedTest(name = "{0}: {1} at BBCH {2} on {3}, {4} in {5} m2 at BBCH {6} on {7}: {8}")
  @CsvSource(
      textBlock =
          """
          # 20 in 150 m2, rogued before the flower, clean later
          F1_MIXTURE,     20, 55, 2024-05-25, 0,  150, 63, 2024-06-04, MET
          STERILE_FEMALE, 20, 55, 2024-05-25, 0,  150, 63, 2024-06-04, MET
          F1_MIXTURE,     20, 55, 2024-05-25, 11, 150, 63, 2024-06-04, MET
          # those that are gone may have shed on 3 of 15 days, so they are 4 beside the 15
          F1_MIXTURE,     20, 55, 2024-05-25, 15, 150, 63, 2024-06-04, NOT_MET
          # found gone at the end of flowering alone
          F1_MIXTURE,     16, 55, 2024-05-25, 0,  150, 69, 2024-06-15, MET
          F1_MIXTURE,     20, 55, 2024-05-25, 0,  150, 69, 2024-06-15, NOT_MET
          STERILE_FEMALE, 20, 55, 2024-05-25, 0,  150, 69, 2024-06-15, NOT_MET
          # no cure: still too many, too small a count, none at all later, or no later day
          F1_MIXTURE,     20, 55, 2024-05-25, 16, 150, 63, 2024-06-04, NOT_MET
          F1_MIXTURE,     20, 55, 2024-05-25, 0,  100, 63, 2024-06-04, NOT_MET
          F1_MIXTURE,     20, 55, 2024-05-25, 0,  150, 31, 2024-06-04, NOT_MET
          F1_MIXTURE,     20, 55, 2024-05-25, 0,  150, 55, 2024-05-25, NOT_MET
          # an earlier clean visit cures nothing
          F1_MIXTURE,     20, 63, 2024-06-04, 0,  150, 55, 2024-05-25, NOT_MET
          # in flower, 1 to 15 June: 20 for 6 of 15 days are 8, so at most 15 and over 5
          F1_MIXTURE,     20, 63, 2024-06-02, 0,  150, 65, 2024-06-07, MET
          STERILE_FEMALE, 20, 63, 2024-06-02, 0,  150, 65, 2024-06-07, NOT_MET
          # 60 for 6 of 15 days are 24
          F1_MIXTURE,     60, 63, 2024-06-02, 0,  150, 65, 2024-06-07, NOT_MET
          # those that are left count too: 8 and 8
          F1_MIXTURE,     20, 63, 2024-06-02, 8,  150, 65, 2024-06-07, NOT_MET
          # found gone only when all was over
          F1_MIXTURE,     20, 63, 2024-06-02, 0,  150, 75, 2024-06-20, NOT_MET
          """)
  void offTypes(
      CropRole role,
      int first,
      int firstStage,
      String firstDay,
      int later,
      double areaM2,
      int laterStage,
      String laterDay,
      String expected) {
    Judged judged =
        Judged.by(
            "DE",
            new OffTypesGate(),
            crop(
                role,
                Facts.inspection("c1")
                    .female()
                    .visit(1)
                    .offTypesInArea(first, 150)
                    .with(count -> count.setBbchStage(firstStage))
                    .at(firstDay),
                Facts.inspection("c1")
                    .female()
                    .visit(2)
                    .offTypesInArea(later, areaM2)
                    .with(count -> count.setBbchStage(laterStage))
                    .at(laterDay),
                Facts.inspection("c1")
                    .of(InspectedPart.POLLEN_PARENT)
                    .visit(2)
                    .offTypesInArea(0, 150)
                    .with(count -> count.setBbchStage(55))
                    .at("2024-05-30")));
    assertThat(judged.worst()).isEqualTo(expected);
    judged.row(
        "rogued, %s: %d at BBCH %d on %s, then %d in %s m2 at BBCH %d on %s"
            .formatted(role, first, firstStage, firstDay, later, areaM2, laterStage, laterDay),
        expected,
        judged.worst());
  }

  /** The interval is that of the 3 on 150 m2 that are left: 0.6187 to 8.7673 of it (Garwood). */
  @Test
  void whatIsGoneMakesTheIntervalOfWhatIsLeftNoWider() {
    Judged judged =
        Judged.by(
            "DE",
            new OffTypesGate(),
            crop(
                CropRole.F1_MIXTURE,
                Facts.inspection("c1")
                    .female()
                    .visit(1)
                    .offTypesInArea(40, 150)
                    .with(count -> count.setBbchStage(55))
                    .at("2024-05-25"),
                Facts.inspection("c1")
                    .female()
                    .visit(2)
                    .offTypesInArea(3, 150)
                    .with(count -> count.setBbchStage(59))
                    .at("2024-05-29")));
    assertThat(judged.worst()).isEqualTo("MET");
    assertThat(judged.verdicts())
        .hasSize(3)
        .allSatisfy(
            verdict -> {
              Measured.Interval interval =
                  ((Verdict.Met) verdict).measured().interval().orElseThrow();
              assertThat(interval.lower()).isCloseTo(0.6187 / 150, within(1e-6));
              assertThat(interval.upper()).isCloseTo(8.7673 / 150, within(1e-6));
            });
    assertThat(Verdicts.withNested(judged.findings()))
        .extracting(Coded::code)
        .doesNotContain("off-types.clustered");
  }

  @Test
  void whatWasRemovedInFlowerCountsWholeWhereItsDaysAreNotKnown() {
    Dossier unknown =
        Dossiers.crop("c1")
            .with(
                Facts.crop("c1", CropRole.F1_MIXTURE),
                Facts.inspection("c1").visit(1).offTypesInArea(20, 150).at("2024-06-02"),
                Facts.inspection("c1").visit(2).offTypesInArea(0, 150).at("2024-06-07"))
            .dossier();
    assertThat(Judged.by("DE", new OffTypesGate(), unknown).worst()).isEqualTo("NOT_MET");
  }

  @ParameterizedTest(name = "{0}: 8 at the first visit, {1} at the second: {2}")
  @CsvSource(
      textBlock =
          """
          # cereals are taken out before they set seed
          other cereals, 0, MET
          other cereals, 7, NOT_MET
          # SaatV Annex 2 no. 1.2.2: smutted plants may not be taken out; the average counts
          smuts, 0, MET
          smuts, 3, NOT_MET
          """)
  void otherPlants(String kind, int later, String expected) {
    Judged judged =
        Judged.by(
            "DE",
            new OtherPlantsGate(),
            crop(
                CropRole.F1_MIXTURE,
                others(1, kind, 8, "2024-05-25"),
                others(2, kind, later, "2024-06-04")));
    assertThat(judged.state(kind)).isEqualTo(expected);
  }

  @Test
  void manyCerealsThatAreGoneAreNoAverage() {
    // 40 and 0 in 300 m2 are 20 in 150: over 6 on the average, and gone
    Dossier rogued =
        crop(
            CropRole.F1_MIXTURE,
            others(1, "other cereals", 40, "2024-05-25"),
            others(2, "other cereals", 0, "2024-06-04"));
    assertThat(Judged.by("DE", new OtherPlantsGate(), rogued).state("other cereals"))
        .isEqualTo("MET");
  }

  @ParameterizedTest(name = "{0} of 1000 shed on 2 June, {1} of {2} on {3}: {4}")
  @CsvSource(
      textBlock =
          """
          # 1 to 15 June: 5 % for 4 of 15 days are 1.3 %, and 2.5 % of the plants
          50, 0, 1000, 2024-06-05, NOT_MET
          # 3.5 % for 4 days are 0.9 %, and 1.75 % of the plants
          35, 0, 1000, 2024-06-05, MET
          # 3.5 % for 12 of 15 days are 2.8 %
          35, 0, 1000, 2024-06-13, NOT_MET
          # many plants counted later make nothing vanish: 5 % for 12 days are 4 %
          50, 0, 9000, 2024-06-13, NOT_MET
          # a few plants later show nothing gone: 3 % to the end
          30, 0, 600, 2024-06-04,  NOT_MET
          """)
  void shedders(int first, int later, int plants, String laterDay, String expected) {
    Judged judged =
        Judged.by(
            "EU",
            new SheddingFemalesGate(),
            crop(
                CropRole.STERILE_FEMALE,
                Facts.inspection("c1")
                    .female()
                    .visit(1)
                    .sheddingAmong(first, 1000)
                    .at("2024-06-02"),
                Facts.inspection("c1")
                    .female()
                    .visit(2)
                    .sheddingAmong(later, plants)
                    .at(laterDay)));
    assertThat(judged.worst()).isEqualTo(expected);
  }

  @Test
  void shedDaysThatNobodyKnowsAreOwed() {
    Judged judged =
        Judged.by(
            "EU",
            new SheddingFemalesGate(),
            Dossiers.crop("c1")
                .with(
                    Facts.crop("c1", CropRole.STERILE_FEMALE),
                    Facts.inspection("c1")
                        .female()
                        .visit(1)
                        .sheddingAmong(30, 1000)
                        .at("2024-06-02"),
                    Facts.inspection("c1")
                        .female()
                        .visit(2)
                        .sheddingAmong(0, 2000)
                        .at("2024-06-05"))
                .dossier());
    assertThat(judged.worst()).isEqualTo("OWED");
  }

  @ParameterizedTest(name = "{0} shedding, {1} in flower, {2} plants counted: {3}")
  @CsvSource(
      textBlock =
          """
          # SaatV Annex 2 no. 1.4.2.1 speaks of the plants of the component: 2 % of all fail
          41, 1500, 2000, NOT_MET
          # over 2 % of those in flower alone: the others have shown nothing yet
          40, 1500, 2000, OWED
          30, 1500, 2000, MET
          # where plants in flower alone were counted they decide
          31, 1500, ,     NOT_MET
          """)
  void theTextSpeaksOfThePlantsOfTheComponent(
      int shedding, int inFlower, Integer counted, String expected) {
    Judged judged =
        Judged.by(
            "EU",
            new SheddingFemalesGate(),
            crop(
                CropRole.STERILE_FEMALE,
                Facts.inspection("c1")
                    .female()
                    .sheddingAmong(shedding, inFlower)
                    .with(count -> count.setPlantsCounted(counted))));
    assertThat(judged.worst()).isEqualTo(expected);
  }

  private static Draft<?> others(int visit, String kind, int plants, String day) {
    return Facts.inspection("c1")
        .visit(visit)
        .offTypesInArea(0, 150)
        .with(
            count ->
                count
                    .setBbchStage(55)
                    .setOtherCerealPlants(kind.equals("other cereals") ? plants : 0)
                    .setSmutPlants(kind.equals("smuts") ? plants : 0))
        .at(day);
  }

  /** A crop that flowers from 1 to 15 June. */
  private static Dossier crop(CropRole role, Draft<?>... visits) {
    return Dossiers.crop("c1")
        .with(
            Facts.crop("c1", role)
                .with(
                    crop ->
                        crop.setFloweringFrom(LocalDate.of(2024, 6, 1))
                            .setFloweringTo(LocalDate.of(2024, 6, 15))))
        .with(visits)
        .dossier();
  }

  @ParameterizedTest(name = "flowering {0} to {1}; {2} on {3} at BBCH {4}, 0 on {5} at {6}: {7}")
  @CsvSource(
      textBlock =
          """
          # seen in flower before the days declared: it shed for 5 of 11 days, 27 beside 15
          2024-06-10, 2024-06-20, 60, 2024-06-02, 65, 2024-06-07, 67, NOT_MET
          2024-06-10, 2024-06-20, 20, 2024-06-02, 65, 2024-06-07, 67, MET
          # said not to flower yet, in the days declared: 20 for 14 of 15 days
          2024-06-01, 2024-06-15, 20, 2024-05-25, 55, 2024-06-15, 55, NOT_MET
          # or after another visit saw it flower
          ,           ,           20, 2024-06-02, 65, 2024-06-07, 55, NOT_MET
          # no rye flowers until the end of the year, so the days are not known
          2024-06-01, 2024-12-31, 300, 2024-06-02, 63, 2024-06-07, 65, NOT_MET
          2024-06-01, 2024-07-15, 20, 2024-06-02, 63, 2024-06-07, 65, MET
          2024-06-01, 2024-07-16, 20, 2024-06-02, 63, 2024-06-07, 65, NOT_MET
          """)
  void whatWasSeenStandsAgainstTheDaysDeclared(
      LocalDate from,
      LocalDate to,
      int first,
      String firstDay,
      int firstStage,
      String laterDay,
      int laterStage,
      String expected) {
    Judged judged =
        Judged.by(
            "DE",
            new OffTypesGate(),
            Dossiers.crop("c1")
                .with(
                    Facts.crop("c1", CropRole.F1_MIXTURE)
                        .with(crop -> crop.setFloweringFrom(from).setFloweringTo(to)),
                    offTypes(1, first, 150, firstDay, firstStage),
                    offTypes(2, 0, 150, laterDay, laterStage))
                .dossier());
    assertThat(judged.worst()).isEqualTo(expected);
  }

  @ParameterizedTest(name = "clean 2,000 m2 on 20 June as visit {0}: {1}")
  @CsvSource({"2, NOT_MET", "1, NOT_MET"})
  void theNumberOfAnEarlierVisitMakesNothingVanish(int number, String expected) {
    Judged judged =
        Judged.by(
            "DE",
            new OffTypesGate(),
            crop(
                CropRole.F1_MIXTURE,
                offTypes(1, 100, 150, "2024-06-02", 63),
                offTypes(number, 0, 2000, "2024-06-10", 69)));
    assertThat(judged.worst()).isEqualTo(expected);
  }

  @Test
  void norDoesItOfShedders() {
    Judged judged =
        Judged.by(
            "HOUSE",
            new SheddingFemalesGate(),
            crop(
                CropRole.STERILE_FEMALE,
                Facts.inspection("c1").female().sheddingAmong(40, 1000).at("2024-06-02"),
                Facts.inspection("c1").female().sheddingAmong(0, 9000).at("2024-06-03")));
    assertThat(judged.state("visit 1")).isEqualTo("NOT_MET");
  }

  /** 5 % to 8 June are 2.3 % of 15 days; that the crop flowers on and on makes it no less. */
  @Test
  void aLaterLookInFlowerMakesTheAverageNoBetter() {
    Draft<?>[] counts = {
      Facts.inspection("c1").female().visit(1).sheddingAmong(50, 1000).at("2024-06-03"),
      Facts.inspection("c1").female().visit(2).sheddingAmong(0, 9000).at("2024-06-08"),
      Facts.inspection("c1").female().visit(3).sheddingAmong(0, 9000).at("2024-06-25")
    };
    assertThat(
            Judged.by("EU", new SheddingFemalesGate(), crop(CropRole.STERILE_FEMALE, counts))
                .worst())
        .isEqualTo("NOT_MET");
  }

  @ParameterizedTest(name = "40 wild oats on 5 June, none on {0}: {1}")
  @CsvSource({"2024-07-20, MET", "2024-08-20, NOT_MET"})
  void aVisitAfterTheHarvestFindsNothingGone(String clean, String expected) {
    Judged judged =
        Judged.by(
            "DE",
            new OtherPlantsGate(),
            crop(
                CropRole.F1_MIXTURE,
                others(1, "other cereals", 40, "2024-06-05"),
                others(2, "other cereals", 0, clean),
                Facts.harvest("c1", "l1", 5000).at("2024-08-01"),
                // it may have been made where nothing stood any more
                Facts.harvest("c1", "l1", 5000).at("2024-08-25")));
    assertThat(judged.state("other cereals")).isEqualTo(expected);
  }

  private static Draft<?> offTypes(int visit, int found, double areaM2, String day, int stage) {
    return Facts.inspection("c1")
        .female()
        .visit(visit)
        .offTypesInArea(found, areaM2)
        .with(count -> count.setBbchStage(stage))
        .at(day);
  }
}
