package org.kornspur.processors.stream;

import static org.assertj.core.api.Assertions.assertThat;
import static org.kornspur.processors.stream.InventedActs.release;
import static org.kornspur.processors.stream.InventedActs.signed;
import static org.kornspur.processors.stream.InventedFacts.head;
import static org.kornspur.processors.stream.InventedFacts.lot;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.kornspur.contract.MoistureTest;
import org.kornspur.contract.Signature;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.fixture.Verdicts;
import org.kornspur.processors.judging.Judge;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.standards.RulesFingerprint;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Measured;
import org.kornspur.processors.verdict.Verdict;
import org.kornspur.standing.LotRelease;
import org.kornspur.standing.LotStanding;
import org.kornspur.standing.ReleaseStep;
import org.kornspur.standing.RulesChange;
import org.kornspur.standing.StandingState;

/** What a change of the rules makes of releases: a gate that limits moisture at any percentage. */
class RulesChangedTest {
  private static final Subject WET = Subject.lot("L-WET");
  private static final Subject DRY = Subject.lot("L-DRY");

  private final DrivenTopology topology = new DrivenTopology(atMost(15));

  @AfterEach
  void close() {
    topology.close();
  }

  @Test
  void aReleaseWhoseVerdictChangesIsSuspendedWithOldAndNewLimitAndTheOtherStands() {
    releaseBoth();

    topology.judgeBy(atMost(13));
    topology.rejudge();

    LotStanding wet = topology.standing(WET);
    assertThat(wet.getState()).isEqualTo(StandingState.NOT_FIT);
    assertThat(wet.getRelease().getStep()).isEqualTo(ReleaseStep.SUSPENDED);
    assertThat(wet.getRelease().getCauses()).isEmpty();
    assertThat(wet.getRelease().getSince()).isNull();
    assertThat(wet.getRelease().getReason().getCode()).isEqualTo("release.suspended-by-rules");
    RulesChange change = onlyChange(wet.getRelease());
    assertThat(change.getGate()).isEqualTo("MOISTURE");
    assertThat(change.getBefore()).isEqualTo("MET");
    assertThat(change.getAfter()).isEqualTo("NOT_MET");
    assertThat(change.getOldLimit().getValue()).isEqualTo(15);
    assertThat(change.getOldLimit().getSense()).isEqualTo("AT_MOST");
    assertThat(change.getOldLimit().getUnit()).isEqualTo("%");
    assertThat(change.getNewLimit().getValue()).isEqualTo(13);

    assertThat(topology.standing(DRY).getRelease().getStep()).isEqualTo(ReleaseStep.RELEASED);
    assertThat(topology.standing(DRY).getRelease().getRulesChanges()).isEmpty();
  }

  @Test
  void aReleaseStandsAgainWhenTheRulesAreWhatTheyWere() {
    releaseBoth();
    topology.judgeBy(atMost(13));
    topology.rejudge();
    topology.judgeBy(atMost(15));
    topology.rejudge();

    assertThat(topology.standing(WET).getRelease().getStep()).isEqualTo(ReleaseStep.RELEASED);
  }

  @Test
  void aLaterFactThatFailsUnderTheOldLimitTooIsTheCauseAndNotTheRules() {
    releaseBoth();
    topology.accept(moisture("late", DRY, 20, 17));
    topology.judgeBy(atMost(13));
    topology.rejudge();

    LotRelease release = topology.standing(DRY).getRelease();
    assertThat(release.getStep()).isEqualTo(ReleaseStep.SUSPENDED);
    assertThat(release.getCauses()).containsExactly("late");
    assertThat(release.getRulesChanges()).isEmpty();
  }

  @Test
  void aLaterFactThatWouldHoldUnderTheOldLimitIsNoCause() {
    releaseBoth();
    topology.accept(moisture("late", DRY, 20, 14));
    topology.judgeBy(atMost(13));
    topology.rejudge();

    LotRelease release = topology.standing(DRY).getRelease();
    assertThat(release.getStep()).isEqualTo(ReleaseStep.SUSPENDED);
    assertThat(release.getCauses()).isEmpty();
    assertThat(onlyChange(release).getOldLimit().getValue()).isEqualTo(15);
  }

  @Test
  void ofAReleaseOfAnEarlierProgramOnlyTheNewLimitCanBeNamed() {
    topology.accept(lot("f1", WET.id(), 500), moisture("f2", WET, 1, 14));
    Signature signature = signed(topology.sheet(WET), 10, "p-1", 1);
    topology.accept(release("a1", WET.id(), asSignedByAnEarlierProgram(signature)));
    assertThat(topology.standing(WET).getRelease().getStep()).isEqualTo(ReleaseStep.RELEASED);

    topology.judgeBy(atMost(13));
    topology.rejudge();

    RulesChange change = onlyChange(topology.standing(WET).getRelease());
    assertThat(change.getOldLimit()).isNull();
    assertThat(change.getNewLimit().getValue()).isEqualTo(13);
  }

  @Test
  void withoutAChangeOfTheRulesEvidenceThatIsTakenBackIsNoChangeOfTheRules() {
    releaseBoth();
    topology.accept(InventedFacts.withdrawal("undo", 20, "f-wet"));

    LotRelease release = topology.standing(WET).getRelease();
    assertThat(release.getStep()).isEqualTo(ReleaseStep.SUSPENDED);
    assertThat(release.getCauses()).containsExactly("undo");
    assertThat(release.getRulesChanges()).isEmpty();
  }

  private void releaseBoth() {
    topology.accept(
        lot("f1", WET.id(), 500),
        lot("f2", DRY.id(), 500),
        moisture("f-wet", WET, 1, 14),
        moisture("f-dry", DRY, 1, 12));
    topology.accept(release("a1", WET.id(), signed(topology.sheet(WET), 10, "p-1", 1)));
    topology.accept(release("a2", DRY.id(), signed(topology.sheet(DRY), 10, "p-1", 1)));
    assertThat(topology.standing(WET).getRelease().getStep()).isEqualTo(ReleaseStep.RELEASED);
    assertThat(topology.standing(DRY).getRelease().getStep()).isEqualTo(ReleaseStep.RELEASED);
  }

  private static RulesChange onlyChange(LotRelease release) {
    assertThat(release.getRulesChanges()).hasSize(1);
    return release.getRulesChanges().get(0);
  }

  /** It sealed neither limits nor values, and no fingerprint of the rules. */
  private static Signature asSignedByAnEarlierProgram(Signature signature) {
    Signature earlier = Signature.newBuilder(signature).setRules(null).build();
    earlier
        .getSealedVerdicts()
        .forEach(
            verdict -> {
              verdict.put("limit", null);
              verdict.put("measured", null);
            });
    return earlier;
  }

  private static MoistureTest moisture(String id, Subject lot, int day, double percent) {
    return new MoistureTest(head(id, day), lot.id(), "S-1", percent, "lab-1");
  }

  private static Judge atMost(double percent) {
    return new Judge(
        id -> Optional.of(new NoLimits(id)),
        List.of((dossier, rulebook) -> judge(dossier, rulebook, percent)),
        new RulesFingerprint("at most " + percent));
  }

  private static List<Verdict> judge(Dossier dossier, Rulebook rulebook, double percent) {
    Limit limit =
        new Limit(
            Quantity.MOISTURE,
            Limit.Sense.AT_MOST,
            percent,
            "%",
            Limit.Stated.plain(percent),
            rulebook.id(),
            "edition " + percent,
            "an invented text",
            "1",
            LocalDate.of(2020, 1, 1),
            Optional.empty(),
            true,
            "",
            Optional.empty());
    return dossier
        .latest(MoistureTest.class)
        .map(
            test -> {
              double value = test.getMoisturePercent();
              Measured measured = new Measured(value, "%", limit.margin(value), Optional.empty());
              List<String> facts = List.of(FactType.headerOf(test).getFactId());
              return limit.holds(value)
                  ? new Verdict.Met(
                      Gate.MOISTURE,
                      "",
                      Optional.empty(),
                      measured,
                      Optional.of(limit),
                      facts,
                      Verdicts.FINDINGS,
                      List.of())
                  : new Verdict.NotMet(
                      Gate.MOISTURE,
                      "",
                      Optional.empty(),
                      measured,
                      Optional.of(limit),
                      facts,
                      Verdicts.FINDINGS,
                      List.of());
            })
        .<List<Verdict>>map(List::of)
        .orElseGet(
            () ->
                List.of(
                    new Verdict.Owed(
                        Gate.MOISTURE,
                        "",
                        Optional.empty(),
                        List.of(new Evidence.MoistureTest().coded()),
                        Optional.of(limit),
                        List.of(),
                        Verdicts.FINDINGS,
                        List.of())));
  }
}
