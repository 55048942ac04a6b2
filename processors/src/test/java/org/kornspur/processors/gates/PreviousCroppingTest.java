package org.kornspur.processors.gates;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.contract.Category;
import org.kornspur.contract.CropRole;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.Report.EarlierRye;
import org.kornspur.processors.finding.GroundFinding;
import org.kornspur.processors.fixture.Dossiers;
import org.kornspur.processors.fixture.Facts;

class PreviousCroppingTest {

  @ParameterizedTest(name = "{0} {1}, {2} years without rye: {3}")
  @CsvSource(
      textBlock =
          """
          # SaatV section 5(1a), read
          DE, STERILE_FEMALE, 1, NOT_MET
          DE, STERILE_FEMALE, 2, MET
          DE, MAINTAINER,     1, NOT_MET
          DE, MAINTAINER,     2, MET
          DE, POLLINATOR,     0, NOT_MET
          DE, POLLINATOR,     1, MET
          DE, F1_MIXTURE,     0, NOT_MET
          DE, F1_MIXTURE,     1, MET
          DE, F1_MIXTURE,     ,  OWED
          # SaatV section 5(2) no. 1, read, for seed under the OECD Scheme
          OECD, F1_MIXTURE,   1, NOT_MET
          OECD, F1_MIXTURE,   2, MET
          # 7 CFR 201.76, column Land, from memory for rye
          US, F1_MIXTURE,     0, NOT_MET
          US, F1_MIXTURE,     1, MET
          # the Directive gives no number; common practice, no source
          EU, F1_MIXTURE,     0, NOT_MET
          EU, F1_MIXTURE,     1, MET
          EU, F1_MIXTURE,     ,  OWED
          """)
  void holdsTheYearsWithoutRyeAgainstTheBook(
      String book, CropRole role, Integer years, String expected) {
    Judged judged =
        Judged.by(
            book,
            new PreviousCroppingGate(),
            Dossiers.crop("c1")
                .with(Facts.crop("c1", role).with(crop -> crop.setYearsWithoutRye(years)))
                .dossier());
    assertThat(judged.worst()).isEqualTo(expected);
    judged.row("years without rye, %s %s: %s".formatted(book, role, years), expected, expected);
  }

  @ParameterizedTest(name = "rye of {0} on {1} ha of 7, {2} years declared: {3}")
  @CsvSource(
      textBlock =
          """
          # basic seed of the female component under DE: two years without rye
          2023, 3.0, 3,  NOT_MET
          2022, 3.0, 3,  NOT_MET
          2022, 3.0,  ,  NOT_MET
          # two years lie between; the declaration says more, so one of both is wrong
          2021, 3.0, 2,  MET
          2021, 3.0, 3,  OWED
          2021, 3.0, 1,  NOT_MET
          # nothing on record proves nothing
          2021, 3.0,  ,  OWED
          # a strip along the border of the next field: less than 5 %
          2023, 0.3, 3,  MET
          """)
  void holdsTheDeclarationAgainstRyeOnRecord(
      int year, double hectares, Integer declared, String expected) {
    Judged judged = judged(declared, earlier(year, hectares, null));
    assertThat(judged.worst()).isEqualTo(expected);
  }

  @Test
  void aNeighboursWordIsLookedAtFirst() {
    assertThat(judged(3, earlier(2023, 3, "another")).worst()).isEqualTo("OWED");
    assertThat(judged(3, earlier(2023, 3, "E1")).worst()).isEqualTo("NOT_MET");
    assertThat(judged(3, earlier(2020, 3, "another")).worst()).isEqualTo("MET");
  }

  @Test
  void volunteersThatVisitsCountedAreTold() {
    Judged judged =
        Judged.by(
            "DE",
            new PreviousCroppingGate(),
            Dossiers.crop("c1")
                .with(
                    Facts.crop("c1", CropRole.STERILE_FEMALE),
                    Facts.inspection("c1")
                        .offTypesInArea(4, 150)
                        .with(visit -> visit.setVolunteerPlants(3)))
                .dossier());
    assertThat(judged.worst()).isEqualTo("MET");
    judged.found(new GroundFinding.Volunteers(3, 1));
  }

  private static EarlierRye earlier(int year, double hectares, String reportedBy) {
    return new EarlierRye(
        Subject.crop("c0"), year, hectares, "earlier", Optional.ofNullable(reportedBy));
  }

  private static Judged judged(Integer declared, EarlierRye earlier) {
    return Judged.by(
        "DE",
        new PreviousCroppingGate(),
        Dossiers.crop("c1")
            .with(
                Facts.crop("c1", CropRole.STERILE_FEMALE)
                    .with(crop -> crop.setYearsWithoutRye(declared)))
            .earlier(earlier)
            .dossier());
  }

  @ParameterizedTest(name = "{0} {1}, {2} degrees wide, small area accepted {3}: {4}")
  @CsvSource(
      textBlock =
          """
          # SaatV section 5(1) no. 1 and 5(3), read: 2 ha, and exceptions by the authority
          DE, CERTIFIED, 0.003, ,     MET
          DE, CERTIFIED, 0.001, ,     OWED
          DE, CERTIFIED, 0.001, false, OWED
          DE, CERTIFIED, 0.001, true, MET
          EU, CERTIFIED, 0.001, ,     NONE
          """)
  void asksForALeastAreaWhereTheBookDoes(
      String book, Category category, double side, Boolean accepted, String expected) {
    Judged judged =
        Judged.by(
            book,
            new CropAreaGate(),
            Dossiers.crop("c1")
                .with(
                    Facts.crop("c1", CropRole.F1_MIXTURE)
                        .with(
                            crop ->
                                crop.setCategory(category)
                                    .setOutline(Facts.square(10.0, 52.0, side))
                                    .setSmallAreaAccepted(accepted)))
                .dossier());
    assertThat(judged.worst()).isEqualTo(expected);
  }

  @ParameterizedTest(name = "{0} earlier ryes of 0.3 ha each in {1}: {2}")
  @CsvSource({
    "20, 2023, OWED",
    "2, 2023, OWED",
    "1, 2023, MET",
    // long enough ago
    "20, 2021, MET"
  })
  void piecesAreTakenTogether(int pieces, int year, String expected) {
    Dossiers crop = Dossiers.crop("c1").with(Facts.crop("c1", CropRole.STERILE_FEMALE));
    for (int piece = 0; piece < pieces; piece++) {
      crop.earlier(
          new EarlierRye(
              Subject.source("s" + piece), year, 0.3, "earlier " + piece, Optional.empty()));
    }
    assertThat(Judged.by("DE", new PreviousCroppingGate(), crop.dossier()).worst())
        .isEqualTo(expected);
  }

  @ParameterizedTest(name = "{0} ha sown in 6.9: {1}")
  @CsvSource({"6.5, MET", "1.9, OWED", "20, MET"})
  void theAreaIsThatWhichWasSown(double sownHa, String expected) {
    Judged judged =
        Judged.by(
            "DE",
            new CropAreaGate(),
            Dossiers.crop("c1")
                .with(
                    Facts.crop("c1", CropRole.F1_MIXTURE),
                    Facts.sowing("c1").of("m1", 100).on(sownHa))
                .dossier());
    assertThat(judged.worst()).isEqualTo(expected);
  }
}
