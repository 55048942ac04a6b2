package org.kornspur.processors.gates;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.contract.Category;
import org.kornspur.contract.PostControlMethod;
import org.kornspur.processors.finding.Advice;
import org.kornspur.processors.finding.PostControlFinding;
import org.kornspur.processors.fixture.Dossiers;
import org.kornspur.processors.fixture.Facts;

class PostControlTest {
  private static final PostControl GATE = new PostControl();

  @ParameterizedTest(name = "stated {0} %, {1} plants, {2} off-types: {3}")
  @CsvSource(
      textBlock =
          """
          # reject numbers of the OECD guidelines for control plots, from memory: 2,000 plants 99.9 -> 6,
          # 99.7 -> 11, 99.0 -> 29; 1,000 plants 4, 7, 16
          99.9, 2000, 5, MET
          99.9, 2000, 6, NOT_MET
          99.7, 2000, 10, MET
          99.7, 2000, 11, NOT_MET
          99.0, 2000, 28, MET
          99.0, 2000, 29, NOT_MET
          99.9, 1000, 3, MET
          99.9, 1000, 4, NOT_MET
          99.7, 1000, 6, MET
          99.7, 1000, 7, NOT_MET
          99.0, 1000, 15, MET
          99.0, 1000, 16, NOT_MET
          # a stated purity of 100 % lets no plant through
          100, 1000, 0, MET
          100, 1000, 1, NOT_MET
          # none stated: common practice, 99.7 % for basic seed
          , 2000, 10, MET
          , 2000, 11, NOT_MET
          """)
  void offTypesFailFromTheRejectNumberOn(
      Double purityPercent, int plants, int offTypes, String expected) {
    Judged judged =
        Judged.by(
            "EU",
            GATE,
            basic(Facts.SINGLE_CROSS)
                .with(
                    Facts.postControl("l1", plants, offTypes)
                        .with(result -> result.setStatedPurityPercent(purityPercent)))
                .dossier());
    assertThat(judged.state("off-types, plot P-l1")).isEqualTo(expected);
    judged.row(
        "post-control, stated %s %%, %d of %d".formatted(purityPercent, offTypes, plants),
        expected,
        judged.state("off-types, plot P-l1"));
  }

  @Test
  void aLotThatIsNotWhatItIsCalledFails() {
    Judged judged =
        Judged.by(
            "EU",
            GATE,
            basic(Facts.SINGLE_CROSS)
                .with(
                    Facts.postControl("l1", 1000, 0)
                        .with(result -> result.setIdentityConfirmed(false)))
                .dossier());
    assertThat(judged.state("identity, plot P-l1")).isEqualTo("NOT_MET");
    judged
        .found(new PostControlFinding.IdentityDenied(PostControlMethod.PLOT, "P-l1"))
        .advises(new Advice.StopAndTell(), new Advice.AuthorityDecides());
  }

  @Test
  void sheddingPlantsOfASterileLotAndNonHybridsAreJudged() {
    Judged sterile =
        Judged.by(
            "EU",
            GATE,
            basic(Facts.SINGLE_CROSS)
                .with(Facts.postControl("l1", 1000, 0).with(result -> result.setSheddingPlants(60)))
                .dossier());
    assertThat(sterile.state("shedding plants, plot P-l1")).isEqualTo("NOT_MET");
    Judged hybrid =
        Judged.by(
            "US",
            GATE,
            Dossiers.lot("l1")
                .with(
                    Facts.declared("l1", Facts.HYBRID, Category.CERTIFIED, 1000),
                    Facts.postControl("l1", 1000, 0).with(result -> result.setNonHybridPlants(80)))
                .dossier());
    assertThat(hybrid.state("non-hybrids, plot P-l1")).isEqualTo("NOT_MET");
  }

  @Test
  void nothingIsOwedForTheLotItselfWhileNobodyHasGrownIt() {
    assertThat(Judged.by("EU", GATE, basic(Facts.RESTORER).dossier()).worst()).isEqualTo("NONE");
  }

  private static Dossiers basic(String componentId) {
    return Dossiers.lot("l1").with(Facts.declared("l1", componentId, Category.BASIC, 1000));
  }
}
