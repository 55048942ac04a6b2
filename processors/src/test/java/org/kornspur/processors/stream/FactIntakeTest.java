package org.kornspur.processors.stream;

import static org.assertj.core.api.Assertions.assertThat;
import static org.kornspur.processors.stream.InventedFacts.correcting;
import static org.kornspur.processors.stream.InventedFacts.crop;
import static org.kornspur.processors.stream.InventedFacts.harvest;
import static org.kornspur.processors.stream.InventedFacts.head;
import static org.kornspur.processors.stream.InventedFacts.lot;
import static org.kornspur.processors.stream.InventedFacts.postControl;
import static org.kornspur.processors.stream.InventedFacts.withdrawal;

import java.nio.charset.StandardCharsets;
import org.apache.avro.specific.SpecificRecord;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.kornspur.contract.QuarantineEntry;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.problem.RecordProblem;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.processors.dossier.Entry;
import org.kornspur.standing.StandingState;

class FactIntakeTest {
  private final DrivenTopology topology = new DrivenTopology();

  @AfterEach
  void close() {
    topology.close();
  }

  @Test
  void aFactReachesTheDossierOfEverySubjectThatItNames() {
    topology.accept(crop("f1", "C1", "M-1", 0), harvest(head("f2", 200), "C1", "L1", 900));

    assertThat(topology.dossiers().entriesOf(Subject.lot("L1"))).hasSize(1);
    assertThat(topology.dossiers().entriesOf(Subject.crop("C1"))).hasSize(2);
    assertThat(topology.dossiers().entriesOf(Subject.hybrid("HYB-1"))).hasSize(1);
    assertThat(topology.standing(Subject.lot("L1")).getHeldKg()).isEqualTo(900);
  }

  @Test
  void aSubjectWhoseIdBeginsLikeAnotherKeepsItsOwnDossier() {
    topology.accept(lot("f1", "L1", 10), lot("f2", "L10", 20));

    assertThat(topology.dossiers().entriesOf(Subject.lot("L1"))).hasSize(1);
    assertThat(topology.standing(Subject.lot("L1")).getHeldKg()).isEqualTo(10);
  }

  @Test
  void theSameFactTwiceCountsOnceAndIsCounted() {
    topology.accept(lot("f1", "L1", 500), lot("f1", "L1", 500));

    assertThat(topology.newStandings()).hasSize(1);
    assertThat(topology.standing(Subject.lot("L1")).getHeldKg()).isEqualTo(500);
    assertThat(topology.quarantine()).isEmpty();
    assertThat(topology.counted("repeated-facts")).isEqualTo(1);
  }

  @Test
  void otherContentUnderAKnownIdIsAConflictAndChangesNothing() {
    topology.accept(lot("f1", "L1", 500), lot("f1", "L1", 700));

    assertThat(topology.standing(Subject.lot("L1")).getHeldKg()).isEqualTo(500);
    QuarantineEntry entry = topology.quarantine().get(0);
    assertThat(entry.getProblems().get(0).getField()).isEqualTo("header.factId");
    assertThat(reason(entry)).isEqualTo(new RecordProblem.OtherContent().coded());
  }

  @Test
  void foreignBytesAreKeptWholeInQuarantine() {
    byte[] foreign = "not a fact".getBytes(StandardCharsets.UTF_8);
    topology.pipe("k1", foreign);

    QuarantineEntry entry = topology.quarantine().get(0);
    assertThat(entry.getOriginalValue().array()).isEqualTo(foreign);
    assertThat(entry.getOriginalKey().array()).isEqualTo("k1".getBytes(StandardCharsets.UTF_8));
    assertThat(entry.getPlace()).contains("kornspur.facts").contains("offset 0");
    assertThat(topology.counted("refused-facts")).isEqualTo(1);
  }

  @Test
  void anUnknownSchemaAnEmptyValueAndATombstoneGoToQuarantine() {
    topology
        .pipe("k1", new byte[] {0, 0, 0, 3, (byte) 0xe8, 1})
        .pipe("k2", new byte[0])
        .pipe("k3", null);

    assertThat(topology.quarantine())
        .extracting(entry -> reason(entry).code())
        .containsExactly(
            Coded.codeOf(RecordProblem.OtherRegistry.class),
            Coded.codeOf(RecordProblem.NotWireFormat.class),
            Coded.codeOf(RecordProblem.NotWireFormat.class));
  }

  @Test
  void aRecordWithoutKeyOrUnderAForeignKeyIsRefusedWithTheRemedy() {
    byte[] fact = topology.wire.encode(Topics.FACTS.topicName(), lot("f1", "L1", 500));
    topology.pipe(null, fact).pipe("other", fact);

    assertThat(topology.standings()).isEmpty();
    assertThat(topology.quarantine())
        .hasSize(2)
        .allSatisfy(
            entry -> assertThat(reason(entry)).isEqualTo(new RecordProblem.OtherKey("f1").coded()));
  }

  private static Coded reason(QuarantineEntry entry) {
    return Problem.of(entry.getProblems().get(0)).reason();
  }

  @Test
  void aCorrectionTakesTheOldFactsPlaceAndBothStayOnRecord() {
    topology.accept(
        crop("f1", "C1", "M-1", 0),
        harvest(head("f2", 200), "C1", "L1", 12_400),
        harvest(correcting("f3", 200, "f2"), "C1", "L1", 1_240));

    assertThat(topology.standing(Subject.lot("L1")).getHeldKg()).isEqualTo(1_240);
    assertThat(topology.dossiers().entriesOf(Subject.lot("L1")))
        .hasSize(2)
        .filteredOn(entry -> !entry.counts())
        .singleElement()
        .extracting(Entry::superseded)
        .satisfies(
            superseded -> {
              assertThat(superseded.orElseThrow().byFactId()).isEqualTo("f3");
              assertThat(superseded.orElseThrow().reason()).isEqualTo("typing error");
            });
  }

  @Test
  void aCorrectionThatComesBeforeWhatItCorrectsHoldsAllTheSame() {
    topology.accept(
        harvest(correcting("f3", 200, "f2"), "C1", "L1", 1_240),
        harvest(head("f2", 200), "C1", "L1", 12_400),
        crop("f1", "C1", "M-1", 0));

    assertThat(topology.standing(Subject.lot("L1")).getHeldKg()).isEqualTo(1_240);
  }

  @Test
  void aCorrectionThatMovesAFactToAnotherLotFreesTheFirst() {
    topology.accept(
        crop("f1", "C1", "M-1", 0),
        harvest(head("f2", 200), "C1", "L1", 900),
        harvest(correcting("f3", 200, "f2"), "C1", "L2", 900));

    assertThat(topology.standings()).doesNotContainKey("lot:L1").containsKey("lot:L2");
    assertThat(topology.pedigree().edgesOutOf(Subject.crop("C1")))
        .extracting(edge -> edge.child().id())
        .containsExactly("L2");
  }

  @Test
  void aWithdrawnFactNoLongerCounts() {
    topology.accept(lot("f1", "L1", 500), postControl(head("f2", 300), "L1", false));
    assertThat(topology.standing(Subject.lot("L1")).getState()).isEqualTo(StandingState.NOT_FIT);

    topology.accept(withdrawal("f3", 301, "f2"));

    assertThat(topology.standing(Subject.lot("L1")).getState()).isEqualTo(StandingState.FIT);
  }

  /** Whoever corrected a failure and takes the correction back has the failure again. */
  @Test
  void whatAWithdrawnCorrectionCorrectedCountsAgain() {
    SpecificRecord[] facts = {
      lot("f1", "L1", 500),
      postControl(head("f2", 300), "L1", false),
      postControl(correcting("f3", 301, "f2"), "L1", true),
      withdrawal("f4", 302, "f3")
    };
    for (int first = 0; first < facts.length; first++) {
      try (DrivenTopology other = new DrivenTopology()) {
        for (int next = 0; next < facts.length; next++) {
          other.accept(facts[(first + next) % facts.length]);
        }

        assertThat(other.standing(Subject.lot("L1")).getState()).isEqualTo(StandingState.NOT_FIT);
        assertThat(other.dossiers().entriesOf(Subject.lot("L1")))
            .filteredOn(Entry::counts)
            .extracting(entry -> entry.header().getFactId())
            .containsExactlyInAnyOrder("f1", "f2");
      }
    }
  }

  @Test
  void aWithdrawnCorrectionThatWasCorrectedHasSomethingInItsPlace() {
    topology.accept(
        crop("f1", "C1", "M-1", 0),
        harvest(head("f2", 200), "C1", "L1", 10_000),
        harvest(correcting("f3", 200, "f2"), "C1", "L1", 9_000),
        harvest(correcting("f4", 200, "f3"), "C1", "L1", 8_000),
        withdrawal("f5", 300, "f3"));

    assertThat(topology.standing(Subject.lot("L1")).getHeldKg()).isEqualTo(8_000);
  }

  @Test
  void aCorrectionThatIsCorrectedStaysOne() {
    topology.accept(
        lot("f1", "L1", 500),
        postControl(head("f2", 300), "L1", false),
        postControl(correcting("f3", 301, "f2"), "L1", false),
        postControl(correcting("f4", 302, "f3"), "L1", true));

    assertThat(topology.standing(Subject.lot("L1")).getState()).isEqualTo(StandingState.FIT);
  }
}
