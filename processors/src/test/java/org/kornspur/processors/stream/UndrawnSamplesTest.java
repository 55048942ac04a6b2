package org.kornspur.processors.stream;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.kornspur.contract.Category;
import org.kornspur.contract.CompositionMethod;
import org.kornspur.contract.OtherSeedDetermination;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.fixture.Draft;
import org.kornspur.processors.fixture.Facts;
import org.kornspur.standing.LotStanding;
import org.kornspur.standing.StandingState;
import org.kornspur.standing.VerdictState;

/** Nothing rests on a sample that nobody drew; our own rule, no source. */
class UndrawnSamplesTest {
  private static final double KG = 1000;
  private static final String UNDRAWN = "UNDRAWN";

  @ParameterizedTest(name = "germination of the untreated lot {0} %")
  @ValueSource(ints = {60, 95})
  void aTreatedLotIsNotFitByATestOfNoSample(int germination) {
    List<Draft<?>> facts = lot();
    facts.addAll(drawn("L", KG));
    facts.addAll(tests("L", "S-L", germination));
    facts.add(treated("2024-09-15"));
    facts.add(germination("T", UNDRAWN, 95));
    assertThat(state("T", facts)).isEqualTo(StandingState.EVIDENCE_OWED);
  }

  @Test
  void aSampleOfTheWholeSpeaksForNoTestsThatOnlyTheTreatedLotHas() {
    List<Draft<?>> facts = lot();
    facts.addAll(drawn("L", KG));
    facts.add(treated("2024-09-15"));
    facts.addAll(tests("T", UNDRAWN, 95));
    assertThat(state("T", facts)).isEqualTo(StandingState.EVIDENCE_OWED);
  }

  @Test
  void whatIsMissingOfTheWholeIsNotCountedInNoSampleOfAPart() {
    List<Draft<?>> facts = lot();
    facts.addAll(drawn("L", KG));
    facts.addAll(tests("L", "S-L", 95));
    facts.removeIf(draft -> draft.fact() instanceof OtherSeedDetermination);
    facts.add(Facts.split("L").into("B", 400).at("2024-09-12"));
    facts.add(Facts.otherSeeds("B").with(test -> test.setSampleId(UNDRAWN)).at("2024-09-20"));
    assertThat(state("B", facts)).isEqualTo(StandingState.EVIDENCE_OWED);
  }

  @Test
  void theSisterOfAFailedPartIsNotClearedByNoSample() {
    List<Draft<?>> facts = lot();
    facts.addAll(drawn("L", KG));
    facts.addAll(tests("L", "S-L", 95));
    facts.add(Facts.split("L").into("A", 400).into("B", 600).at("2024-09-12"));
    facts.addAll(drawn("A", 400));
    facts.add(
        Facts.otherSeeds("A")
            .with(test -> test.setSampleId("S-A").setOtherCereals(100))
            .at("2024-09-20"));
    facts.add(Facts.otherSeeds("B").with(test -> test.setSampleId(UNDRAWN)).at("2024-09-20"));
    assertThat(state("A", facts)).isEqualTo(StandingState.NOT_FIT);
    assertThat(state("B", facts)).isEqualTo(StandingState.EVIDENCE_OWED);
  }

  @ParameterizedTest(name = "whole sampled {0}: {1}")
  @CsvSource({"true, FIT", "false, EVIDENCE_OWED"})
  void theSampleOfAPartProvesNothingThatWasTestedOfTheWholeInNone(
      boolean isDrawn, StandingState expected) {
    List<Draft<?>> facts = lot();
    facts.addAll(isDrawn ? drawn("L", KG) : List.of());
    facts.addAll(tests("L", isDrawn ? "S-L" : UNDRAWN, 95));
    facts.add(Facts.split("L").into("B", 400).at("2024-09-12"));
    facts.add(
        Facts.sampling("B", 40, 400, 200)
            .with(drawn -> drawn.setSampleId("S-B").setContainers(null))
            .at("2024-09-15"));
    facts.add(germination("B", "S-B", 95));
    assertThat(state("B", facts)).isEqualTo(expected);
  }

  @ParameterizedTest(name = "kernels told apart of {0} on {1}: {2}")
  @CsvSource({
    "S-M, 2024-09-10, FIT",
    "S-M, 2024-09-02, EVIDENCE_OWED",
    "UNDRAWN, 2024-09-20, EVIDENCE_OWED"
  })
  void theShareOfAMixtureIsToldByADrawnSample(String sample, String day, StandingState expected) {
    List<Draft<?>> facts = mixture();
    facts.add(composition("M", sample, day));
    assertThat(state("M", facts)).isEqualTo(expected);
  }

  @Test
  void aCountOfNoSampleTakesNothingFromAMixtureThatNeedsNone() {
    List<Draft<?>> facts = mixture();
    facts.add(composition("M", "S-M", "2024-09-10"));
    facts.add(composition("M", UNDRAWN, "2024-09-20"));
    assertThat(state("M", facts)).isEqualTo(StandingState.FIT);
  }

  @ParameterizedTest(name = "graded on 12 September and {0}, kernels told apart of {1} on {2}: {3}")
  @CsvSource({
    "2024-09-12, S-G, 2024-09-14, FIT",
    "2024-09-12, S-G, 2024-09-12, EVIDENCE_OWED",
    "2024-09-12, UNDRAWN, 2024-09-14, EVIDENCE_OWED",
    // the second half came in after the sample was drawn
    "2024-10-12, S-G, 2024-09-14, EVIDENCE_OWED"
  })
  void aGradedMixtureIsToldByASampleDrawnSince(
      String secondDay, String sample, String told, StandingState expected) {
    List<Draft<?>> facts = mixture();
    facts.add(composition("M", "S-M", "2024-09-10"));
    for (String day : List.of("2024-09-12", secondDay)) {
      facts.add(
          Facts.conditioning().from("M", KG / 2).into("G", 450).screenings(KG / 2 - 450).at(day));
    }
    facts.add(
        Facts.sampling("G", 40, 900, 200)
            .with(drawn -> drawn.setSampleId("S-G").setContainers(null))
            .at("2024-09-13"));
    facts.addAll(tests("G", "S-G", 95));
    facts.add(composition("G", sample, told));
    assertThat(state("G", facts)).isEqualTo(expected);
  }

  @ParameterizedTest(name = "{0} of 1,000 kg treated on {1}, sampled on 10 September: {2}")
  @CsvSource({
    "1000, 2024-09-05, EVIDENCE_OWED",
    // a kilogram that was left tells nothing of the others
    "999, 2024-09-05, EVIDENCE_OWED",
    "1000, 2024-09-15, FIT"
  })
  void aLotIsNotSampledWhereAllOfItIsTreated(double kg, String day, StandingState expected) {
    List<Draft<?>> facts = lot();
    facts.addAll(drawn("L", KG));
    facts.addAll(tests("L", "S-L", 95));
    facts.add(
        Facts.conditioning().from("L", kg).into("T", kg).treatedWith("invented dressing").at(day));
    assertThat(state("L", facts)).isEqualTo(expected);
    assertThat(state("T", facts)).isEqualTo(expected);
  }

  @Test
  void seedThatWasLeftOfATreatedLotIsSampledByItself() {
    List<Draft<?>> facts = lot();
    facts.add(
        Facts.conditioning()
            .from("L", 400)
            .into("T", 400)
            .treatedWith("invented dressing")
            .at("2024-09-05"));
    facts.addAll(drawn("L", 600));
    facts.addAll(tests("L", "S-L", 95));
    assertThat(state("L", facts)).isEqualTo(StandingState.FIT);
    assertThat(state("T", facts)).isEqualTo(StandingState.EVIDENCE_OWED);
  }

  /** Seed is usually sampled before it is treated; common practice, no source. */
  @ParameterizedTest(name = "{0} of 1,000 kg treated, and {1} more: {2}")
  @CsvSource({
    "1000, 0, ",
    "400, 0, evidence.sample-of-treated",
    "400, 600, evidence.sample-of-treated"
  })
  void seedThatIsTreatedInPortionsIsAskedForASampleOfEach(
      double kg, double moreKg, String expected) {
    List<Draft<?>> facts = lot();
    facts.addAll(drawn("L", KG));
    facts.addAll(tests("L", "S-L", 95));
    facts.add(
        Facts.conditioning()
            .from("L", kg)
            .into("T", kg)
            .treatedWith("invented dressing")
            .at("2024-09-25"));
    if (moreKg > 0) {
      facts.add(
          Facts.conditioning()
              .from("L", moreKg)
              .into("T", moreKg)
              .treatedWith("invented dressing")
              .at("2024-09-28"));
    }
    assertThat(sampling("T", facts)).isEqualTo(expected == null ? List.of() : List.of(expected));
  }

  private static List<String> sampling(String lotId, List<Draft<?>> facts) {
    return standing(lotId, facts).getVerdicts().stream()
        .filter(verdict -> verdict.getGate().equals("SAMPLING"))
        .flatMap(verdict -> verdict.getEvidence().stream())
        .map(evidence -> evidence.getCode())
        .toList();
  }

  /** The book of the United States has no size of a lot. */
  @ParameterizedTest(name = "under {0}, {1} of 1,000 kg treated")
  @CsvSource({"US, 1000, MET", "EU, 1000, MET", "US, 500, OWED"})
  void aTreatedLotRestsOnTheUntreatedOneUnderEachBook(
      String book, double kg, VerdictState expected) {
    List<Draft<?>> facts = new ArrayList<>();
    facts.add(
        Facts.declared("L", Facts.HYBRID, Category.CERTIFIED, KG)
            .with(lot -> lot.setRulebookId(book))
            .at("2024-09-01"));
    facts.addAll(drawn("L", KG));
    facts.addAll(tests("L", "S-L", 95));
    facts.add(
        Facts.conditioning()
            .from("L", kg)
            .into("T", kg)
            .treatedWith("invented dressing")
            .at("2024-09-15"));
    assertThat(standing("T", facts).getVerdicts())
        .filteredOn(verdict -> verdict.getGate().equals("GERMINATION"))
        .extracting(verdict -> verdict.getState())
        .containsExactly(expected);
  }

  private static List<Draft<?>> mixture() {
    List<Draft<?>> facts =
        new ArrayList<>(
            List.of(
                Facts.declared("M", Facts.HYBRID, Category.BASIC, KG).at("2024-09-01"),
                Facts.postControl("M", 2000, 0)));
    facts.addAll(drawn("M", KG));
    facts.addAll(tests("M", "S-M", 95));
    return facts;
  }

  private static Draft<?> composition(String lotId, String sample, String day) {
    return Facts.composition(lotId, 1000, 50)
        .with(
            grown ->
                grown
                    .setSampleId(sample)
                    .setMethod(CompositionMethod.GROW_OUT)
                    .setFalsePositivePercent(null)
                    .setFalseNegativePercent(null))
        .at(day);
  }

  private static List<Draft<?>> lot() {
    return new ArrayList<>(
        List.of(Facts.declared("L", Facts.HYBRID, Category.CERTIFIED, KG).at("2024-09-01")));
  }

  private static Draft<?> treated(String day) {
    return Facts.conditioning()
        .from("L", KG)
        .into("T", KG)
        .treatedWith("invented dressing")
        .at(day);
  }

  private static List<Draft<?>> drawn(String lotId, double kg) {
    return List.of(
        Facts.sampling(lotId, 40, kg, 200)
            .with(drawn -> drawn.setSampleId("S-" + lotId).setContainers(null)));
  }

  private static Draft<?> germination(String lotId, String sample, int percent) {
    return Facts.germination(lotId, percent, percent, percent, percent)
        .with(test -> test.setSampleId(sample))
        .at("2024-09-20");
  }

  private static List<Draft<?>> tests(String lotId, String sample, int germination) {
    return List.of(
        germination(lotId, sample, germination),
        Facts.purity(lotId, 119.4, 0.5, 0.1)
            .with(test -> test.setSampleId(sample))
            .at("2024-09-20"),
        Facts.moisture(lotId, 13).with(test -> test.setSampleId(sample)).at("2024-09-20"),
        Facts.otherSeeds(lotId).with(test -> test.setSampleId(sample)).at("2024-09-20"));
  }

  private static StandingState state(String lotId, List<Draft<?>> facts) {
    return standing(lotId, facts).getState();
  }

  private static LotStanding standing(String lotId, List<Draft<?>> facts) {
    try (DrivenTopology topology = DrivenTopology.withRealRules()) {
      topology.accept(Facts.laboratory("LAB1").fact(), Facts.hybrid().fact());
      facts.forEach(fact -> topology.accept(fact.fact()));
      assertThat(topology.quarantine()).isEmpty();
      return topology.standing(Subject.lot(lotId));
    }
  }
}
