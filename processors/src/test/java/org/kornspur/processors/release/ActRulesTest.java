package org.kornspur.processors.release;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.contract.Category;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Material;
import org.kornspur.processors.finding.ActFinding;
import org.kornspur.processors.finding.GerminationFinding;
import org.kornspur.processors.fixture.Dossiers;
import org.kornspur.processors.fixture.Facts;
import org.kornspur.processors.release.ActRules.Wish;
import org.kornspur.processors.release.LotRelease.Step;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.verdict.Fitness;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Measured;
import org.kornspur.processors.verdict.Verdict;

/** Which act may follow on what. Common practice, no source. */
class ActRulesTest {
  private static final LocalDate TODAY = LocalDate.parse("2025-09-01");

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        // standing      | step      | last act | wish      | refused because
        "FIT             | NONE      |          | RELEASE   |",
        "FIT             | PROPOSED  | RELEASE  | RELEASE   |",
        "FIT             | RELEASED  | RELEASE  | RELEASE   | AlreadyReleased",
        "FIT             | SUSPENDED | SUSPEND  | RELEASE   |",
        "FIT             | SUSPENDED | RELEASE  | RELEASE   |",
        "NOT_FIT         | NONE      |          | RELEASE   | NotFit",
        "EVIDENCE_OWED   | NONE      |          | RELEASE   | EvidenceOwed",
        "NOT_FIT         | CONDEMNED | CONDEMN  | RELEASE   | CondemnedNotReleased",
        "FIT             | NONE      |          | SUSPEND   | NotReleased",
        "FIT             | PROPOSED  | RELEASE  | SUSPEND   |",
        "FIT             | RELEASED  | RELEASE  | SUSPEND   |",
        "NOT_FIT         | SUSPENDED | RELEASE  | SUSPEND   |",
        "FIT             | SUSPENDED | SUSPEND  | SUSPEND   | AlreadySuspended",
        "NOT_FIT         | CONDEMNED | CONDEMN  | SUSPEND   | NameCondemnation",
        "FIT             | NONE      |          | CONDEMN   |",
        "FIT             | RELEASED  | RELEASE  | CONDEMN   |",
        "NOT_FIT         | SUSPENDED | RELEASE  | CONDEMN   |",
        "FIT             | NONE      |          | CERTIFIED |",
        "FIT             | RELEASED  | RELEASE  | CERTIFIED |",
        "FIT             | NONE      |          | BASIC     | CategoryNotLower",
        "FIT             | NONE      |          | BREEDER   | CategoryNotLower",
        "NOT_FIT         | CONDEMNED | CONDEMN  | CERTIFIED | CondemnedHasNoCategory",
      })
  void anActFollowsOnTheStateOfTheLot(
      Fitness standing, Step step, String lastAct, String wish, String refused) {
    Optional<ActFinding> refusal =
        ActRules.refusal(
            sheet(standing, step, Optional.ofNullable(lastAct)), wish(wish), "p-2", TODAY);

    if (refused == null) {
      assertThat(refusal).isEmpty();
    } else {
      assertThat(refusal.orElseThrow().getClass().getSimpleName()).isEqualTo(refused);
    }
  }

  @Test
  void theSecondSignatureIsAnotherPersons() {
    ReleaseSheet proposed = sheet(Fitness.FIT, Step.PROPOSED, Optional.of("RELEASE"));

    assertThat(ActRules.refusal(proposed, new Wish.ToRelease(), "p-1", TODAY))
        .contains(new ActFinding.SignedAlready());
    assertThat(ActRules.refusal(proposed, new Wish.ToRelease(), "p-2", TODAY)).isEmpty();
  }

  @Test
  void aSuspensionCorrectsNothingButACondemnation() {
    ReleaseSheet released = sheet(Fitness.FIT, Step.RELEASED, Optional.of("RELEASE"));

    assertThat(ActRules.refusal(released, new Wish.ToSuspend(Optional.of("a1")), "p-1", TODAY))
        .contains(new ActFinding.NoSuchCondemnation(new Fact("a1"), Subject.lot("L1")));
  }

  @Test
  void rawHarvestIsNotReleased() {
    Dossier raw = Dossiers.lot("L1").with(Facts.harvest("C1", "L1", 5_000)).dossier();
    ReleaseSheet sheet = sheet(raw, Fitness.FIT, List.of(), Step.NONE, Optional.empty());

    assertThat(ActRules.refusal(sheet, new Wish.ToRelease(), "p-1", TODAY))
        .contains(new ActFinding.RawHarvestNotReleased(Subject.lot("L1")));
  }

  /** Nobody tests what went into another lot; nothing of it is left to be released. */
  @ParameterizedTest(name = "of 1,000 kg {0} kg conditioned, {1} kg merged, {2} kg sold: {3}")
  @CsvSource({
    "900, 100, 0, true",
    "1000, 0, 0, true",
    // what scales differ by
    "995, 0, 0, true",
    "994, 0, 0, false",
    "900, 0, 100, false",
    "0, 0, 1000, false"
  })
  void aLotOfWhichNothingIsLeftIsNotReleased(
      double conditionedKg, double mergedKg, double soldKg, boolean isRefused) {
    Dossiers lot = Dossiers.lot("L1").with(Facts.declared("L1", "A-1", Category.BASIC, 1000));
    if (conditionedKg > 0) {
      lot.with(Facts.conditioning().from("L1", conditionedKg).into("L2", conditionedKg));
    }
    if (mergedKg > 0) {
      lot.with(Facts.merge("L3").of("L1", mergedKg).of("L4", 50));
    }
    if (soldKg > 0) {
      lot.with(Facts.dispatch("L1", soldKg));
    }
    Limit tolerance =
        Limit.givenBy(
            "PRACTICE", "1", TODAY, Quantity.MASS_BALANCE_TOLERANCE, Limit.Sense.AT_MOST, 0.5);
    Verdict balance =
        new Verdict.Met(
            Gate.MASS_BALANCE,
            "",
            Optional.empty(),
            Measured.exact(0, "%", 0.5),
            Optional.of(tolerance),
            List.of("m1"),
            List.of(),
            List.of());
    ReleaseSheet sheet =
        sheet(lot.dossier(), Fitness.FIT, List.of(balance), Step.NONE, Optional.empty());

    Optional<ActFinding> refusal = ActRules.refusal(sheet, new Wish.ToRelease(), "p-1", TODAY);
    assertThat(refusal.filter(ActFinding.NothingLeft.class::isInstance).isPresent())
        .isEqualTo(isRefused);
  }

  /** 7 CFR 201.30a, read, for the five months; the rest is our own rule, no source. */
  @ParameterizedTest
  @CsvSource({"2025-08-31, true", "2025-09-01, false"})
  void seedIsNotReleasedOnATestThatCountsNoMore(LocalDate until, boolean isRefused) {
    Coded counts = new GerminationFinding.CountsUntil(until).coded();
    Verdict germination =
        new Verdict.Met(
            Gate.GERMINATION,
            "",
            Optional.empty(),
            Measured.exact(90, "%", 5),
            Optional.empty(),
            List.of("g1"),
            List.of(counts),
            List.of());
    ReleaseSheet sheet =
        sheet(
            new Dossier(Subject.lot("L1"), List.of(), List.of()),
            Fitness.FIT,
            List.of(germination),
            Step.NONE,
            Optional.empty());

    Optional<ActFinding> refusal = ActRules.refusal(sheet, new Wish.ToRelease(), "p-1", TODAY);

    assertThat(refusal)
        .isEqualTo(
            isRefused
                ? Optional.of(new ActFinding.EvidenceOwed(Subject.lot("L1"), List.of(counts)))
                : Optional.empty());
  }

  private static Wish wish(String word) {
    return switch (word) {
      case "RELEASE" -> new Wish.ToRelease();
      case "SUSPEND" -> new Wish.ToSuspend(Optional.empty());
      case "CONDEMN" -> new Wish.ToCondemn();
      default -> new Wish.ToDowngrade(Category.valueOf(word));
    };
  }

  /** A sheet of a lot of basic seed on which person p-1 did the last act. */
  private static ReleaseSheet sheet(Fitness standing, Step step, Optional<String> lastAct) {
    return sheet(
        new Dossier(Subject.lot("L1"), List.of(), List.of()), standing, List.of(), step, lastAct);
  }

  private static ReleaseSheet sheet(
      Dossier dossier,
      Fitness standing,
      List<Verdict> verdicts,
      Step step,
      Optional<String> lastAct) {
    Assessment assessment =
        new Assessment(
            standing,
            Optional.of(
                new Material("HYB-1", "A-1", Material.Kind.COMPONENT, Category.BASIC, 2024, "EU")),
            Optional.empty(),
            verdicts,
            List.of(),
            List.of(),
            Optional.empty());
    LotRelease release =
        new LotRelease(
            step,
            Optional.empty(),
            lastAct.stream()
                .map(
                    kind ->
                        new LotRelease.Signed(
                            "a1", kind, "p-1", "responsibility", "all is met", Instant.EPOCH, ""))
                .toList(),
            2,
            Optional.empty(),
            List.of(),
            List.of(),
            Optional.empty(),
            0,
            0,
            List.of());
    return new ReleaseSheet(dossier, assessment, release, Seal.of(dossier, assessment));
  }
}
