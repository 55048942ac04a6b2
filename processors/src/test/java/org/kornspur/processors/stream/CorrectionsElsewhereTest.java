package org.kornspur.processors.stream;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.stream.Stream;
import org.apache.avro.specific.SpecificRecord;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.kornspur.contract.Category;
import org.kornspur.contract.CropRole;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.fixture.Draft;
import org.kornspur.processors.fixture.Facts;
import org.kornspur.standing.LotStanding;
import org.kornspur.standing.SaidStatement;
import org.kornspur.standing.StandingState;

/** Corrections by facts of another subject. Our own rule, no source. */
class CorrectionsElsewhereTest {
  private static final SpecificRecord FAILED =
      Facts.germination("L1", 60, 61, 59, 60)
          .with(test -> test.setSampleId("S-L1"))
          .id("g1")
          .at("2024-09-10")
          .fact();
  private static final SpecificRecord OF_OTHER_LOT =
      Facts.germination("L2", 95, 94, 96, 95)
          .with(test -> test.setSampleId("S-L2"))
          .id("g2")
          .at("2024-09-11")
          .correcting("g1", "typed into the wrong lot")
          .fact();

  @ParameterizedTest
  @ValueSource(booleans = {true, false})
  void aFailedTestStandsWhateverIsSaidOfAnotherLot(boolean correctionFirst) {
    try (DrivenTopology topology = lots()) {
      topology.accept(
          correctionFirst
              ? new SpecificRecord[] {OF_OTHER_LOT, FAILED}
              : new SpecificRecord[] {FAILED, OF_OTHER_LOT});

      assertThat(state(topology)).isEqualTo(StandingState.NOT_FIT);
      assertThat(owesCorrectionHere(topology)).isTrue();
    }
  }

  @Test
  void aPassedTestThatIsOfAnotherLotProvesNothingUntilThatIsSettled() {
    try (DrivenTopology topology = lots()) {
      topology.accept(passed("g1").fact());
      assertThat(state(topology)).isEqualTo(StandingState.FIT);

      topology.accept(OF_OTHER_LOT);
      assertThat(state(topology)).isEqualTo(StandingState.EVIDENCE_OWED);

      topology.accept(passed("g3").correcting("g1", "it is of this lot").fact());
      assertThat(state(topology)).isEqualTo(StandingState.FIT);
    }
  }

  @Test
  void whoWithdrawsTheCorrectionLeavesTheFailureWhereItWas() {
    try (DrivenTopology topology = lots()) {
      topology.accept(FAILED, OF_OTHER_LOT, Facts.withdrawal("g2").fact());

      assertThat(state(topology)).isEqualTo(StandingState.NOT_FIT);
    }
  }

  @Test
  void whatIsNotOfTheLotIsWithdrawn() {
    try (DrivenTopology topology = lots()) {
      topology.accept(FAILED, OF_OTHER_LOT, Facts.withdrawal("g1").fact());

      assertThat(owesCorrectionHere(topology)).isFalse();
      assertThat(state(topology)).as("no test is left").isEqualTo(StandingState.EVIDENCE_OWED);
    }
  }

  @Test
  void aHarvestIsNotMovedAwayByACorrectionThatWasWithdrawn() {
    try (DrivenTopology topology = DrivenTopology.withRealRules()) {
      topology.accept(
          Facts.crop("C1", CropRole.F1_MIXTURE).fact(),
          Facts.crop("C2", CropRole.F1_MIXTURE).fact(),
          Facts.harvest("C1", "L1", 900).id("h1").fact(),
          Facts.harvest("C2", "L1", 900).id("h2").fact());
      topology.accept(
          Facts.harvest("C1", "L2", 900).id("h3").correcting("h1", "into the other lot").fact());
      assertThat(findings(topology)).doesNotContain("origin.still-told");
      topology.accept(Facts.withdrawal("h3").fact());
      assertThat(findings(topology)).contains("origin.still-told");

      topology.accept(
          Facts.harvest("C1", "L1", 900).id("h4").correcting("h1", "it is of this lot").fact());
      assertThat(findings(topology)).doesNotContain("origin.still-told");
      assertThat(standing(topology).getHeldKg()).isEqualTo(1800);
    }
  }

  private static Draft<?> passed(String factId) {
    return Facts.germination("L1", 95, 94, 96, 95)
        .with(test -> test.setSampleId("S-L1"))
        .id(factId);
  }

  private static DrivenTopology lots() {
    DrivenTopology topology = DrivenTopology.withRealRules();
    List<Draft<?>> facts =
        List.of(
            Facts.laboratory("LAB1"),
            Facts.declared("L1", Facts.HYBRID, Category.CERTIFIED, 1000).at("2024-09-01"),
            Facts.sampling("L1", 40, 1000, 200)
                .with(drawn -> drawn.setSampleId("S-L1").setContainers(null)),
            Facts.purity("L1", 119.4, 0.5, 0.1).with(test -> test.setSampleId("S-L1")),
            Facts.moisture("L1", 13).with(test -> test.setSampleId("S-L1")),
            Facts.otherSeeds("L1").with(test -> test.setSampleId("S-L1")));
    facts.forEach(fact -> topology.accept(fact.fact()));
    return topology;
  }

  private static LotStanding standing(DrivenTopology topology) {
    return topology.standing(Subject.lot("L1"));
  }

  private static StandingState state(DrivenTopology topology) {
    return standing(topology).getState();
  }

  private static boolean owesCorrectionHere(DrivenTopology topology) {
    return findings(topology).contains("origin.corrected-elsewhere");
  }

  private static List<String> findings(DrivenTopology topology) {
    return standing(topology).getVerdicts().stream()
        .flatMap(
            verdict -> verdict.getFindings() == null ? Stream.of() : verdict.getFindings().stream())
        .map(SaidStatement::getCode)
        .toList();
  }
}
