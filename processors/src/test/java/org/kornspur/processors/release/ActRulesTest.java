package org.kornspur.processors.release;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.contract.Category;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Material;
import org.kornspur.processors.finding.ActFinding;
import org.kornspur.processors.release.ActRules.Wish;
import org.kornspur.processors.release.LotRelease.Step;
import org.kornspur.processors.verdict.Fitness;

/** Which act may follow on what. Common practice, no source. */
class ActRulesTest {

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
        ActRules.refusal(sheet(standing, step, Optional.ofNullable(lastAct)), wish(wish), "p-2");

    if (refused == null) {
      assertThat(refusal).isEmpty();
    } else {
      assertThat(refusal.orElseThrow().getClass().getSimpleName()).isEqualTo(refused);
    }
  }

  @Test
  void theSecondSignatureIsAnotherPersons() {
    ReleaseSheet proposed = sheet(Fitness.FIT, Step.PROPOSED, Optional.of("RELEASE"));

    assertThat(ActRules.refusal(proposed, new Wish.ToRelease(), "p-1"))
        .contains(new ActFinding.SignedAlready());
    assertThat(ActRules.refusal(proposed, new Wish.ToRelease(), "p-2")).isEmpty();
  }

  @Test
  void aSuspensionCorrectsNothingButACondemnation() {
    ReleaseSheet released = sheet(Fitness.FIT, Step.RELEASED, Optional.of("RELEASE"));

    assertThat(ActRules.refusal(released, new Wish.ToSuspend(Optional.of("a1")), "p-1"))
        .contains(new ActFinding.NoSuchCondemnation(new Fact("a1"), Subject.lot("L1")));
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
    Dossier dossier = new Dossier(Subject.lot("L1"), List.of(), List.of());
    Assessment assessment =
        new Assessment(
            standing,
            Optional.of(
                new Material("HYB-1", "A-1", Material.Kind.COMPONENT, Category.BASIC, 2024, "EU")),
            Optional.empty(),
            List.of(),
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
