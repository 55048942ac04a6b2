package org.kornspur.processors.advice;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.contract.CropRole;
import org.kornspur.processors.fixture.Dossiers;
import org.kornspur.processors.fixture.Facts;

class FemaleCountTest {

  @ParameterizedTest(name = "50 of 1,000 shed on 2 June, {0} of {1} on {2}: {3} of {4}")
  @CsvSource(
      textBlock =
          """
          # by hand, flowering 1 to 15 June: 5 % on 12 of 15 days are 4 %, of 10,000 plants 400
          0, 9000, 2024-06-13, 400, 10000
          # 5 % on 4 of 15 days are 1.33 %, of 2,000 plants 27; 50 were seen
          0, 1000, 2024-06-05, 50,  2000
          """)
  void whatShedBeforeItWasRemovedFeedsTheForecast(
      int later, int plants, String day, int shedding, int examined) {
    FemaleCount count =
        FemaleCount.of(
                Dossiers.crop("c1")
                    .with(
                        Facts.crop("c1", CropRole.F1_MIXTURE)
                            .with(
                                crop ->
                                    crop.setFloweringFrom(LocalDate.of(2024, 6, 1))
                                        .setFloweringTo(LocalDate.of(2024, 6, 15))),
                        Facts.inspection("c1")
                            .female()
                            .visit(1)
                            .sheddingAmong(50, 1000)
                            .at("2024-06-02"),
                        Facts.inspection("c1")
                            .female()
                            .visit(2)
                            .sheddingAmong(later, plants)
                            .at(day))
                    .dossier())
            .orElseThrow();
    assertThat(count.shedding()).isEqualTo(shedding);
    assertThat(count.examined()).isEqualTo(examined);
  }
}
