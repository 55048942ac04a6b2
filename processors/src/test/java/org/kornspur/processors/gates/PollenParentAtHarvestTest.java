package org.kornspur.processors.gates;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.contract.Category;
import org.kornspur.contract.CropRole;
import org.kornspur.processors.fixture.Dossiers;
import org.kornspur.processors.fixture.Facts;

/** Strips of the pollen parent left standing at harvest are admixture; common practice. */
class PollenParentAtHarvestTest {
  private static final String ASPECT = "pollen parent at harvest";

  @ParameterizedTest(name = "{0} of {1}, removed {2}: lot {3}, crop {4}")
  @CsvSource(
      textBlock =
          """
          STERILE_FEMALE, AB1, true,  NONE,    MET
          STERILE_FEMALE, AB1, false, NOT_MET, MET
          STERILE_FEMALE, AB1, ,      NONE,    OWED
          # grown alone, and sown as a mixture: nothing to remove
          POLLINATOR,     C1,  ,      NONE,    NONE
          POLLINATOR,     C1,  false, NONE,    NONE
          MAINTAINER,     M1,  false, NONE,    NONE
          FERTILE_LINE,   B1,  false, NONE,    NONE
          F1_MIXTURE,     H1,  ,      NONE,    NONE
          F1_MIXTURE,     H1,  false, NONE,    NONE
          """)
  void isAskedOfTheCropAndFailsTheLot(
      CropRole role, String seed, Boolean removed, String ofLot, String ofCrop) {
    Judged lot =
        Judged.by(
            "EU",
            new ComponentsGate(),
            Dossiers.lot("l1")
                .with(
                    Facts.harvest("c1", "l1", 1000)
                        .with(harvest -> harvest.setPollenParentRemoved(removed)))
                .parentCrop(
                    "c1",
                    seed.equals(Facts.HYBRID)
                        ? Dossiers.f1()
                        : Dossiers.component(seed, Category.BASIC),
                    role)
                .dossier());
    Judged crop =
        Judged.by(
            "EU",
            new ComponentsGate(),
            Dossiers.crop("c1")
                .with(
                    Facts.crop("c1", role),
                    Facts.harvest("c1", "l1", 1000)
                        .with(harvest -> harvest.setPollenParentRemoved(removed)))
                .scheme()
                .dossier());

    assertThat(lot.state(ASPECT)).isEqualTo(ofLot);
    assertThat(crop.state(ASPECT)).isEqualTo(ofCrop);
    lot.row(
        "pollen parent at harvest, %s of %s, removed %s".formatted(seed, role, removed),
        ofLot,
        lot.state(ASPECT));
  }
}
