package org.kornspur.processors.stream;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.kornspur.processors.stream.InventedFacts.correcting;
import static org.kornspur.processors.stream.InventedFacts.crop;
import static org.kornspur.processors.stream.InventedFacts.harvest;
import static org.kornspur.processors.stream.InventedFacts.head;
import static org.kornspur.processors.stream.InventedFacts.source;
import static org.kornspur.processors.stream.InventedFacts.withdrawal;

import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.standing.StandingState;

class IsolationJoinTest {
  private final DrivenTopology topology = new DrivenTopology();

  @AfterEach
  void close() {
    topology.close();
  }

  @Test
  void aNeighbourReportedAfterHarvestCondemnsTheCropAndItsHarvest() {
    topology.accept(crop("f1", "C1", "M-1", 0), harvest(head("f2", 200), "C1", "L1", 900));
    assertThat(state("crop:C1")).isEqualTo(StandingState.FIT);

    topology.accept(source("f3", "S1", 700));

    assertThat(state("crop:C1")).isEqualTo(StandingState.NOT_FIT);
    assertThat(state("lot:L1")).isEqualTo(StandingState.NOT_FIT);
    double distanceM =
        topology.standing(Subject.crop("C1")).getVerdicts().get(0).getMeasured().getValue();
    assertThat(distanceM).isCloseTo(500, within(2.0));
  }

  @Test
  void aNeighbourThatIsWithdrawnNoLongerCounts() {
    topology.accept(
        crop("f1", "C1", "M-1", 0), source("f3", "S1", 700), withdrawal("f4", 300, "f3"));

    assertThat(state("crop:C1")).isEqualTo(StandingState.FIT);
  }

  @Test
  void cropsWithTheSamePollenAreNoDangerToEachOther() {
    topology.accept(crop("f1", "C1", "M-1", 0), crop("f2", "C2", "M-1", 500));

    assertThat(state("crop:C1")).isEqualTo(StandingState.FIT);
    assertThat(state("crop:C2")).isEqualTo(StandingState.FIT);
  }

  @Test
  void cropsWithForeignPollenEndangerEachOther() {
    topology.accept(crop("f1", "C1", "M-1", 0), crop("f2", "C2", "C-1", 500));

    assertThat(state("crop:C1")).isEqualTo(StandingState.NOT_FIT);
    assertThat(state("crop:C2")).isEqualTo(StandingState.NOT_FIT);
  }

  @Test
  void anOutlineCorrectedToAPlaceFarAwayClearsBoth() {
    topology.accept(
        crop("f1", "C1", "M-1", 0),
        crop("f2", "C2", "C-1", 500),
        crop(correcting("f3", 1, "f2"), "C2", "C-1", 30_000));

    assertThat(state("crop:C1")).isEqualTo(StandingState.FIT);
    assertThat(state("crop:C2")).isEqualTo(StandingState.FIT);
  }

  @Test
  void aFarSourceChangesNothingAndSendsNothing() {
    topology.accept(crop("f1", "C1", "M-1", 0));
    topology.newStandings();

    topology.accept(source("f2", "S1", 50_000));

    assertThat(topology.newStandings()).isEmpty();
  }

  @Test
  void anOutlineThatCannotBePlacedIsRefusedAndStopsNothing() {
    topology.accept(crop("f1", "C1", "M-1", 3_700_000), crop("f2", "C2", "M-1", 0));

    assertThat(topology.quarantine())
        .singleElement()
        .satisfies(
            entry -> assertThat(entry.getProblems().get(0).getField()).startsWith("outline"));
    assertThat(state("crop:C2")).isEqualTo(StandingState.FIT);
  }

  private StandingState state(String subject) {
    return topology.standing(Subject.parse(subject)).getState();
  }
}
