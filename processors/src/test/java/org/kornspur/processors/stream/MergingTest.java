package org.kornspur.processors.stream;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.kornspur.contract.Category;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.fixture.Draft;
import org.kornspur.processors.fixture.Facts;
import org.kornspur.standing.InheritedTrouble;
import org.kornspur.standing.LotStanding;
import org.kornspur.standing.StandingState;

/**
 * A lot that failed is not passed by mixing it into another, dividing it or giving it a new name;
 * cleaning it may. Common practice, no source.
 */
class MergingTest {

  /** What a lot can fail. */
  enum Failure {
    PURITY("ANALYTICAL_PURITY") {
      @Override
      Draft<?> of(String lotId) {
        return Facts.purity(lotId, 111, 8, 1)
            .with(test -> test.setSampleId("S-" + lotId))
            .at("2024-08-12");
      }
    },
    ERGOT("ERGOT") {
      @Override
      Draft<?> of(String lotId) {
        return Facts.otherSeeds(lotId)
            .with(sample -> sample.setErgotBodies(30).setSampleId("S-" + lotId))
            .at("2024-08-12");
      }
    },
    GERMINATION("GERMINATION") {
      @Override
      Draft<?> of(String lotId) {
        return Facts.germination(lotId, 60, 61, 59, 60)
            .with(test -> test.setSampleId("S-" + lotId))
            .at("2024-08-12");
      }
    };

    final String gate;

    Failure(String gate) {
      this.gate = gate;
    }

    abstract Draft<?> of(String lotId);
  }

  @ParameterizedTest
  @EnumSource
  void whatWasMixedInCarriesItsFailure(Failure failure) {
    try (DrivenTopology topology = DrivenTopology.withRealRules()) {
      accept(topology, lot("GOOD", 3000), lot("BAD", 1000), failure.of("BAD"));
      accept(topology, Facts.merge("ALL").of("GOOD", 3000).of("BAD", 1000));
      tests(topology, "ALL", 4000);

      LotStanding all = topology.standing(Subject.lot("ALL"));

      assertThat(topology.standing(Subject.lot("BAD")).getState()).isEqualTo(StandingState.NOT_FIT);
      assertThat(all.getState()).isEqualTo(StandingState.NOT_FIT);
      InheritedTrouble trouble = all.getInherited().get(0);
      assertThat(trouble.getGate()).isEqualTo(failure.gate);
      assertThat(trouble.getOrigin()).isEqualTo("lot:BAD");
      assertThat(share(trouble)).isEqualTo(25);
    }
  }

  @Test
  void aPartOfTheMixtureIsNoBetterAndKnowsItsShare() {
    try (DrivenTopology topology = DrivenTopology.withRealRules()) {
      accept(topology, lot("GOOD", 3000), lot("BAD", 1000), Failure.PURITY.of("BAD"));
      accept(
          topology,
          Facts.merge("ALL").of("GOOD", 3000).of("BAD", 1000),
          Facts.split("ALL").into("PART", 500),
          Facts.merge("NEXT").of("PART", 500).of("OTHER", 500).at("2024-09-03"),
          lot("OTHER", 500));
      tests(topology, "NEXT", 1000);

      assertThat(share(topology.standing(Subject.lot("NEXT")).getInherited().get(0)))
          .isEqualTo(12.5);
      assertThat(topology.standing(Subject.lot("NEXT")).getState())
          .isEqualTo(StandingState.NOT_FIT);
    }
  }

  @Test
  void cleaningTheMixtureMayEndIt() {
    try (DrivenTopology topology = DrivenTopology.withRealRules()) {
      accept(topology, lot("GOOD", 3000), lot("BAD", 1000), Failure.PURITY.of("BAD"));
      accept(
          topology,
          Facts.merge("ALL").of("GOOD", 3000).of("BAD", 1000),
          Facts.conditioning().from("ALL", 4000).into("CLEAN", 3800).screenings(200));
      tests(topology, "CLEAN", 3800);

      assertThat(topology.standing(Subject.lot("CLEAN")).getState()).isEqualTo(StandingState.FIT);
    }
  }

  @Test
  void aLotThatPassedMixesIn() {
    try (DrivenTopology topology = DrivenTopology.withRealRules()) {
      accept(topology, lot("ONE", 3000), lot("TWO", 1000));
      accept(topology, Facts.merge("ALL").of("ONE", 3000).of("TWO", 1000));
      tests(topology, "ALL", 4000);

      assertThat(topology.standing(Subject.lot("ALL")).getState()).isEqualTo(StandingState.FIT);
      assertThat(topology.standing(Subject.lot("ONE")).getState()).isEqualTo(StandingState.FIT);
    }
  }

  private static Draft<?> lot(String lotId, double massKg) {
    return Facts.declared(lotId, Facts.HYBRID, Category.CERTIFIED, massKg).at("2024-08-01");
  }

  private static void tests(DrivenTopology topology, String lotId, double massKg) {
    accept(
        topology,
        Facts.laboratory("LAB1"),
        Facts.sampling(lotId, 40, massKg, 30)
            .with(sampling -> sampling.setSampleId("S-" + lotId))
            .at("2024-09-10"),
        Facts.germination(lotId, 95, 94, 96, 95)
            .with(test -> test.setSampleId("S-" + lotId))
            .at("2024-09-10"),
        Facts.purity(lotId, 119.4, 0.5, 0.1)
            .with(test -> test.setSampleId("S-" + lotId))
            .at("2024-09-10"),
        Facts.otherSeeds(lotId).with(sample -> sample.setSampleId("S-" + lotId)).at("2024-09-10"));
  }

  private static void accept(DrivenTopology topology, Draft<?>... facts) {
    for (Draft<?> fact : facts) {
      topology.accept(fact.fact());
    }
    assertThat(topology.quarantine()).isEmpty();
  }

  private static double share(InheritedTrouble trouble) {
    return trouble.getFindings().stream()
        .filter(finding -> finding.getCode().equals("lot.failed-share"))
        .mapToDouble(finding -> finding.getArguments().get(0).getNumber())
        .findFirst()
        .orElse(100);
  }
}
