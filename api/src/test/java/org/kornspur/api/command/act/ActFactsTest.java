package org.kornspur.api.command.act;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.apache.avro.specific.SpecificRecord;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.contract.ActKind;
import org.kornspur.contract.CondemnationGround;
import org.kornspur.contract.FactHeader;
import org.kornspur.contract.MoistureTest;
import org.kornspur.contract.Signature;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.intake.FactChecks;
import org.kornspur.ingest.problem.Given;
import org.kornspur.ingest.seal.SigningKey;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Entry;
import org.kornspur.processors.judging.Judge;
import org.kornspur.processors.release.ReleaseSheet;
import org.kornspur.processors.release.SignedAct;

/**
 * Acts on a lot with more facts than a list of a record may name, which whoever holds it can send.
 */
class ActFactsTest {
  private static final SigningKey KEY = SigningKey.random();
  private static final Instant DAY = Instant.parse("2024-08-01T00:00:00Z");

  @ParameterizedTest
  @EnumSource(
      value = ActKind.class,
      names = {"SUSPEND", "CONDEMN"})
  void whatHoldsSeedBackIsSignedHoweverMuchThereIsToSeal(ActKind kind) {
    ReleaseSheet sheet = sheetOf(10_001);
    SpecificRecord act = ActFacts.recordable(request(kind, sheet), sheet, signature(sheet), KEY);

    assertThat(FactChecks.check(act)).isEmpty();
    Signature signature = SignedAct.of(act).orElseThrow().signature();
    assertThat(signature.getSeal()).isEqualTo(sheet.seal().hex());
    assertThat(signature.getSealedFactIds()).isEmpty();
  }

  @Test
  void whatFitsNamesAllThatWasSealed() {
    ReleaseSheet sheet = sheetOf(10_000);
    SpecificRecord act =
        ActFacts.recordable(request(ActKind.SUSPEND, sheet), sheet, signature(sheet), KEY);

    assertThat(SignedAct.of(act).orElseThrow().signature().getSealedFactIds()).hasSize(10_000);
  }

  @Test
  void aReleaseThatCannotBeKeptIsRefusedBeforeItIsSigned() {
    ReleaseSheet sheet = sheetOf(10_001);
    assertThatThrownBy(
            () ->
                ActFacts.recordable(request(ActKind.RELEASE, sheet), sheet, signature(sheet), KEY))
        .isInstanceOfSatisfying(
            ApiProblem.class,
            refused ->
                assertThat(refused.document().problems())
                    .anySatisfy(
                        problem -> {
                          assertThat(problem.field()).isEqualTo("signature.sealedFactIds");
                          assertThat(problem.value()).isEqualTo(new Given.ListOf(10_001).coded());
                        }));
  }

  private static ReleaseSheet sheetOf(int facts) {
    List<Entry> entries =
        IntStream.range(0, facts)
            .mapToObj(
                number ->
                    new Entry(
                        new MoistureTest(
                            new FactHeader("f-" + number, "lab-1", DAY, DAY, "sheet", null, null),
                            "L-1",
                            "S-1",
                            14.0,
                            "LAB-1"),
                        Optional.empty()))
            .toList();
    Judge judge = new Judge(id -> Optional.empty(), List.of());
    return ReleaseSheet.of(new Dossier(Subject.lot("L-1"), entries, List.of()), judge::assess);
  }

  private static Signature signature(ReleaseSheet sheet) {
    return sheet.signature("quality-1", "0".repeat(64), "responsibility", DAY, 1);
  }

  private static ActRequest request(ActKind kind, ReleaseSheet sheet) {
    return new ActRequest(
        kind,
        "customer complaint",
        "responsibility",
        sheet.seal().hex(),
        Optional.empty(),
        Optional.empty(),
        Optional.of(CondemnationGround.values()[0]),
        Optional.empty());
  }
}
