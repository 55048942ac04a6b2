package org.kornspur.processors.stream;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.contract.Category;
import org.kornspur.contract.CropRole;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Report;
import org.kornspur.processors.finding.IsolationFinding;
import org.kornspur.processors.fixture.Dossiers;
import org.kornspur.processors.fixture.Facts;
import org.kornspur.processors.ground.Plot;
import org.kornspur.processors.judging.Judge;
import org.kornspur.processors.standards.Rulebooks;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * A stand of the very component whose pollen is wanted counts as foreign once it has more off-types
 * than it may: SaatV, Annex 2 no. 1.3.1.3b, letter b, read.
 */
class SameComponentTest {
  private static final Judge JUDGE = Judge.by(Rulebooks.bundled());

  @ParameterizedTest(name = "{0} off-types in 150 m2 of the pollinator beside the mixture: {1}")
  @CsvSource({"5, met", "6, not met"})
  void countsAsForeignWithTooManyOffTypes(int offTypes, String expected) {
    Dossier pollinator =
        Dossiers.crop("c2")
            .with(
                Facts.crop("c2", CropRole.POLLINATOR)
                    .with(
                        crop ->
                            crop.setRulebookId("DE").setOutline(Facts.square(10.005, 52.0, 0.003))),
                Facts.inspection("c2").offTypesInArea(offTypes, 150))
            .dossier();
    Dossier mixture =
        Dossiers.crop("c1")
            .with(Facts.crop("c1", CropRole.F1_MIXTURE).with(crop -> crop.setRulebookId("DE")))
            .dossier();

    IsolationCellIndex ground =
        IsolationCellIndex.of(2024, List.of(plot(pollinator), plot(mixture)));
    List<Report.Neighbour> near = ground.near(Subject.crop("c1"));
    Verdict verdict =
        isolation(
            near.isEmpty()
                ? mixture
                : new Dossier(
                    mixture.subject(),
                    mixture.entries(),
                    List.of(
                        new Report.FromGround(
                            "cell", mixture.subject(), near, List.of(), List.of()))));

    assertThat(verdict)
        .isInstanceOf(expected.equals("met") ? Verdict.Met.class : Verdict.NotMet.class);
    assertThat(
            verdict.findings().stream()
                .map(Coded::code)
                .anyMatch(Coded.codeOf(IsolationFinding.SameComponent.class)::equals))
        .isEqualTo(expected.equals("not met"));
  }

  // found gone in flower alone, with days of flowering unknown, they may have shed all the time
  @ParameterizedTest(name = "6 off-types, found gone at BBCH {0}: {1}")
  @CsvSource({"59,", "65, true"})
  void isTakenBackOnceRoguedBeforeFlowering(int stageFoundGone, Boolean foreign) {
    Dossier rogued =
        Dossiers.crop("c2")
            .with(
                Facts.crop("c2", CropRole.POLLINATOR).with(crop -> crop.setRulebookId("DE")),
                Facts.inspection("c2")
                    .visit(1)
                    .offTypesInArea(6, 150)
                    .with(visit -> visit.setBbchStage(55))
                    .at("2024-05-25"),
                Facts.inspection("c2")
                    .visit(2)
                    .offTypesInArea(0, 150)
                    .with(visit -> visit.setBbchStage(stageFoundGone))
                    .at("2024-06-05"))
            .dossier();

    assertThat(plot(rogued).tooManyOffTypes()).isEqualTo(Optional.ofNullable(foreign));
  }

  /** Other seed in its place is no better than off-types in it: common practice, no source. */
  @ParameterizedTest(name = "declared as {0}, sown with {1}, {2}: {3}")
  @CsvSource({
    "C1, C1, PRE_BASIC,",
    "C1, M1, PRE_BASIC, true",
    // the right seed of too low a category sheds the right pollen
    "C1, C1, CERTIFIED,",
    "C1, M1, CERTIFIED, true"
  })
  void isForeignWhereOtherSeedWasSown(
      String declared, String sown, Category category, Boolean foreign) {
    Dossier pollinator =
        Dossiers.crop("c2")
            .with(
                Facts.crop("c2", CropRole.POLLINATOR)
                    .with(crop -> crop.setSeedComponentId(declared)),
                Facts.sowing("c2").of("l1", 100))
            .scheme()
            .parent("l1", Dossiers.component(sown, category))
            .dossier();
    assertThat(plot(pollinator).tooManyOffTypes()).isEqualTo(Optional.ofNullable(foreign));
    assertThat(plot(pollinator).pollenId()).contains("C1");
  }

  private static Plot plot(Dossier crop) {
    return JUDGE.judge(crop).place().orElseThrow();
  }

  private static Verdict isolation(Dossier crop) {
    return JUDGE.judge(crop).standing().orElseThrow().verdicts().stream()
        .filter(verdict -> verdict.gate() == Gate.ISOLATION)
        .findFirst()
        .orElseThrow();
  }
}
