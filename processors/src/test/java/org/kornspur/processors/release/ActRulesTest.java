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
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Material;
import org.kornspur.processors.release.ActRules.Wish;
import org.kornspur.processors.release.LotRelease.Step;

/** Which act may follow on what. Common practice, no source. */
class ActRulesTest {

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        // standing      | step      | last act | wish      | refused because
        "FIT             | NONE      |          | RELEASE   |",
        "FIT             | PROPOSED  | RELEASE  | RELEASE   |",
        "FIT             | RELEASED  | RELEASE  | RELEASE   | released already",
        "FIT             | SUSPENDED | SUSPEND  | RELEASE   |",
        "FIT             | SUSPENDED | RELEASE  | RELEASE   |",
        "NOT_FIT         | NONE      |          | RELEASE   | only what is FIT",
        "EVIDENCE_OWED   | NONE      |          | RELEASE   | only what is FIT",
        "NOT_FIT         | CONDEMNED | CONDEMN  | RELEASE   | is condemned",
        "FIT             | NONE      |          | SUSPEND   | nothing to suspend",
        "FIT             | PROPOSED  | RELEASE  | SUSPEND   |",
        "FIT             | RELEASED  | RELEASE  | SUSPEND   |",
        "NOT_FIT         | SUSPENDED | RELEASE  | SUSPEND   |",
        "FIT             | SUSPENDED | SUSPEND  | SUSPEND   | suspended already",
        "NOT_FIT         | CONDEMNED | CONDEMN  | SUSPEND   | name the condemnation",
        "FIT             | NONE      |          | CONDEMN   |",
        "FIT             | RELEASED  | RELEASE  | CONDEMN   |",
        "NOT_FIT         | SUSPENDED | RELEASE  | CONDEMN   |",
        "FIT             | NONE      |          | CERTIFIED |",
        "FIT             | RELEASED  | RELEASE  | CERTIFIED |",
        "FIT             | NONE      |          | BASIC     | is not below it",
        "FIT             | NONE      |          | BREEDER   | is not below it",
        "NOT_FIT         | CONDEMNED | CONDEMN  | CERTIFIED | is condemned",
      })
  void anActFollowsOnTheStateOfTheLot(
      String standing, Step step, String lastAct, String wish, String refused) {
    Optional<String> refusal =
        ActRules.refusal(sheet(standing, step, Optional.ofNullable(lastAct)), wish(wish), "p-2");

    if (refused == null) {
      assertThat(refusal).isEmpty();
    } else {
      assertThat(refusal).hasValueSatisfying(why -> assertThat(why).contains(refused));
    }
  }

  @Test
  void theSecondSignatureIsAnotherPersons() {
    ReleaseSheet proposed = sheet("FIT", Step.PROPOSED, Optional.of("RELEASE"));

    assertThat(ActRules.refusal(proposed, new Wish.ToRelease(), "p-1"))
        .hasValueSatisfying(why -> assertThat(why).contains("two different persons"));
    assertThat(ActRules.refusal(proposed, new Wish.ToRelease(), "p-2")).isEmpty();
  }

  @Test
  void aSuspensionCorrectsNothingButACondemnation() {
    ReleaseSheet released = sheet("FIT", Step.RELEASED, Optional.of("RELEASE"));

    assertThat(ActRules.refusal(released, new Wish.ToSuspend(Optional.of("a1")), "p-1"))
        .hasValueSatisfying(why -> assertThat(why).contains("no condemnation"));
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
  private static ReleaseSheet sheet(String standing, Step step, Optional<String> lastAct) {
    Dossier dossier = new Dossier(Subject.lot("L1"), List.of(), List.of());
    Assessment assessment =
        new Assessment(
            standing,
            Optional.of(
                new Material("HYB-1", "A-1", Material.Kind.COMPONENT, Category.BASIC, 2024, "EU")),
            Optional.empty(),
            List.of(),
            List.of());
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
            0);
    return new ReleaseSheet(dossier, assessment, release, Seal.of(dossier, assessment));
  }
}
