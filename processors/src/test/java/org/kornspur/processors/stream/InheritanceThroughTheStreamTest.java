package org.kornspur.processors.stream;

import static org.assertj.core.api.Assertions.assertThat;
import static org.kornspur.processors.stream.InventedFacts.blend;
import static org.kornspur.processors.stream.InventedFacts.conditioning;
import static org.kornspur.processors.stream.InventedFacts.crop;
import static org.kornspur.processors.stream.InventedFacts.harvest;
import static org.kornspur.processors.stream.InventedFacts.head;
import static org.kornspur.processors.stream.InventedFacts.lot;
import static org.kornspur.processors.stream.InventedFacts.postControl;
import static org.kornspur.processors.stream.InventedFacts.sowing;
import static org.kornspur.processors.stream.InventedFacts.withdrawal;

import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.kornspur.contract.Dispatch;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.pedigree.Trace;
import org.kornspur.standing.InheritedTrouble;
import org.kornspur.standing.LotStanding;
import org.kornspur.standing.StandingState;

class InheritanceThroughTheStreamTest {
  private final DrivenTopology topology = new DrivenTopology();

  @AfterEach
  void close() {
    topology.close();
  }

  /** Basic lot, sown; harvest, conditioned; blended with a pollinator; sown for F1; harvested. */
  private void produceF1() {
    topology.accept(
        lot("f1", "BASIC", 500),
        lot("f2", "POLLINATOR", 500),
        crop("f3", "C1", "M-1", 0),
        sowing("f4", 10, "C1", "BASIC"),
        harvest(head("f5", 200), "C1", "RAW", 900),
        conditioning("f6", 210, "RAW", "CLEAN"),
        blend("f7", 220, "MIX", "CLEAN", "POLLINATOR"),
        crop("f8", "C2", "C-1", 20_000),
        sowing("f9", 230, "C2", "MIX"),
        harvest(head("f10", 500), "C2", "F1", 9_000));
  }

  @Test
  void aLateResultOnABasicLotReachesEveryDescendantWithThePathThatExplainsIt() {
    produceF1();
    assertThat(topology.standings().values())
        .allSatisfy(standing -> assertThat(standing.getState()).isEqualTo(StandingState.FIT));

    topology.accept(postControl(head("late", 700), "BASIC", false));

    LotStanding certified = topology.standing(Subject.lot("F1"));
    assertThat(certified.getState()).isEqualTo(StandingState.NOT_FIT);
    InheritedTrouble trouble = certified.getInherited().get(0);
    assertThat(trouble.getOrigin()).isEqualTo("lot:BASIC");
    assertThat(trouble.getFactIds()).containsExactly("late");
    assertThat(trouble.getPath())
        .containsExactly("lot:BASIC", "crop:C1", "lot:RAW", "lot:CLEAN", "lot:MIX", "crop:C2");
    assertThat(topology.standing(Subject.lot("POLLINATOR")).getState())
        .isEqualTo(StandingState.FIT);
  }

  @Test
  void aTroubleLeavesAllDescendantsWhenItsFactIsWithdrawn() {
    produceF1();
    topology.accept(
        postControl(head("late", 700), "BASIC", false), withdrawal("undo", 701, "late"));

    assertThat(topology.standings().values())
        .allSatisfy(standing -> assertThat(standing.getState()).isEqualTo(StandingState.FIT))
        .allSatisfy(standing -> assertThat(standing.getInherited()).isEmpty());
  }

  @Test
  void ofSeveralPathsTheShortestIsKept() {
    produceF1();
    topology.accept(
        sowing("extra", 231, "C2", "BASIC"), postControl(head("late", 700), "BASIC", false));

    assertThat(topology.standing(Subject.lot("F1")).getInherited())
        .singleElement()
        .extracting(InheritedTrouble::getPath)
        .isEqualTo(List.of("lot:BASIC", "crop:C2"));
  }

  @Test
  void aCircleOfWrongFactsComesToRestAndMendsWhenOneIsWithdrawn() {
    topology.accept(
        lot("f1", "L1", 500),
        conditioning("f2", 10, "L1", "L2"),
        conditioning("f3", 11, "L2", "L3"),
        conditioning("f4", 12, "L3", "L1"),
        postControl(head("late", 700), "L2", false));

    assertThat(topology.standings().values())
        .allSatisfy(standing -> assertThat(standing.getState()).isEqualTo(StandingState.NOT_FIT));

    topology.accept(withdrawal("undo", 701, "f4"));

    assertThat(topology.standing(Subject.lot("L1")).getState()).isEqualTo(StandingState.FIT);
    assertThat(topology.standing(Subject.lot("L3")).getState()).isEqualTo(StandingState.NOT_FIT);
  }

  @Test
  void theWalkForwardReachesTheCustomers() {
    produceF1();
    topology.accept(
        new Dispatch(head("f11", 520), "F1", "customer-1", 4_000.0, List.of("label-1")));

    Trace forward =
        Trace.walk(topology.pedigree(), Subject.lot("BASIC"), Trace.Direction.FORWARD, 1_000);

    assertThat(forward.edges())
        .filteredOn(edge -> edge.child().equals(Subject.enterprise("customer-1")))
        .singleElement()
        .extracting(Edge::massKg)
        .isEqualTo(4_000.0);

    topology.accept(withdrawal("undo", 530, "f11"));

    assertThat(topology.pedigree().edgesOutOf(Subject.lot("F1"))).isEmpty();
  }

  @Test
  void thePedigreeIsWalkedBackAndForwardWithMasses() {
    produceF1();

    Trace back = Trace.walk(topology.pedigree(), Subject.lot("F1"), Trace.Direction.BACK, 1_000);
    Trace forward =
        Trace.walk(topology.pedigree(), Subject.lot("BASIC"), Trace.Direction.FORWARD, 1_000);

    assertThat(back.complete()).isTrue();
    assertThat(back.steps()).containsEntry(Subject.lot("BASIC"), 6).hasSize(8);
    assertThat(back.edges().get(0).massKg()).isEqualTo(9_000);
    assertThat(forward.steps()).containsEntry(Subject.lot("F1"), 6).hasSize(7);
  }
}
