package org.kornspur.processors.stream;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;
import static org.kornspur.processors.stream.InventedFacts.blend;
import static org.kornspur.processors.stream.InventedFacts.conditioning;
import static org.kornspur.processors.stream.InventedFacts.crop;
import static org.kornspur.processors.stream.InventedFacts.harvest;
import static org.kornspur.processors.stream.InventedFacts.head;
import static org.kornspur.processors.stream.InventedFacts.lot;
import static org.kornspur.processors.stream.InventedFacts.postControl;
import static org.kornspur.processors.stream.InventedFacts.sowing;
import static org.kornspur.processors.stream.InventedFacts.withdrawal;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.apache.avro.specific.SpecificRecord;
import org.apache.kafka.streams.KeyValue;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.contract.Dispatch;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.pedigree.Trace;
import org.kornspur.standing.InheritedTrouble;
import org.kornspur.standing.LotStanding;
import org.kornspur.standing.StandingState;
import org.kornspur.standing.VerdictState;

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
  void aCircleOfWrongFactsIsNamedComesToRestAndMendsWhenOneIsWithdrawn() {
    try (DrivenTopology real = DrivenTopology.withRealRules()) {
      real.accept(
          lot("f1", "L1", 500),
          conditioning("f2", 10, "L1", "L2"),
          conditioning("f3", 11, "L2", "L3"),
          conditioning("f4", 12, "L3", "L1"));
      assertThat(real.standings().values())
          .hasSize(3)
          .allSatisfy(standing -> assertThat(ownAncestor(standing)).isTrue());

      real.accept(withdrawal("undo", 701, "f4"));

      assertThat(real.standings().values())
          .hasSize(3)
          .noneSatisfy(standing -> assertThat(ownAncestor(standing)).isTrue());
    }
  }

  @Test
  void everyLotInACircleWithEveryOtherComesToRest() {
    int lots = 8;
    List<SpecificRecord> facts = new ArrayList<>();
    for (int from = 0; from < lots; from++) {
      for (int to = 0; to < lots; to++) {
        if (from != to) {
          facts.add(conditioning("f" + from + "-" + to, from, "L" + from, "L" + to));
        }
      }
      facts.add(postControl(head("p" + from, 400), "L" + from, false));
    }
    topology.accept(facts.toArray(SpecificRecord[]::new));
    int untilMended = topology.newStandings().size();
    for (int from = 0; from < lots; from++) {
      topology.accept(withdrawal("undo" + from, 700, "p" + from));
    }

    assertThat(untilMended).isLessThan(20_000);
    assertThat(topology.standings()).hasSize(lots);
  }

  /**
   * Members of a circle hear each other's words and their own. What one of them was told from
   * outside and no longer counts must neither stay with them nor wander round, however long the
   * circle is: one of 30 steps is too long to be seen as one.
   */
  @ParameterizedTest
  @CsvSource({"2, true", "2, false", "3, true", "3, false", "30, true", "30, false"})
  void aCircleForgetsWhatNobodySaysAnyMore(int members, boolean knownBeforeItIsWithdrawn) {
    SpecificRecord declared = lot("declared", "L0", 500);
    SpecificRecord withdrawn = withdrawal("undo", 701, "declared");
    assertTimeoutPreemptively(
        DrivenTopology.LONGEST_UNREST,
        () -> {
          try (DrivenTopology never = new DrivenTopology()) {
            topology.accept(circle(members));
            never.accept(circle(members));
            topology.accept(
                knownBeforeItIsWithdrawn
                    ? new SpecificRecord[] {declared, withdrawn}
                    : new SpecificRecord[] {withdrawn, declared});

            assertThat(topology.standings()).hasSize(members).isEqualTo(never.standings());
          }
        });
  }

  private static SpecificRecord[] circle(int members) {
    return IntStream.range(0, members)
        .mapToObj(from -> conditioning("f" + from, from, "L" + from, "L" + (from + 1) % members))
        .toArray(SpecificRecord[]::new);
  }

  /**
   * Two lots on each level, each from both of the level above: 2^30 ways lead down to the last. A
   * withdrawn result leaves each lot by way of one parent, then of the other, and so on; each way
   * walked for itself would never end.
   */
  @Test
  void waysThatPartAndMeetAgainAreNotWalkedOneByOne() {
    int levels = 30;
    List<SpecificRecord> facts = new ArrayList<>(List.of(lot("a", "A0", 500), lot("b", "B0", 500)));
    for (int level = 1; level <= levels; level++) {
      for (String way : List.of("A-A", "A-B", "B-A", "B-B")) {
        String from = way.charAt(0) + String.valueOf(level - 1);
        String to = way.charAt(2) + String.valueOf(level);
        facts.add(conditioning(way + level, level, from, to));
      }
    }
    assertTimeoutPreemptively(
        DrivenTopology.LONGEST_UNREST,
        () -> {
          topology.accept(facts.toArray(SpecificRecord[]::new));
          topology.accept(postControl(head("late", 400), "A0", false));
          assertThat(topology.standing(Subject.lot("B" + levels)).getInherited())
              .anySatisfy(trouble -> assertThat(trouble.getPath()).hasSize(levels));

          topology.accept(withdrawal("undo", 500, "late"));
          List<KeyValue<String, LotStanding>> judged = topology.newStandings();
          assertThat(topology.standing(Subject.lot("B" + levels)).getInherited())
              .noneSatisfy(trouble -> assertThat(trouble.getGate()).isEqualTo("POST_CONTROL"));
          assertThat(judged).hasSizeLessThan(levels * levels * 2);
        });
  }

  /**
   * 300 lots of which nothing is known, and the last by name condemned: fifty open questions are
   * named, and the one that condemns. With its result withdrawn, only the questions are left.
   */
  @Test
  void ofManyTroublesOneOfEachKindArrivesAlways() {
    List<SpecificRecord> facts = new ArrayList<>(List.of(lot("last", "Z", 500)));
    for (int from = 0; from < 300; from++) {
      facts.add(conditioning("f" + from, 10, "U" + from, "M"));
    }
    facts.add(conditioning("z", 10, "Z", "M"));
    facts.add(postControl(head("late", 400), "Z", false));
    facts.add(conditioning("on", 20, "M", "N"));
    topology.accept(facts.toArray(SpecificRecord[]::new));
    LotStanding condemned = topology.standing(Subject.lot("N"));
    topology.accept(withdrawal("undo", 500, "late"));

    assertThat(condemned.getState()).isEqualTo(StandingState.NOT_FIT);
    assertThat(condemned.getInherited())
        .extracting(InheritedTrouble::getGate)
        .containsOnlyOnce("POST_CONTROL")
        .filteredOn("ORIGIN"::equals)
        .hasSize(50);
    assertThat(topology.standing(Subject.lot("N")).getState())
        .isEqualTo(StandingState.EVIDENCE_OWED);
  }

  private static boolean ownAncestor(LotStanding standing) {
    return standing.getVerdicts().stream()
        .anyMatch(
            verdict ->
                verdict.getGate().equals("ORIGIN")
                    && verdict.getAspect().equals("ancestors")
                    && verdict.getState() == VerdictState.NOT_MET);
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
