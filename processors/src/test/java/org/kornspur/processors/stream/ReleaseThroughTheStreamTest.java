package org.kornspur.processors.stream;

import static org.assertj.core.api.Assertions.assertThat;
import static org.kornspur.processors.stream.InventedActs.condemnation;
import static org.kornspur.processors.stream.InventedActs.day;
import static org.kornspur.processors.stream.InventedActs.downgrade;
import static org.kornspur.processors.stream.InventedActs.release;
import static org.kornspur.processors.stream.InventedActs.signed;
import static org.kornspur.processors.stream.InventedActs.suspension;
import static org.kornspur.processors.stream.InventedFacts.conditioning;
import static org.kornspur.processors.stream.InventedFacts.correcting;
import static org.kornspur.processors.stream.InventedFacts.crop;
import static org.kornspur.processors.stream.InventedFacts.harvest;
import static org.kornspur.processors.stream.InventedFacts.head;
import static org.kornspur.processors.stream.InventedFacts.lot;
import static org.kornspur.processors.stream.InventedFacts.sowing;
import static org.kornspur.processors.stream.InventedFacts.withdrawal;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.kornspur.contract.Attestation;
import org.kornspur.contract.Category;
import org.kornspur.contract.CondemnationGround;
import org.kornspur.contract.Correction;
import org.kornspur.contract.Dispatch;
import org.kornspur.contract.FactHeader;
import org.kornspur.contract.MoistureTest;
import org.kornspur.contract.PostControlMethod;
import org.kornspur.contract.PostControlResult;
import org.kornspur.contract.Release;
import org.kornspur.ingest.attestation.SignedActs;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.problem.ActProblem;
import org.kornspur.ingest.seal.SigningKey;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.ingest.statement.Value.Person;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.ReleaseFinding;
import org.kornspur.processors.fixture.Verdicts;
import org.kornspur.processors.judging.Judge;
import org.kornspur.processors.release.ReleaseSheet;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Measured;
import org.kornspur.processors.verdict.Verdict;
import org.kornspur.standing.LotRelease;
import org.kornspur.standing.LotStanding;
import org.kornspur.standing.ReleaseStep;
import org.kornspur.standing.StandingState;

/**
 * What acts and later facts make of a release, through the real topology. Two gates of the test's
 * own: the latest moisture test must not be above 15 %, and plants must be what the label says.
 */
class ReleaseThroughTheStreamTest {
  private static final Subject L1 = Subject.lot("L1");
  private static final Subject L2 = Subject.lot("L2");

  private final DrivenTopology topology =
      new DrivenTopology(
          new Judge(
              id -> Optional.of(new NoLimits(id)),
              List.of(
                  ReleaseThroughTheStreamTest::moisture, ReleaseThroughTheStreamTest::identity)));

  @AfterEach
  void close() {
    topology.close();
  }

  @Test
  void aLotIsReleasedByTheActOfAPerson() {
    topology.accept(lot("f1", "L1", 500), moisture("f2", 1, 14));
    assertThat(topology.standing(L1).getRelease()).isNull();

    topology.accept(release("a1", "L1", signed(topology.sheet(L1), 10, "p-1", 1)));

    LotRelease release = topology.standing(L1).getRelease();
    assertThat(release.getStep()).isEqualTo(ReleaseStep.RELEASED);
    assertThat(release.getSince()).isEqualTo(day(10));
    assertThat(release.getSignatures())
        .singleElement()
        .satisfies(
            act -> {
              assertThat(act.getSignerId()).isEqualTo("p-1");
              assertThat(act.getMeaning()).isEqualTo("responsibility for release");
              assertThat(act.getSeal()).isEqualTo(topology.sheet(L1).seal().hex());
            });
    assertThat(topology.quarantine()).isEmpty();
  }

  @Test
  void aLaterFactThatLeavesTheLotFitChangesNothing() {
    releaseL1();

    topology.accept(
        moisture("f3", 20, 14.5),
        new Dispatch(head("f4", 21), "L1", "customer-1", 100.0, List.of()));

    assertThat(topology.standing(L1).getRelease().getStep()).isEqualTo(ReleaseStep.RELEASED);
    assertThat(topology.standing(L1).getRelease().getDispatchedUnreleasedKg()).isZero();
  }

  @Test
  void seedThatIsSownBeforeItsReleaseIsTold() {
    topology.accept(lot("f1", "L1", 500), moisture("f2", 1, 14), sowing("s1", 5, "C1", "L1"));
    assertThat(topology.standing(L1).getRelease().getUsedUnreleasedKg()).isEqualTo(100);

    topology.accept(release("a1", "L1", signed(topology.sheet(L1), 10, "p-1", 1)));
    topology.accept(sowing("s2", 12, "C2", "L1"));

    assertThat(topology.standing(L1).getRelease().getUsedUnreleasedKg()).isEqualTo(100);
  }

  @Test
  void aLaterFailureSuspendsByItselfAndNamesTheFactAndTheVerdict() {
    releaseL1();

    topology.accept(moisture("late", 20, 17));

    LotRelease release = topology.standing(L1).getRelease();
    assertThat(release.getStep()).isEqualTo(ReleaseStep.SUSPENDED);
    assertThat(release.getCauses()).containsExactly("late");
    assertThat(release.getSince()).isEqualTo(day(20));
    assertThat(release.getChanges())
        .singleElement()
        .satisfies(
            change -> {
              assertThat(change.getGate()).isEqualTo("MOISTURE");
              assertThat(change.getBefore()).isEqualTo("MET");
              assertThat(change.getAfter()).isEqualTo("NOT_MET");
            });
    assertThat(StatementRecords.read(release.getReason()))
        .isEqualTo(
            new ReleaseFinding.SuspendedByFacts(
                    List.of(
                        new ReleaseFinding.Changed(
                            Gate.MOISTURE, Optional.empty(), Optional.empty(), "MET", "NOT_MET")),
                    List.of(new Fact("late")))
                .coded());
    assertThat(release.getSignatures()).extracting(act -> act.getActId()).containsExactly("a1");
  }

  @Test
  void aReleaseStandsAgainWhenTheFactThatSuspendedItIsWithdrawnOrCorrected() {
    releaseL1();
    topology.accept(moisture("late", 20, 17), withdrawal("undo", 21, "late"));
    assertThat(topology.standing(L1).getRelease().getStep()).isEqualTo(ReleaseStep.RELEASED);

    topology.accept(moisture("typo", 22, 41), moisture(correcting("typo-mended", 23, "typo"), 14));
    assertThat(topology.standing(L1).getRelease().getStep()).isEqualTo(ReleaseStep.RELEASED);
  }

  @Test
  void aPassedTestAfterAFailedOneDoesNotReleaseByItself() {
    releaseL1();

    topology.accept(moisture("late", 20, 17), moisture("retest", 25, 14));

    LotStanding standing = topology.standing(L1);
    assertThat(standing.getState()).isEqualTo(StandingState.FIT);
    assertThat(standing.getRelease().getStep()).isEqualTo(ReleaseStep.SUSPENDED);
    assertThat(standing.getRelease().getCauses()).containsExactly("late");

    topology.accept(release("a2", "L1", signed(topology.sheet(L1), 30, "p-2", 1)));

    assertThat(topology.standing(L1).getRelease().getStep()).isEqualTo(ReleaseStep.RELEASED);
    assertThat(topology.standing(L1).getRelease().getSince()).isEqualTo(day(30));
  }

  /** The time of recording is what the sender claims. */
  @Test
  void aGoodTestThatClaimsToBeOlderHidesNoBadOne() {
    releaseL1();

    topology.accept(
        moisture(new FactHeader("late", "person-1", day(14), day(20), "sheet", null, null), 17),
        moisture(new FactHeader("retest", "person-1", day(15), day(15), "sheet", null, null), 14));
    assertThat(topology.quarantine()).isEmpty();

    LotRelease release = topology.standing(L1).getRelease();
    assertThat(release.getStep()).isEqualTo(ReleaseStep.SUSPENDED);
    assertThat(release.getCauses()).containsExactly("late");
  }

  @Test
  void aSuspensionNamesTheFactThatCausedItAndNoOlderOne() {
    releaseL1();
    topology.accept(moisture(correcting("mended", 12, "f2"), 14.2));
    assertThat(topology.standing(L1).getRelease().getStep()).isEqualTo(ReleaseStep.RELEASED);

    topology.accept(moisture("late", 20, 17));

    LotRelease release = topology.standing(L1).getRelease();
    assertThat(release.getStep()).isEqualTo(ReleaseStep.SUSPENDED);
    assertThat(release.getCauses()).containsExactly("late");
  }

  @Test
  void takingBackTheEvidenceThatWasSealedSuspends() {
    releaseL1();

    topology.accept(withdrawal("undo", 20, "f2"));

    LotRelease release = topology.standing(L1).getRelease();
    assertThat(release.getStep()).isEqualTo(ReleaseStep.SUSPENDED);
    assertThat(release.getCauses()).containsExactly("undo");
    assertThat(release.getSince()).isEqualTo(day(20));

    topology.accept(moisture("other", 25, 13));
    assertThat(topology.standing(L1).getRelease().getStep()).isEqualTo(ReleaseStep.SUSPENDED);
  }

  @Test
  void aCorrectionOfSealedEvidenceThatLeavesTheLotFitChangesNothing() {
    releaseL1();

    topology.accept(moisture(correcting("mended", 20, "f2"), 14.2));
    assertThat(topology.standing(L1).getRelease().getStep()).isEqualTo(ReleaseStep.RELEASED);

    topology.accept(moisture(correcting("mended-again", 21, "mended"), 19));
    assertThat(topology.standing(L1).getRelease().getStep()).isEqualTo(ReleaseStep.SUSPENDED);
    assertThat(topology.standing(L1).getRelease().getCauses()).contains("mended-again");
  }

  @Test
  void aLateResultOnAnAncestorSuspendsEveryReleasedDescendant() {
    topology.accept(
        lot("f1", "L1", 500),
        moisture("f2", 1, 14),
        crop("f3", "C1", "M-1", 0),
        sowing("f4", 10, "C1", "L1"),
        harvest(head("f5", 200), "C1", "L2", 900),
        moisture("f6", "L2", 201, 13));
    topology.accept(release("a1", "L1", signed(topology.sheet(L1), 5, "p-1", 1)));
    topology.accept(release("a2", "L2", signed(topology.sheet(L2), 210, "p-1", 1)));
    assertThat(topology.standing(L2).getRelease().getStep()).isEqualTo(ReleaseStep.RELEASED);

    topology.accept(InventedFacts.postControl(head("late", 300), "L1", false));

    assertThat(topology.standing(L1).getRelease().getCauses()).containsExactly("late");
    LotRelease release = topology.standing(L2).getRelease();
    assertThat(release.getStep()).isEqualTo(ReleaseStep.SUSPENDED);
    assertThat(release.getCauses()).containsExactly("late");
    assertThat(release.getChanges().get(0).getInheritedFrom()).isEqualTo("lot:L1");
  }

  @Test
  void underTheTwoPersonRuleTwoDifferentPersonsMustSignTheSame() {
    topology.accept(lot("f1", "L1", 500), moisture("f2", 1, 14));
    topology.accept(release("a1", "L1", signed(topology.sheet(L1), 10, "p-1", 2)));
    assertThat(topology.standing(L1).getRelease().getStep()).isEqualTo(ReleaseStep.PROPOSED);

    topology.accept(release("a2", "L1", signed(topology.sheet(L1), 11, "p-1", 2)));
    assertThat(topology.standing(L1).getRelease().getStep()).isEqualTo(ReleaseStep.PROPOSED);

    topology.accept(release("a3", "L1", signed(topology.sheet(L1), 12, "p-2", 2)));
    LotRelease release = topology.standing(L1).getRelease();
    assertThat(release.getStep()).isEqualTo(ReleaseStep.RELEASED);
    assertThat(release.getSince()).isEqualTo(day(12));
    assertThat(release.getSignatures())
        .extracting(act -> act.getSignerId())
        .containsExactly("p-1", "p-2");
  }

  @Test
  void aFirstSignatureLapsesWhenWhatItSignedHasChanged() {
    topology.accept(lot("f1", "L1", 500), moisture("f2", 1, 14));
    topology.accept(release("a1", "L1", signed(topology.sheet(L1), 10, "p-1", 2)));

    topology.accept(moisture("f3", 11, 14.5));
    assertThat(topology.standing(L1).getRelease()).isNull();

    topology.accept(release("a2", "L1", signed(topology.sheet(L1), 12, "p-2", 2)));
    assertThat(topology.standing(L1).getRelease().getStep()).isEqualTo(ReleaseStep.PROPOSED);
    assertThat(topology.standing(L1).getRelease().getSignatures())
        .extracting(act -> act.getSignerId())
        .containsExactly("p-2");
  }

  @Test
  void aCondemnedLotIsNotFitTakesItsDescendantsAlongAndOnlyAnActUndoesIt() {
    releaseL1();
    topology.accept(conditioning("f3", 12, "L1", "L2"));
    topology.accept(
        condemnation(
            "a2",
            "L1",
            CondemnationGround.PURITY_OR_IDENTITY,
            signed(topology.sheet(L1), 20, "p-2", 1)));

    assertThat(topology.standing(L1).getState()).isEqualTo(StandingState.NOT_FIT);
    assertThat(topology.standing(L1).getRelease().getStep()).isEqualTo(ReleaseStep.CONDEMNED);
    assertThat(topology.standing(L2).getInherited().get(0).getGate()).isEqualTo("CONDEMNATION");

    topology.accept(withdrawal("undo", 21, "a2"));
    assertThat(topology.standing(L1).getRelease().getStep()).isEqualTo(ReleaseStep.CONDEMNED);

    topology.accept(
        suspension(
            "a3",
            "L1",
            signed(topology.sheet(L1), 22, "p-2", 1),
            new Correction("a2", "another lot was meant")));
    assertThat(topology.standing(L1).getState()).isEqualTo(StandingState.FIT);
    assertThat(topology.standing(L1).getRelease().getStep()).isEqualTo(ReleaseStep.SUSPENDED);
    assertThat(topology.standing(L2).getInherited()).isEmpty();
  }

  @Test
  void seedThatIsCondemnedForItselfDoesNotReachWhatWasGrownFromIt() {
    topology.accept(
        lot("f1", "L1", 500),
        crop("f3", "C1", "M-1", 0),
        sowing("f4", 10, "C1", "L1"),
        conditioning("f5", 12, "L1", "L2"));
    topology.accept(
        condemnation(
            "a1", "L1", CondemnationGround.SEED_QUALITY, signed(topology.sheet(L1), 20, "p-2", 1)));

    assertThat(topology.standing(L2).getInherited()).hasSize(1);
    assertThat(topology.standing(Subject.crop("C1")).getInherited()).isEmpty();
  }

  @Test
  void aDowngradedLotIsJudgedAsTheLowerCategoryAndMustBeReleasedAnew() {
    releaseL1();
    topology.accept(
        downgrade("a2", "L1", Category.CERTIFIED, signed(topology.sheet(L1), 20, "p-1", 1)));

    LotStanding standing = topology.standing(L1);
    assertThat(standing.getMaterial().getCategory()).isEqualTo("CERTIFIED");
    assertThat(standing.getRelease().getDowngradedFrom()).isEqualTo("BASIC");
    assertThat(standing.getRelease().getStep()).isEqualTo(ReleaseStep.SUSPENDED);
    assertThat(standing.getRelease().getCauses()).containsExactly("a2");

    topology.accept(release("a3", "L1", signed(topology.sheet(L1), 21, "p-1", 1)));
    assertThat(topology.standing(L1).getRelease().getStep()).isEqualTo(ReleaseStep.RELEASED);
  }

  @Test
  void aDowngradeReachesWhatWasMadeOfTheLotAndSuspendsItsRelease() {
    topology.accept(
        lot("f1", "L1", 500),
        conditioning("f3", 2, "L1", "L2"),
        conditioning("f4", 3, "L2", "L3"),
        moisture("f5", "L3", 4, 14));
    Subject l3 = Subject.lot("L3");
    topology.accept(release("a1", "L3", signed(topology.sheet(l3), 10, "p-1", 1)));
    assertThat(topology.standing(l3).getRelease().getStep()).isEqualTo(ReleaseStep.RELEASED);

    topology.accept(
        downgrade("a2", "L1", Category.CERTIFIED, signed(topology.sheet(L1), 20, "p-1", 1)));

    LotStanding standing = topology.standing(l3);
    assertThat(standing.getMaterial().getCategory()).isEqualTo("CERTIFIED");
    assertThat(standing.getRelease().getStep()).isEqualTo(ReleaseStep.SUSPENDED);
  }

  @Test
  void aPersonMaySuspendAndAPersonReleasesAgain() {
    releaseL1();
    topology.accept(suspension("a2", "L1", signed(topology.sheet(L1), 20, "p-2", 1), null));
    assertThat(topology.standing(L1).getRelease().getStep()).isEqualTo(ReleaseStep.SUSPENDED);
    assertThat(StatementRecords.read(topology.standing(L1).getRelease().getReason()))
        .isEqualTo(new ReleaseFinding.SuspendedBy(new Person("p-2"), "customer complaint").coded());

    topology.accept(
        new Dispatch(head("f4", 21), "L1", "customer-1", 100.0, List.of()),
        release("a3", "L1", signed(topology.sheet(L1), 22, "p-1", 1)));

    assertThat(topology.standing(L1).getRelease().getStep()).isEqualTo(ReleaseStep.RELEASED);
    assertThat(topology.standing(L1).getRelease().getDispatchedUnreleasedKg()).isEqualTo(100);
  }

  /** What a signer saw was there before, whatever the clock of the server said. */
  @Test
  void actsThatWereSignedAfterTheClockWasSetBackFollowWhatTheirSignersSaw() {
    releaseL1();
    topology.accept(suspension("a2", "L1", signed(topology.sheet(L1), 5, "p-2", 1), null));
    assertThat(topology.standing(L1).getRelease().getStep()).isEqualTo(ReleaseStep.SUSPENDED);

    topology.accept(release("a3", "L1", signed(topology.sheet(L1), 4, "p-1", 1)));
    assertThat(topology.standing(L1).getRelease().getStep()).isEqualTo(ReleaseStep.RELEASED);

    topology.accept(suspension("a4", "L1", signed(topology.sheet(L1), 3, "p-2", 1), null));
    assertThat(topology.standing(L1).getRelease().getStep()).isEqualTo(ReleaseStep.SUSPENDED);

    topology.accept(
        condemnation(
            "a5",
            "L1",
            CondemnationGround.SEED_QUALITY,
            ReleaseSheet.withoutLists(signed(topology.sheet(L1), 2, "p-2", 1))));
    assertThat(topology.standing(L1).getRelease().getStep()).isEqualTo(ReleaseStep.CONDEMNED);
  }

  @Test
  void aSuspensionIsNotDatedBeforeTheReleaseThatItTakesBack() {
    releaseL1();
    topology.accept(moisture("late", 5, 20));

    LotRelease release = topology.standing(L1).getRelease();
    assertThat(release.getStep()).isEqualTo(ReleaseStep.SUSPENDED);
    assertThat(release.getCauses()).containsExactly("late");
    assertThat(release.getSince()).isEqualTo(day(10));
  }

  /** Two servers, or one that is behind: the sheet was read before the suspension was known. */
  @Test
  void aReleaseWhoseSignerDidNotSeeTheSuspensionDoesNotEndIt() {
    releaseL1();
    ReleaseSheet before = topology.sheet(L1);
    topology.accept(
        suspension("a2", "L1", signed(before, 20, "p-2", 1), null),
        release("a3", "L1", signed(before, 21, "p-1", 1)));
    assertThat(topology.standing(L1).getRelease().getStep()).isEqualTo(ReleaseStep.SUSPENDED);

    topology.accept(release("a4", "L1", signed(topology.sheet(L1), 22, "p-1", 1)));
    assertThat(topology.standing(L1).getRelease().getStep()).isEqualTo(ReleaseStep.RELEASED);
  }

  @Test
  void anActThatNoTrustedKeySignedOrThatWasAlteredIsRefused() {
    topology.accept(lot("f1", "L1", 500), moisture("f2", 1, 14));
    Release signed = release("a1", "L1", signed(topology.sheet(L1), 10, "p-1", 1));
    Release forged = SignedActs.attest(signed, SigningKey.random());
    Release altered =
        new Release(
            signed.getHeader(),
            "L1",
            "another reason",
            signed.getSignature(),
            signed.getAttestation());
    Release carriedOver =
        new Release(
            signed.getHeader(),
            "L2",
            signed.getReason(),
            signed.getSignature(),
            signed.getAttestation());
    Release unsigned =
        new Release(
            signed.getHeader(),
            "L1",
            signed.getReason(),
            signed.getSignature(),
            new Attestation("0".repeat(32), "0".repeat(128)));

    topology.accept(forged, altered, carriedOver, unsigned);

    assertThat(topology.quarantine())
        .hasSize(4)
        .allSatisfy(
            entry ->
                assertThat(Problem.of(entry.getProblems().get(0)).reason())
                    .isEqualTo(new ActProblem.NoTrustedSignature().coded()));
    assertThat(topology.standing(L1).getRelease()).isNull();
  }

  @Test
  void aLotOfWhichOnlyARefusedActIsKnownHasNoStanding() {
    topology.accept(InventedActs.refused("a1", "L1", 10));

    assertThat(topology.standings()).isEmpty();
    assertThat(topology.dossiers().entriesOf(L1)).hasSize(1);
  }

  private void releaseL1() {
    topology.accept(lot("f1", "L1", 500), moisture("f2", 1, 14));
    topology.accept(release("a1", "L1", signed(topology.sheet(L1), 10, "p-1", 1)));
    assertThat(topology.standing(L1).getRelease().getStep()).isEqualTo(ReleaseStep.RELEASED);
  }

  private static MoistureTest moisture(String id, int day, double percent) {
    return moisture(head(id, day), percent);
  }

  private static MoistureTest moisture(String id, String lotId, int day, double percent) {
    return new MoistureTest(head(id, day), lotId, "S-1", percent, "lab-1");
  }

  private static MoistureTest moisture(FactHeader head, double percent) {
    return new MoistureTest(head, "L1", "S-1", percent, "lab-1");
  }

  private static List<Verdict> moisture(Dossier dossier, Rulebook rulebook) {
    if (dossier.subject().kind() != Subject.Kind.LOT) {
      return List.of();
    }
    return List.of(
        dossier
            .latest(MoistureTest.class)
            .map(
                test ->
                    verdict(
                        test.getMoisturePercent() <= 15,
                        Gate.MOISTURE,
                        "",
                        test.getMoisturePercent(),
                        FactType.headerOf(test).getFactId()))
            .orElseGet(() -> Verdicts.owed(Gate.MOISTURE, "", new Evidence.MoistureTest())));
  }

  private static List<Verdict> identity(Dossier dossier, Rulebook rulebook) {
    return dossier.facts(PostControlResult.class).stream()
        .map(
            result ->
                verdict(
                    result.getIdentityConfirmed(),
                    Gate.POST_CONTROL,
                    result.getMethod() == PostControlMethod.PLOT ? "plot" : "marker",
                    0,
                    FactType.headerOf(result).getFactId()))
        .toList();
  }

  private static Verdict verdict(
      boolean met, Gate gate, String aspect, double value, String factId) {
    Measured measured = new Measured(value, "%", 15 - value, Optional.empty());
    return met
        ? Verdicts.met(gate, aspect, measured, factId)
        : Verdicts.notMet(gate, aspect, measured, factId);
  }
}
