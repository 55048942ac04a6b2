package org.kornspur.processors.advice;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.contract.CropRole;
import org.kornspur.contract.FloweringPart;
import org.kornspur.contract.InspectedPart;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.fixture.Dossiers;
import org.kornspur.processors.fixture.Facts;

/**
 * Begin, full and end of flowering are BBCH 61, 65 and 69 of cereals (Zadoks-based BBCH scale, from
 * memory). The overlap is plain counting of days; what follows from it is common practice.
 */
class NickingAdviceTest {

  @ParameterizedTest(name = "female from June {0} to {1}, pollen parent {2} to {3}: {4} days")
  @CsvSource({
    "1, 10, 1, 10, 10",
    "1, 10, 3, 12, 8",
    "3, 10, 1, 8, 6",
    "1, 10, 4, 6, 3",
    "1, 10, 10, 18, 1",
    "1, 10, 11, 18, 0"
  })
  void daysInCommonAreCounted(int from, int to, int pollenFrom, int pollenTo, int days) {
    NickingAdvice advice = advice(crop(from, to, pollenFrom, pollenTo));

    assertThat(advice.missing()).isEmpty();
    NickingAdvice.Overlap overlap = advice.overlap().orElseThrow();
    assertThat(overlap.days()).isEqualTo(days);
    assertThat(overlap.share().likely()).isEqualTo((double) days / overlap.femaleDays());
    assertThat(advice.said())
        .filteredOn(NickingStatement.OpenFlorets.class::isInstance)
        .isEqualTo(
            days == overlap.femaleDays()
                ? List.of()
                : List.of(new NickingStatement.OpenFlorets(overlap.femaleDays() - days)));
  }

  @Test
  void saysWhenEachFloweredAndHowFarFullFlowerLayApart() {
    Dossier crop =
        Dossiers.crop("c1")
            .with(Facts.crop("c1", CropRole.F1_MIXTURE))
            .with(Facts.flowering("c1", FloweringPart.FEMALE, 61).at("2024-06-01"))
            .with(Facts.flowering("c1", FloweringPart.FEMALE, 65).at("2024-06-04"))
            .with(Facts.flowering("c1", FloweringPart.FEMALE, 69).at("2024-06-10"))
            .with(Facts.flowering("c1", FloweringPart.POLLEN_PARENT, 61).at("2024-06-04"))
            .with(Facts.flowering("c1", FloweringPart.POLLEN_PARENT, 65).at("2024-06-08"))
            .with(Facts.flowering("c1", FloweringPart.POLLEN_PARENT, 69).at("2024-06-14"))
            .dossier();

    assertThat(advice(crop).said())
        .containsExactly(
            new NickingStatement.Flowered(FloweringPart.FEMALE, june(1), june(10)),
            new NickingStatement.FullFlower(FloweringPart.FEMALE, june(4)),
            new NickingStatement.Flowered(FloweringPart.POLLEN_PARENT, june(4), june(14)),
            new NickingStatement.FullFlower(FloweringPart.POLLEN_PARENT, june(8)),
            new NickingStatement.Together(june(4), june(10), 7, Amount.percent(70)),
            new NickingStatement.FullApart(4),
            new NickingStatement.OpenFlorets(3));
  }

  @Test
  void aLookAtFullFlowerTellsNeitherBeginNorEnd() {
    Dossier crop =
        Dossiers.crop("c1")
            .with(Facts.crop("c1", CropRole.F1_MIXTURE))
            .with(Facts.flowering("c1", FloweringPart.FEMALE, 65).at("2024-06-04"))
            .with(Facts.flowering("c1", FloweringPart.POLLEN_PARENT, 61).at("2024-06-04"))
            .with(Facts.flowering("c1", FloweringPart.POLLEN_PARENT, 55).at("2024-05-28"))
            .dossier();

    NickingAdvice advice = advice(crop);

    assertThat(advice.overlap()).isEmpty();
    assertThat(advice.missing())
        .containsExactly(new Missing.FemaleFlowering(), new Missing.PollinatorFlowering());
    assertThat(advice.female().window().isKnown()).isFalse();
    assertThat(advice.pollenParent().window().from()).contains(june(4));
  }

  @Test
  void inspectionsOfOnePartTellItsStageToo() {
    Dossier crop =
        Dossiers.crop("c1")
            .with(Facts.crop("c1", CropRole.STERILE_FEMALE))
            .with(visit(1, 61, "2024-06-01"), visit(2, 67, "2024-06-09"))
            .with(Facts.flowering("c1", FloweringPart.POLLEN_PARENT, 61).at("2024-06-02"))
            .with(Facts.flowering("c1", FloweringPart.POLLEN_PARENT, 69).at("2024-06-09"))
            .dossier();

    assertThat(advice(crop).overlap().orElseThrow().days()).isEqualTo(8);
  }

  @Test
  void theForecastTakesWhatWasSeenInPlaceOfAnAssumption() {
    Dossier apart = crop(1, 10, 8, 16);
    Dossier nothing = Dossiers.crop("c1").with(Facts.crop("c1", CropRole.F1_MIXTURE)).dossier();

    assertThat(overlapOf(apart).origin()).isEqualTo(InputValue.Origin.COUNTED);
    assertThat(overlapOf(apart).value().likely()).isEqualTo(0.3);
    assertThat(overlapOf(apart).factIds()).hasSize(4);
    assertThat(overlapOf(nothing).origin()).isEqualTo(InputValue.Origin.ASSUMED);
  }

  @Test
  void aCropGrownAloneHasNothingToMeet() {
    assertThat(
            NickingAdvice.of(
                Dossiers.crop("c1").with(Facts.crop("c1", CropRole.POLLINATOR)).dossier()))
        .isEmpty();
  }

  private static InputValue overlapOf(Dossier crop) {
    return HybridityForecast.of(
            crop, subject -> new Dossier(subject, List.of(), List.of()), Optional.empty())
        .orElseThrow()
        .inputs()
        .stream()
        .filter(input -> input.what() instanceof AdviceInput.PollinatorOverlap)
        .findFirst()
        .orElseThrow();
  }

  private static Facts.InspectionDraft visit(int number, int stage, String day) {
    return Facts.inspection("c1")
        .visit(number)
        .of(InspectedPart.FEMALE)
        .offTypesInArea(0, 150)
        .with(visit -> visit.setBbchStage(stage))
        .at(day);
  }

  private static Dossier crop(int from, int to, int pollenFrom, int pollenTo) {
    return Dossiers.crop("c1")
        .with(
            Facts.crop("c1", CropRole.F1_MIXTURE),
            Facts.flowering("c1", FloweringPart.FEMALE, 61).at(june(from).toString()),
            Facts.flowering("c1", FloweringPart.FEMALE, 69).at(june(to).toString()),
            Facts.flowering("c1", FloweringPart.POLLEN_PARENT, 62).at(june(pollenFrom).toString()),
            Facts.flowering("c1", FloweringPart.POLLEN_PARENT, 68).at(june(pollenTo).toString()))
        .dossier();
  }

  private static LocalDate june(int day) {
    return LocalDate.of(2024, 6, day);
  }

  private static NickingAdvice advice(Dossier crop) {
    return NickingAdvice.of(crop).orElseThrow();
  }
}
