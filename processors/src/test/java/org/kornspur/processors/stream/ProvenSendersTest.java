package org.kornspur.processors.stream;

import static org.assertj.core.api.Assertions.assertThat;
import static org.kornspur.processors.stream.DrivenTopology.QUALITY;
import static org.kornspur.processors.stream.DrivenTopology.by;
import static org.kornspur.processors.stream.DrivenTopology.grower;
import static org.kornspur.processors.stream.InventedFacts.correcting;
import static org.kornspur.processors.stream.InventedFacts.crop;
import static org.kornspur.processors.stream.InventedFacts.harvest;
import static org.kornspur.processors.stream.InventedFacts.head;
import static org.kornspur.processors.stream.InventedFacts.lot;
import static org.kornspur.processors.stream.InventedFacts.postControl;
import static org.kornspur.processors.stream.InventedFacts.source;
import static org.kornspur.processors.stream.InventedFacts.withdrawal;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.apache.avro.specific.SpecificRecord;
import org.junit.jupiter.api.Test;
import org.kornspur.contract.FactHeader;
import org.kornspur.ingest.attestation.SignedSubmissions;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.seal.SigningKey;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.ingest.statement.Value.Person;
import org.kornspur.processors.dossier.Entry;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.OriginFinding;
import org.kornspur.processors.fixture.Verdicts;
import org.kornspur.standing.GateVerdict;
import org.kornspur.standing.StandingState;

/**
 * Anybody who can write to the topic can claim to be anybody: what that may change, and what not.
 */
class ProvenSendersTest {
  private static final Subject LOT = Subject.lot("L1");
  private static final SpecificRecord DECLARED = lot("f1", "L1", 500);
  private static final SpecificRecord FAILED = postControl(head("f2", 300), "L1", false);
  private static final SpecificRecord FORGED = withdrawal("f3", 301, "f2");

  @Test
  void aWithdrawalFromAnUnknownSenderMakesNoLotFit() {
    inEveryOrder(
        List.of(by(QUALITY, DECLARED), by(QUALITY, FAILED), FORGED),
        topology -> {
          assertThat(topology.standing(LOT).getState()).isEqualTo(StandingState.NOT_FIT);
          assertThat(found(topology)).contains(wouldSupersede("f3", "f2"));
          assertThat(origin(topology))
              .flatExtracting(verdict -> StatementRecords.read(verdict.getEvidence()))
              .containsExactly(
                  new Evidence.ConfirmationByQuality(List.of(new Fact("f3")), Optional.empty())
                      .coded());
          assertThat(entry(topology, "f2").counts()).isTrue();
          assertThat(entry(topology, "f2").unconfirmed())
              .extracting(Entry.Superseded::byFactId)
              .containsExactly("f3");
        });
  }

  @Test
  void itMakesNoneFitWhereTheOtherFactsCameByFilesToo() {
    inEveryOrder(
        List.of(DECLARED, FAILED, FORGED),
        topology -> assertThat(topology.standing(LOT).getState()).isEqualTo(StandingState.NOT_FIT));
  }

  @Test
  void evidenceThatAnUnknownSenderWouldTakeBackIsOwed() {
    inEveryOrder(
        List.of(
            by(QUALITY, DECLARED), by(QUALITY, postControl(head("f2", 300), "L1", true)), FORGED),
        topology ->
            assertThat(topology.standing(LOT).getState()).isEqualTo(StandingState.EVIDENCE_OWED));
  }

  @Test
  void theSameWithdrawalTakesEffectOnceQualitySendsIt() {
    inEveryOrder(
        List.of(by(QUALITY, DECLARED), by(QUALITY, FAILED), FORGED, by(QUALITY, FORGED)),
        topology -> {
          assertThat(topology.standing(LOT).getState()).isEqualTo(StandingState.FIT);
          assertThat(entry(topology, "f2").superseded()).isPresent();
          assertThat(entry(topology, "f2").unconfirmed()).isEmpty();
        });
  }

  @Test
  void qualitySettlesAWithdrawalThatIsWrongByRecordingTheValuesAgain() {
    inEveryOrder(
        List.of(
            by(QUALITY, DECLARED),
            by(QUALITY, postControl(head("f2", 300), "L1", true)),
            FORGED,
            by(QUALITY, postControl(correcting("f4", 300, "f2"), "L1", true))),
        topology -> assertThat(topology.standing(LOT).getState()).isEqualTo(StandingState.FIT));
  }

  @Test
  void aCorrectionFromAnUnknownSenderDoesNotCountAndIsOwed() {
    inEveryOrder(
        List.of(
            by(QUALITY, crop("f0", "C1", "M-1", 0)),
            by(QUALITY, harvest(head("f1", 200), "C1", "L1", 900)),
            harvest(correcting("f2", 200, "f1"), "C1", "L1", 5_000)),
        topology -> {
          assertThat(topology.standing(LOT).getHeldKg()).isEqualTo(900);
          assertThat(topology.standing(LOT).getState()).isEqualTo(StandingState.EVIDENCE_OWED);
          assertThat(entry(topology, "f2").awaitsConfirmation()).isTrue();
          assertThat(found(topology)).contains(wouldSupersede("f2", "f1"));
        });
  }

  @Test
  void aCorrectionThatIsConfirmedAndOneThatIsWithdrawnOweNothing() {
    SpecificRecord unproven = harvest(correcting("f2", 200, "f1"), "C1", "L1", 5_000);
    List<SpecificRecord> facts =
        List.of(
            by(QUALITY, crop("f0", "C1", "M-1", 0)),
            by(QUALITY, harvest(head("f1", 200), "C1", "L1", 900)),
            unproven);

    inEveryOrder(
        and(facts, by(QUALITY, unproven)),
        topology -> {
          assertThat(topology.standing(LOT).getHeldKg()).isEqualTo(5_000);
          assertThat(topology.standing(LOT).getState()).isEqualTo(StandingState.FIT);
        });
    inEveryOrder(
        and(facts, by(QUALITY, withdrawal("f9", 210, "f2"))),
        topology -> {
          assertThat(topology.standing(LOT).getHeldKg()).isEqualTo(900);
          assertThat(topology.standing(LOT).getState()).isEqualTo(StandingState.FIT);
        });
  }

  @Test
  void aCorrectionThatIsCorrectedInTurnCountsOnceAndTheFirstFactNoMore() {
    inEveryOrder(
        List.of(
            by(QUALITY, crop("f0", "C1", "M-1", 0)),
            by(QUALITY, harvest(head("f1", 200), "C1", "L1", 900)),
            harvest(correcting("f2", 200, "f1"), "C1", "L1", 5_000),
            by(QUALITY, harvest(correcting("f3", 200, "f2"), "C1", "L1", 1_240))),
        topology -> {
          assertThat(topology.standing(LOT).getHeldKg()).isEqualTo(1_240);
          assertThat(topology.standing(LOT).getState()).isEqualTo(StandingState.FIT);
        });
  }

  @Test
  void aSiteThatVouchesForItsProducersTakesTheirWord() {
    try (DrivenTopology topology = DrivenTopology.trustingProducers()) {
      topology.acceptAsSent(DECLARED, FAILED);
      topology.acceptAsSent(FORGED);

      assertThat(entry(topology, "f2").superseded()).isPresent();
    }
  }

  @Test
  void aSubmissionThatDoesNotVerifyIsRefused() {
    try (DrivenTopology topology = new DrivenTopology()) {
      topology.accept(DECLARED, FAILED);
      topology.acceptAsSent(SignedSubmissions.sign(FORGED, QUALITY, SigningKey.random()));

      assertThat(topology.standing(LOT).getState()).isEqualTo(StandingState.NOT_FIT);
      assertThat(topology.quarantine())
          .singleElement()
          .satisfies(
              entry ->
                  assertThat(entry.getProblems().get(0).getField()).isEqualTo("header.submission"));
    }
  }

  @Test
  void theSameFactByFileAndByTheInterfaceIsARepeat() {
    try (DrivenTopology topology = new DrivenTopology()) {
      topology.acceptAsSent(by(QUALITY, DECLARED), DECLARED);

      assertThat(topology.quarantine()).isEmpty();
      assertThat(topology.counted("repeated-facts")).isEqualTo(1);
      assertThat(topology.standing(LOT).getHeldKg()).isEqualTo(500);
    }
  }

  @Test
  void anUnknownSenderMovesNoPollenAwayFromACrop() {
    for (FactHeader forged : List.of(correcting("f3", 160, "f2"), head("f3", 170))) {
      SpecificRecord moved = source(forged, "S1", 50_000);
      inEveryOrder(
          List.of(
              by(QUALITY, crop("f1", "C1", "M-1", 0)), by(QUALITY, source("f2", "S1", 700)), moved),
          topology ->
              assertThat(topology.standing(Subject.crop("C1")).getState())
                  .isEqualTo(StandingState.NOT_FIT));
    }
  }

  @Test
  void pollenThatAnUnknownSenderCorrectsToANearerPlaceCountsThereToo() {
    SpecificRecord nearer = source(correcting("f3", 160, "f2"), "S1", 400);
    inEveryOrder(
        List.of(
            by(QUALITY, crop("f1", "C1", "M-1", 0)),
            by(QUALITY, source("f2", "S1", 50_000)),
            nearer),
        topology ->
            assertThat(topology.standing(Subject.crop("C1")).getState())
                .isEqualTo(StandingState.NOT_FIT));
  }

  @Test
  void aLotThatTwoGrowersMadeIsNeverFit() {
    inEveryOrder(
        List.of(
            by(grower("E1"), crop("f1", "C1", "M-1", 0)),
            by(grower("E2"), crop("f2", "C2", "M-1", 9_000)),
            by(grower("E1"), harvest(head("f3", 200), "C1", "L1", 900)),
            by(grower("E2"), harvest(head("f4", 200), "C2", "L1", 900))),
        topology -> {
          assertThat(topology.standing(LOT).getState()).isEqualTo(StandingState.EVIDENCE_OWED);
          assertThat(found(topology)).contains(new OriginFinding.SeveralMakers(2, LOT).coded());
        });
  }

  private static List<SpecificRecord> and(List<SpecificRecord> facts, SpecificRecord more) {
    List<SpecificRecord> all = new ArrayList<>(facts);
    all.add(more);
    return all;
  }

  private static void inEveryOrder(
      List<SpecificRecord> facts, java.util.function.Consumer<DrivenTopology> check) {
    for (int seed = 0; seed < 8; seed++) {
      List<SpecificRecord> shuffled = new ArrayList<>(facts);
      Collections.shuffle(shuffled, new Random(seed));
      try (DrivenTopology topology = new DrivenTopology()) {
        topology.acceptAsSent(shuffled.toArray(SpecificRecord[]::new));
        assertThat(topology.quarantine()).isEmpty();
        check.accept(topology);
      }
    }
  }

  private static Entry entry(DrivenTopology topology, String factId) {
    return topology.dossiers().entriesOf(LOT).stream()
        .filter(entry -> entry.header().getFactId().equals(factId))
        .findFirst()
        .orElseThrow();
  }

  private static Coded wouldSupersede(String by, String factId) {
    return new OriginFinding.WouldSupersede(
            new Fact(by), Optional.of(new Person("person-1")), new Fact(factId))
        .coded();
  }

  private static List<Coded> found(DrivenTopology topology) {
    return Verdicts.withNested(
        origin(topology).stream()
            .flatMap(verdict -> StatementRecords.read(verdict.getFindings()).stream())
            .toList());
  }

  private static List<GateVerdict> origin(DrivenTopology topology) {
    return topology.standing(LOT).getVerdicts().stream()
        .filter(verdict -> verdict.getGate().equals("ORIGIN"))
        .toList();
  }
}
