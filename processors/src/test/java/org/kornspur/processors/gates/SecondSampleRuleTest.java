package org.kornspur.processors.gates;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.contract.Category;
import org.kornspur.contract.OtherSeedDetermination;
import org.kornspur.processors.fixture.Dossiers;
import org.kornspur.processors.fixture.Draft;
import org.kornspur.processors.fixture.Facts;

/**
 * What a second sample excuses: arrete of 15 September 1982, Annexe II, notes (b) and (c), read in
 * the French transposition. Wild oats, Raphanus, Agrostemma and Lolium temulentum are within the
 * other plants: heading of SaatV Annex 3 no. 1.1, read.
 */
class SecondSampleRuleTest {
  private static final String OATS = "seeds of wild oats";
  private static final String DARNEL = "seeds of Lolium temulentum";
  private static final String PLANTS = "seeds of other plants";
  private static final String TOTAL = "seeds of other species";

  @ParameterizedTest(name = "first oats {0}, darnel {1}; second oats {2}, darnel {3}: {4}")
  @CsvSource(
      textBlock =
          """
          1, 0, 0, 0, MET
          0, 1, 0, 0, MET
          # the excuse belongs to one seed of one kind
          1, 0, 0, 1, NOT_MET
          0, 1, 1, 0, NOT_MET
          1, 1, 0, 0, NOT_MET
          1, 0, 1, 0, NOT_MET
          2, 0, 0, 0, NOT_MET
          """)
  void oneSeedOfOneKindIsExcused(
      int oats, int darnel, int oatsThen, int darnelThen, String expected) {
    Judged judged =
        Judged.by(
            "EU",
            new OtherSeedsGate(),
            lot(Category.CERTIFIED)
                .with(sample(1, 500, oats, darnel), sample(2, 500, oatsThen, darnelThen))
                .dossier());
    assertThat(judged.worst()).isEqualTo(expected);
    judged.row(
        "wild oats and darnel, %d and %d, then %d and %d"
            .formatted(oats, darnel, oatsThen, darnelThen),
        expected,
        expected);
  }

  @ParameterizedTest(name = "{0} wild oats in {1} g, second sample clean: {2}")
  @CsvSource({"1, 500, MET", "1, 1000, MET", "2, 1000, NOT_MET", "3, 1000, NOT_MET"})
  void twoInAThousandGramsAreNotOne(int oats, double massG, String expected) {
    Judged judged =
        Judged.by(
            "EU",
            new OtherSeedsGate(),
            lot(Category.CERTIFIED)
                .with(sample(1, massG, oats, 0), sample(2, 500, 0, 0))
                .dossier());
    assertThat(judged.state(OATS)).isEqualTo(expected);
    judged.row("wild oats %d in %s g, then 0".formatted(oats, massG), expected, expected);
  }

  /** One is allowed, a second only by a second sample that is free of them: note (b). */
  @ParameterizedTest(name = "{0} other cereals in {1} g of basic seed, second sample {2}: {3}")
  @CsvSource({
    "1, 500, ,   MET",
    "1, 1000, ,  MET",
    "2, 500, ,   OWED",
    "2, 1000, ,  OWED",
    "2, 1000, 0, MET",
    "2, 1000, 1, NOT_MET",
    "3, 1000, ,  NOT_MET"
  })
  void twoCerealsInAThousandGramsAreTwo(
      int cereals, double massG, Integer second, String expected) {
    Dossiers lot = lot(Category.BASIC).with(cereals(1, massG, cereals));
    if (second != null) {
      lot.with(cereals(2, 500, second));
    }
    Judged judged = Judged.by("EU", new OtherSeedsGate(), lot.dossier());
    assertThat(judged.state("seeds of other cereals")).isEqualTo(expected);
    judged.row(
        "other cereals %d in %s g, then %s".formatted(cereals, massG, second), expected, expected);
  }

  private static Draft<?> cereals(int number, double massG, int cereals) {
    return Facts.otherSeeds("l1")
        .with(sample -> sample.setSampleNumber(number).setSampleG(massG).setOtherCereals(cereals));
  }

  /** SaatV Annex 3 no. 1.1.3, read: the zeros of rye bear no footnote, so nothing is excused. */
  @Test
  void germanyExcusesNeitherWildOatNorDarnel() {
    for (Category category : new Category[] {Category.BASIC, Category.CERTIFIED}) {
      Judged judged =
          Judged.by(
              "DE",
              new OtherSeedsGate(),
              lot(category).with(sample(1, 500, 1, 0), sample(2, 500, 0, 0)).dossier());
      assertThat(judged.state(OATS)).isEqualTo("NOT_MET");
      Judged darnel =
          Judged.by(
              "DE",
              new OtherSeedsGate(),
              lot(category).with(sample(1, 500, 0, 1), sample(2, 500, 0, 0)).dossier());
      assertThat(darnel.state(DARNEL)).isEqualTo("NOT_MET");
    }
  }

  @ParameterizedTest(name = "plants {0} with {1} wild oats, second sample {2}: plants {3}, all {4}")
  @CsvSource(
      textBlock =
          """
          # basic seed: 3 other plants, 4 in all; the excused seed counts in neither
          4, 1, clean, MET, MET
          4, 0, clean, NOT_MET, MET
          5, 1, clean, NOT_MET, MET
          # not excused yet
          4, 1, none, OWED, MET
          # not excused
          4, 1, oats, NOT_MET, MET
          """)
  void anExcusedSeedCountsNoMoreInTheSums(
      int plants, int oats, String second, String expectedPlants, String expectedTotal) {
    Dossiers lot =
        lot(Category.BASIC).with(sample(1, 500, oats, 0).with(s -> s.setOtherPlants(plants)));
    if (!second.equals("none")) {
      lot.with(sample(2, 500, second.equals("oats") ? 1 : 0, 0));
    }
    Judged judged = Judged.by("EU", new OtherSeedsGate(), lot.dossier());
    assertThat(judged.state(PLANTS)).isEqualTo(expectedPlants);
    if (plants == 4) {
      assertThat(judged.state(TOTAL)).isEqualTo(expectedTotal);
    }
  }

  @Test
  void wildOatsAreWithinOtherPlantsHoweverTheyWereEntered() {
    Judged judged =
        Judged.by(
            "EU",
            new OtherSeedsGate(),
            lot(Category.BASIC)
                .with(
                    sample(1, 500, 0, 0).with(s -> s.setOtherPlants(0).setRaphanusAndAgrostemma(4)))
                .dossier());
    assertThat(judged.state(PLANTS)).isEqualTo("NOT_MET");
  }

  @ParameterizedTest(name = "{0} bodies in {1} g: {2}")
  @CsvSource({"6, 400, NOT_MET", "5, 400, OWED", "4, 400, OWED", "0, 400, OWED", "6, 500, NOT_MET"})
  void tooManyInTooLightASampleAreTooMany(int bodies, double massG, String expected) {
    Judged judged =
        Judged.by(
            "EU",
            new ErgotGate(),
            lot(Category.CERTIFIED)
                .with(sample(1, massG, 0, 0).with(sample -> sample.setErgotBodies(bodies)))
                .dossier());
    assertThat(judged.worst()).isEqualTo(expected);
    judged.row("ergot %d in %s g".formatted(bodies, massG), expected, expected);
  }

  @Test
  void aHeavierSampleDoesNotUndoTooManyInALightOne() {
    Judged judged =
        Judged.by(
            "EU",
            new ErgotGate(),
            lot(Category.CERTIFIED)
                .with(
                    sample(1, 400, 0, 0).with(sample -> sample.setErgotBodies(6)),
                    sample(1, 500, 0, 0).with(sample -> sample.setErgotBodies(2)))
                .dossier());
    assertThat(judged.worst()).isEqualTo("NOT_MET");
  }

  private static Facts.Plain<OtherSeedDetermination.Builder> sample(
      int number, double massG, int oats, int darnel) {
    return Facts.otherSeeds("l1")
        .with(
            sample ->
                sample
                    .setSampleNumber(number)
                    .setSampleG(massG)
                    .setWildOats(oats)
                    .setLoliumTemulentum(darnel)
                    .setOtherPlants(oats + darnel));
  }

  private static Dossiers lot(Category category) {
    return Dossiers.lot("l1").with(Facts.declared("l1", Facts.HYBRID, category, 1000));
  }
}
