package org.kornspur.processors.stream;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.apache.avro.specific.SpecificRecord;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.judging.Judge;
import org.kornspur.processors.standards.Rulebooks;
import org.kornspur.processors.standards.Rulebooks.RulebookFile;
import org.kornspur.standing.LotStanding;
import org.kornspur.standing.StandingState;

/** Dossiers are judged again when the rules change, in the background, each once. */
@Tag("slow")
class RejudgingTest {
  /** More than are judged in one step. */
  private static final int LOTS = RejudgingWalk.MOST_JUDGED_IN_A_STEP + 50;

  private static final Judge BUNDLED = Judge.by(Rulebooks.bundled());

  /** A book more that no production of the demo names: every verdict stays as it is. */
  private static final Judge OTHER_FINGERPRINT =
      Judge.by(
          Rulebooks.bundledAnd(
              List.of(
                  new RulebookFile(
                      "one-more.yaml",
                      """
                      id: ONE_MORE
                      title: "A book that nobody names"
                      edition: "1"
                      limits:
                        - quantity: MOISTURE
                          sense: AT_MOST
                          value: 10
                          unit: "%"
                          categories: [CERTIFIED]
                          source: {text: "invented", section: "1"}
                          inForceFrom: "2020-01-01"
                          verified: true
                      """))));

  @Test
  void everyStandingNamesTheRulesThatMadeIt() {
    try (DrivenTopology topology = some(BUNDLED)) {
      assertThat(topology.standings().values())
          .extracting(LotStanding::getRules)
          .containsOnly(BUNDLED.rules().hex());
    }
  }

  @Test
  void withOtherRulesEveryDossierIsJudgedAgainOnceAndOnlyTheFingerprintDiffers() {
    DrivenTopology topology = JudgedDemo.topology();
    topology.rejudge();
    Map<String, LotStanding> before = topology.standings();
    long judgedBefore = topology.rejudging.judged();
    try {
      topology.judgeBy(OTHER_FINGERPRINT);
      long start = System.nanoTime();
      int steps = topology.rejudge();
      System.out.printf(
          "MEASURED %d dossiers of the demo judged again in %d steps, %.2f s%n",
          topology.rejudging.judged() - judgedBefore, steps, (System.nanoTime() - start) / 1e9);

      List<String> written =
          topology.newStandings().stream()
              .map(record -> record.key)
              .filter(before::containsKey)
              .toList();
      assertThat(written).doesNotHaveDuplicates().hasSameSizeAs(before.keySet());
      assertThat(topology.standings()).isEqualTo(under(OTHER_FINGERPRINT, before));
      assertThat(steps).isGreaterThan(1);
      assertThat(topology.rejudging.toLookAt()).isZero();
      long judged = topology.rejudging.judged();

      topology.rejudge();
      assertThat(topology.rejudging.judged()).isEqualTo(judged);
      assertThat(topology.newStandings()).isEmpty();
    } finally {
      topology.judgeBy(BUNDLED);
      topology.rejudge();
    }
    assertThat(topology.standings()).isEqualTo(before);
  }

  /** The outcome is that of the same facts under the new rules from the start. */
  @Test
  void whatComesInMeanwhileAndWhatIsJudgedAgainMakeTheSameStandingsInAnyOrder() {
    List<SpecificRecord> facts = JudgedDemo.signedFacts().subList(0, 600);
    int most = facts.size() - 60;
    try (DrivenTopology before = new DrivenTopology(BUNDLED);
        DrivenTopology fresh = new DrivenTopology(OTHER_FINGERPRINT)) {
      before.acceptAtOnce(facts.subList(0, most));
      before.rejudge();
      before.judgeBy(OTHER_FINGERPRINT);
      for (SpecificRecord fact : facts.subList(most, facts.size())) {
        before.acceptAsSent(fact);
        before.letPass(RejudgingWalk.INTERVAL);
      }
      before.rejudge();
      fresh.acceptAtOnce(facts);

      assertThat(before.standings()).isEqualTo(fresh.standings());
    }
  }

  @Test
  void dossiersOfAnEarlierReleaseBearNoFingerprintAndAreJudgedAgain() {
    try (DrivenTopology topology = some(BUNDLED)) {
      topology.takeOut(StateStores.DOSSIER_OUTBOX, key -> Keys.parts(key).contains("rules"));

      topology.rejudge();

      assertThat(topology.rejudging.judged()).isGreaterThanOrEqualTo(topology.standings().size());
    }
  }

  @Test
  void progressIsCountedDownWhileTheStreamGoesOn() {
    try (DrivenTopology topology = some(BUNDLED)) {
      topology.rejudge();
      topology.judgeBy(OTHER_FINGERPRINT);
      long all = 0;
      while (topology.rejudging.judged() == 0) {
        all = topology.rejudging.toLookAt();
        topology.letPass(RejudgingWalk.INTERVAL);
      }
      long left = topology.rejudging.toLookAt();
      topology.accept(InventedFacts.lot("meanwhile", "L-MEANWHILE", 500));

      assertThat(all).isGreaterThanOrEqualTo(LOTS);
      assertThat(left).isLessThan(all).isPositive();
      assertThat(all - left).isLessThanOrEqualTo(RejudgingWalk.MOST_JUDGED_IN_A_STEP);
      assertThat(topology.standing(Subject.lot("L-MEANWHILE")).getRules())
          .isEqualTo(OTHER_FINGERPRINT.rules().hex());
    }
  }

  /** Another instance with the earlier rules may get the task back before all are judged. */
  @Test
  void rulesThatComeBackBeforeAllAreJudgedLeaveNoDossierUnderTheOthers() {
    try (DrivenTopology topology = some(BUNDLED)) {
      topology.rejudge();
      topology.judgeBy(OTHER_FINGERPRINT);
      while (topology.rejudging.judged() == 0) {
        topology.letPass(RejudgingWalk.INTERVAL);
      }
      topology.judgeBy(BUNDLED);
      topology.rejudge();

      assertThat(topology.standings().values())
          .extracting(LotStanding::getRules)
          .containsOnly(BUNDLED.rules().hex());
    }
  }

  @Test
  void aDossierThatCannotBeReadIsPassedOverAndTheOthersAreJudgedAgain() {
    try (DrivenTopology topology = new DrivenTopology(BUNDLED)) {
      topology.accept(InventedFacts.lot("f1", "L1", 500), InventedFacts.lot("f2", "L2", 500));
      topology.spoil(StateStores.DOSSIER_FACTS, "lot:L1|f3", new byte[] {1, 2, 3});
      topology.spoil(StateStores.DOSSIER_FACTS, "no subject|f4", new byte[] {1, 2, 3});
      topology.judgeBy(OTHER_FINGERPRINT);
      topology.rejudge();

      assertThat(topology.standing(Subject.lot("L1")).getState())
          .isEqualTo(StandingState.EVIDENCE_OWED);
      assertThat(topology.standings().values())
          .extracting(LotStanding::getRules)
          .containsOnly(OTHER_FINGERPRINT.rules().hex());
      assertThat(topology.skipped.total()).isPositive();
    }
  }

  @Test
  void thatAllAreOfTheRulesInForceIsRememberedSoThatAStartLooksAtNone() {
    try (DrivenTopology topology = new DrivenTopology(BUNDLED)) {
      topology.accept(InventedFacts.lot("f1", "L1", 500));
      topology.rejudge();
      topology.judgeBy(OTHER_FINGERPRINT);
      topology.rejudge();
      long judged = topology.rejudging.judged();
      assertThat(judged).isPositive();
      topology.takeOut(StateStores.DOSSIER_OUTBOX, key -> key.startsWith("lot:L1|rules"));
      topology.letPass(Duration.ofSeconds(1));

      assertThat(topology.rejudging.judged()).isEqualTo(judged);
    }
  }

  private static DrivenTopology some(Judge judge) {
    DrivenTopology topology = new DrivenTopology(judge);
    for (int lot = 0; lot < LOTS; lot++) {
      topology.acceptAsSent(InventedFacts.lot("f" + lot, "L" + lot, 500));
    }
    return topology;
  }

  private static Map<String, LotStanding> under(Judge judge, Map<String, LotStanding> standings) {
    Map<String, LotStanding> expected = new TreeMap<>();
    standings.forEach(
        (subject, standing) ->
            expected.put(
                subject, LotStanding.newBuilder(standing).setRules(judge.rules().hex()).build()));
    return expected;
  }
}
