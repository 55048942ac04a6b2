package org.kornspur.processors.gates;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.contract.Category;
import org.kornspur.contract.CropRole;
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
            new PreviousCropping(),
            Dossiers.crop("c1")
                .with(Facts.crop("c1", role).with(crop -> crop.setYearsWithoutRye(years)))
                .dossier());
    assertThat(judged.worst()).isEqualTo(expected);
    judged.row("years without rye, %s %s: %s".formatted(book, role, years), expected, expected);
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
            new CropArea(),
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
}
