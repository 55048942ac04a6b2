package org.kornspur.processors.stream;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.apache.avro.specific.SpecificRecord;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.kornspur.contract.BlendComposition;
import org.kornspur.contract.Category;
import org.kornspur.contract.CompositionMethod;
import org.kornspur.contract.CropRole;
import org.kornspur.contract.OtherSeedDetermination;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.ingest.statement.Value;
import org.kornspur.processors.fixture.Draft;
import org.kornspur.processors.fixture.Facts;
import org.kornspur.standing.InheritedTrouble;
import org.kornspur.standing.LotStanding;
import org.kornspur.standing.StandingState;
import org.kornspur.standing.VerdictState;

/**
 * Failures and doubts go where the seed goes: into its crop, to the other parts of a lot, through
 * grading. Common practice, no source, but where a test names one.
 */
class FailuresTravelTest {
  private static final double KG = 1000;

  private final DrivenTopology topology = DrivenTopology.withRealRules();

  @AfterEach
  void close() {
    topology.close();
  }

  /**
   * SaatV Annex 2 no. 1.4.2.2: the breeder's ratio holds for the mixture, whatever it is called.
   */
  @ParameterizedTest(name = "{0} pollinator kernels of 1,000 by {1}: {2}")
  @CsvSource({
    "55, MARKER, MET",
    "200, MARKER, NOT_MET",
    "50, GROW_OUT, MET",
    "20, MARKER, NOT_MET"
  })
  void aPartOfAMixtureIsHeldAgainstTheBreedersRatio(
      int pollinator, CompositionMethod method, VerdictState expected) {
    mixture(true);
    accept(Facts.split("MIX").into("PART", 400).into("REST", 600).at("2024-09-12"));
    test("PART", 400, "2024-09-14");
    accept(composition("PART", 1000, pollinator, method));

    assertThat(verdicts("lot:PART", "BLEND_SHARE")).containsExactly(expected);

    accept(Facts.hybrid().id("hybrid").at("2024-01-01"));
    assertThat(verdicts("lot:PART", "BLEND_SHARE")).containsExactly(expected);
  }

  @Test
  void whatAGradedMixtureOwesEndsAtASampleOfEachPart() {
    mixture(true);
    accept(
        Facts.conditioning().from("MIX", KG).into("GRADED", 900).screenings(100).at("2024-09-11"),
        Facts.split("GRADED").into("PART", 400).into("OTHER", 500).at("2024-09-12"));
    test("PART", 400, "2024-09-14");
    assertThat(troubles("lot:PART")).contains("BLEND_SHARE OWED");

    accept(
        composition("PART", 1000, 50, CompositionMethod.GROW_OUT)
            .with(sample -> sample.setSampleId("nobody"))
            .id("undrawn"));
    assertThat(troubles("lot:PART")).as("not of its sample").contains("BLEND_SHARE OWED");

    accept(composition("PART", 1000, 50, CompositionMethod.GROW_OUT));
    assertThat(troubles("lot:PART")).doesNotContain("BLEND_SHARE OWED");
    assertThat(troubles("lot:OTHER")).contains("BLEND_SHARE OWED");
  }

  @Test
  void aGradedMixtureThatFailsIsNoBetterForGradingItAgain() {
    mixture(true);
    accept(Facts.conditioning().from("MIX", KG).into("G", 900).screenings(100).at("2024-09-11"));
    test("G", 900, "2024-09-11");
    accept(composition("G", 1000, 200, CompositionMethod.GROW_OUT));
    accept(Facts.conditioning().from("G", 900).into("GG", 800).screenings(100).at("2024-09-12"));
    test("GG", 800, "2024-09-14");
    accept(composition("GG", 1000, 50, CompositionMethod.GROW_OUT));

    assertThat(troubles("lot:GG")).contains("BLEND_SHARE CONDEMNS");
  }

  @Test
  void whatOnePartOfAMixtureFailedTheOthersOweUntilTheyAreSampled() {
    mixture(true);
    accept(
        Facts.split("MIX").into("PART", 300).into("OTHER", 300).at("2024-09-12"),
        Facts.crop("CROP", CropRole.F1_MIXTURE).at("2025-03-01"),
        Facts.sowing("CROP").of("OTHER", 200).at("2024-09-20"));
    test("PART", 300, "2024-09-14");
    accept(composition("PART", 1000, 200, CompositionMethod.GROW_OUT));

    assertThat(verdicts("lot:MIX", "BLEND_SHARE"))
        .containsExactlyInAnyOrder(VerdictState.MET, VerdictState.OWED);
    assertThat(verdicts("lot:OTHER", "BLEND_SHARE")).containsExactly(VerdictState.OWED);
    assertThat(troubles("crop:CROP")).contains("BLEND_SHARE OWED");

    test("OTHER", 300, "2024-09-14");
    accept(composition("OTHER", 1000, 50, CompositionMethod.GROW_OUT));
    assertThat(verdicts("lot:OTHER", "BLEND_SHARE")).containsExactly(VerdictState.MET);
    assertThat(troubles("lot:OTHER")).doesNotContain("BLEND_SHARE OWED");
    assertThat(troubles("crop:CROP")).doesNotContain("BLEND_SHARE OWED");
  }

  @Test
  void aPartIsToldTheRatioThroughOtherPartsAndAfterAll() {
    mixtureWithoutHybrid();
    accept(
        Facts.split("MIX").into("HALF", 500).at("2024-09-12"),
        Facts.split("HALF").into("PART", 400).at("2024-09-13"));
    test("PART", 400, "2024-09-14");
    accept(composition("PART", 1000, 55, CompositionMethod.MARKER));
    assertThat(verdicts("lot:PART", "BLEND_SHARE")).containsExactly(VerdictState.OWED);

    accept(Facts.hybrid().id("hybrid").at("2024-01-01"));
    assertThat(verdicts("lot:PART", "BLEND_SHARE")).containsExactly(VerdictState.MET);
  }

  @Test
  void whereNothingTakesACountToTheBreedersBasisAnotherSampleIsOwed() {
    mixture(false);
    accept(Facts.split("MIX").into("PART", 400).at("2024-09-12"));
    test("PART", 400, "2024-09-14");
    accept(composition("PART", 1000, 50, CompositionMethod.MARKER));

    assertThat(evidence("lot:PART", "BLEND_SHARE"))
        .containsExactly("evidence.composition-on-stated-basis");
  }

  @ParameterizedTest(name = "{0} kg of 1,000 kg screened off: {1}")
  @CsvSource({"0, ", "1, ", "2, OWED", "150, OWED"})
  void aMixtureThatWasGradedOwesItsComposition(double screeningsKg, VerdictState expected) {
    mixture(true);
    accept(
        Facts.conditioning()
            .from("MIX", KG)
            .into("GRADED", KG - screeningsKg)
            .screenings(screeningsKg)
            .treatedWith("invented dressing")
            .at("2024-09-12"));
    test("GRADED", KG - screeningsKg, "2024-09-14");
    assertThat(verdicts("lot:GRADED", "BLEND_SHARE"))
        .isEqualTo(expected == null ? List.of() : List.of(expected));

    accept(composition("GRADED", 1000, 50, CompositionMethod.GROW_OUT));
    assertThat(verdicts("lot:GRADED", "BLEND_SHARE")).containsExactly(VerdictState.MET);
  }

  /** Common practice, no source. */
  @ParameterizedTest(name = "1,000 kg into {0} kg and {1} kg, {2} kg dried off, {3}: {4}")
  @CsvSource({
    // divided by a machine, say by the size of kernels; by treating alone nothing is sorted
    "400, 600, , , OWED",
    "400, 600, , invented dressing, ",
    "905, 0, , , OWED",
    "998, 0, , , OWED",
    "999, 0, , , ",
    "970, 0, 30, , ",
    // no seed that was ready to be mixed was so moist
    "700, 0, 300, , OWED"
  })
  void aMixtureOfWhichSomethingWentOwesItsComposition(
      double firstKg, double secondKg, Double driedKg, String treatment, VerdictState expected) {
    mixture(true);
    Facts.ConditioningDraft work =
        Facts.conditioning()
            .from("MIX", KG)
            .into("GRADED", firstKg)
            .driedOff(driedKg)
            .treatedWith(treatment)
            .at("2024-09-12");
    accept(secondKg > 0 ? work.into("OTHER", secondKg) : work);
    test("GRADED", firstKg, "2024-09-14");
    assertThat(verdicts("lot:GRADED", "BLEND_SHARE"))
        .isEqualTo(expected == null ? List.of() : List.of(expected));
  }

  /** That basic seed met the conditions for it: Directive 66/402/EEC, Article 2, from memory. */
  @ParameterizedTest(name = "under {0} a crop of seed {1}: {2}")
  @CsvSource({
    "EU, good, ''",
    "EU, untested, ANALYTICAL_PURITY OWED; OTHER_SEEDS OWED",
    "EU, of other cereals, OTHER_SEEDS CONDEMNS",
    "EU, that does not germinate, ''",
    "EU, that is moist, ''",
    "EU, with ergot, ''",
    "DE, untested, ANALYTICAL_PURITY OWED; OTHER_SEEDS OWED",
    "DE, of other cereals, OTHER_SEEDS OWED"
  })
  void whatSeedFailsOrOwesIsToldAtItsCrop(String book, String seed, String expected) {
    sow("CROP", "SEED", book, seed);
    accept(Facts.harvest("CROP", "RAW", 3000).at("2025-08-05"));

    List<String> told = expected.isEmpty() ? List.of() : List.of(expected.split("; "));
    assertThat(troubles("crop:CROP")).isEqualTo(told);
    assertThat(troubles("lot:RAW")).containsAll(told);
  }

  @Test
  void anInspectionOfTheCropSettlesWhatItCounts() {
    sow("CROP", "SEED", "DE", "of other cereals");
    accept(Facts.harvest("CROP", "RAW", 3000).at("2025-08-05"), inspection("CROP", "few", 0));
    assertThat(troubles("crop:CROP")).isEmpty();
    assertThat(troubles("lot:RAW")).noneMatch(trouble -> trouble.startsWith("OTHER_SEEDS"));

    accept(inspection("CROP", "many", 90));
    assertThat(troubles("crop:CROP")).containsExactly("OTHER_SEEDS OWED");
    assertThat(topology.standing(Subject.crop("CROP")).getState()).isEqualTo(StandingState.NOT_FIT);
  }

  /** The visit counts other cereals, wild oats, smuts and what is hard to clean out, no more. */
  @Test
  void anInspectionOfTheCropSettlesNothingThatItDoesNotCount() {
    sow("CROP", "SEED", "DE", "of wild radish");
    accept(inspection("CROP", "few", 0));
    assertThat(troubles("crop:CROP")).contains("OTHER_SEEDS OWED");
  }

  /** A failed test is not forgotten with the name of the lot that it was recorded of. */
  @ParameterizedTest(name = "{0}")
  @ValueSource(strings = {"corrected", "withdrawn"})
  void aPartThatFailedDoesNotDisappearByItsName(String how) {
    whole();
    accept(Facts.split("WHOLE").into("A", 400).into("B", 600).id("split").at("2024-09-01"));
    accept(fails("B", "other cereals").id("failed").at("2024-09-04"));
    accept(
        how.equals("corrected")
            ? Facts.split("WHOLE")
                .into("A", 400)
                .into("C", 600)
                .correcting("split", "wrong lot")
                .id("renamed")
                .at("2024-09-01")
            : Facts.withdrawal("split").id("undone"));

    assertThat(verdicts("lot:WHOLE", "ORIGIN")).contains(VerdictState.OWED);
    if (how.equals("corrected")) {
      assertThat(state("A")).isEqualTo(StandingState.EVIDENCE_OWED);
      assertThat(state("C")).isEqualTo(StandingState.EVIDENCE_OWED);
    }

    accept(Facts.withdrawal("failed").id("undo"));
    assertThat(verdicts("lot:WHOLE", "ORIGIN")).doesNotContain(VerdictState.OWED);
    assertThat(state(how.equals("corrected") ? "C" : "WHOLE")).isEqualTo(StandingState.FIT);
  }

  @Test
  void aCropFullOfOtherCerealsIsNotForgottenWhenItsSeedIsSown() {
    sow("FIRST", "SEED", "DE", "good");
    accept(
        inspection("FIRST", "many", 90), Facts.harvest("FIRST", "HARVEST", 800).at("2025-08-05"));
    test("HARVEST", 800, "2025-08-20");
    accept(
        crop("NEXT", "DE", 2026).id("next"),
        Facts.sowing("NEXT").of("HARVEST", 500).at("2025-09-20"),
        Facts.harvest("NEXT", "LATER", 3000).at("2026-08-05"));

    assertThat(troubles("lot:HARVEST")).contains("OTHER_PLANTS CONDEMNS");
    assertThat(troubles("crop:NEXT")).contains("OTHER_PLANTS OWED");
    assertThat(troubles("lot:LATER")).contains("OTHER_PLANTS OWED");

    accept(inspection("NEXT", "next-few", 0).at("2026-06-05"));
    assertThat(troubles("crop:NEXT")).noneMatch(trouble -> trouble.startsWith("OTHER_PLANTS"));
  }

  @ParameterizedTest(name = "part failed {0}: the other owes {1}")
  @CsvSource({
    "other cereals, OTHER_SEEDS",
    "purity, ANALYTICAL_PURITY",
    "ergot, ERGOT",
    "not settled, ERGOT",
    "germination, GERMINATION",
    "moisture, ",
    "post-control, POST_CONTROL"
  })
  void whatOnePartFailedTheOthersOwe(String failure, String gate) {
    whole();
    accept(Facts.split("WHOLE").into("A", 400).into("B", 600).at("2024-09-01"));
    assertThat(state("B")).isEqualTo(StandingState.FIT);

    test("A", 400, "2024-09-10");
    accept(fails("A", failure).id("failed"));

    assertThat(state("A"))
        .isEqualTo(
            failure.equals("not settled") ? StandingState.EVIDENCE_OWED : StandingState.NOT_FIT);
    assertThat(state("B"))
        .isEqualTo(gate == null ? StandingState.FIT : StandingState.EVIDENCE_OWED);
    assertThat(state("WHOLE")).as("nothing is left of it").isEqualTo(StandingState.FIT);
    if (gate != null) {
      assertThat(verdicts("lot:B", gate)).contains(VerdictState.OWED);
    }

    test("B", 600, "2024-09-11");
    accept(Facts.postControl("B", 2000, 0).at("2025-07-01"));
    assertThat(state("B")).as("tested itself").isEqualTo(StandingState.FIT);
  }

  /** OECD seed schemes, guidelines for control plots, from memory: a count of enough plants. */
  @ParameterizedTest(name = "failed: {0}; the other part grew {1} plants: {2}")
  @CsvSource({
    "off-types, 1, EVIDENCE_OWED",
    "off-types, 2000, FIT",
    "identity, 1, EVIDENCE_OWED",
    "identity, 2000, FIT",
    "non-hybrids, 2000, EVIDENCE_OWED"
  })
  void onlyACountOfEnoughPlantsSettlesWhatASisterFailed(
      String failure, int plants, StandingState expected) {
    whole();
    accept(Facts.split("WHOLE").into("A", 400).into("B", 600).at("2024-09-01"));
    accept(
        Facts.postControl("A", 2000, failure.equals("off-types") ? 400 : 0)
            .with(result -> result.setIdentityConfirmed(!failure.equals("identity")))
            .with(result -> result.setNonHybridPlants(failure.equals("non-hybrids") ? 1900 : null))
            .at("2025-07-01"),
        Facts.postControl("B", plants, 0).at("2025-07-01"));

    assertThat(state("A")).isEqualTo(StandingState.NOT_FIT);
    assertThat(state("B")).isEqualTo(expected);
  }

  @ParameterizedTest(name = "{0} failed by one half of a lot that was only treated")
  @CsvSource({
    "other cereals, OTHER_SEEDS",
    "germination, GERMINATION",
    "post-control, POST_CONTROL"
  })
  void whatOneTreatedPartFailedTheOtherOwes(String failure, String gate) {
    whole();
    accept(
        Facts.conditioning()
            .from("WHOLE", KG)
            .into("A", 400)
            .into("B", 600)
            .treatedWith("invented dressing")
            .at("2024-09-01"));
    assertThat(state("B")).isEqualTo(StandingState.FIT);
    test("A", 400, "2024-09-10");
    accept(fails("A", failure));

    assertThat(verdicts("lot:B", gate)).contains(VerdictState.OWED);
    assertThat(state("B")).isEqualTo(StandingState.EVIDENCE_OWED);
  }

  @Test
  void whatATreatedPartFailedTheUntreatedRestOwesAndOtherParts() {
    whole();
    accept(
        Facts.split("WHOLE").into("A", 400).into("B", 300).at("2024-09-01"),
        Facts.conditioning()
            .from("A", 400)
            .into("T", 400)
            .treatedWith("invented dressing")
            .at("2024-09-02"));
    test("T", 400, "2024-09-10");
    accept(fails("T", "other cereals"));

    for (String lot : List.of("WHOLE", "B")) {
      assertThat(verdicts("lot:" + lot, "OTHER_SEEDS")).as(lot).contains(VerdictState.OWED);
    }
  }

  @Test
  void whatMergedPartsFailedEachLotThatTheyCameFromOwes() {
    whole();
    accept(
        Facts.split("WHOLE").into("A", 300).into("B", 300).into("C", 400).at("2024-09-01"),
        Facts.merge("M").of("A", 300).of("B", 300).at("2024-09-02"));
    test("M", 600, "2024-09-10");
    accept(fails("M", "other cereals"));

    assertThat(state("C")).isEqualTo(StandingState.EVIDENCE_OWED);
  }

  /** A plot is grown of seed as it was cleaned, and no cleaning makes other plants of it. */
  @Test
  void whatGrewOfOneCleanedPartTheOtherOwesUntilItIsGrown() {
    whole();
    accept(Facts.split("WHOLE").into("R1", 500).into("R2", 500).at("2024-09-01"));
    for (String number : List.of("1", "2")) {
      accept(
          Facts.conditioning()
              .from("R" + number, 500)
              .into("C" + number, 450)
              .screenings(50)
              .at("2024-09-02"));
      test("C" + number, 450, "2024-09-10");
    }
    accept(fails("C1", "other cereals"));
    assertThat(state("C2")).as("cleaned away").isEqualTo(StandingState.FIT);

    accept(fails("C1", "post-control"));
    assertThat(state("C2")).isEqualTo(StandingState.EVIDENCE_OWED);

    accept(Facts.postControl("C2", 2000, 0).at("2025-07-01"));
    assertThat(state("C2")).isEqualTo(StandingState.FIT);
  }

  @ParameterizedTest(name = "rest sampled on {0}, other cereals {1}, germination {2}: {3}")
  @CsvSource({
    "2024-09-01, 0, 95, EVIDENCE_OWED",
    "2024-09-12, 0, 95, FIT",
    "2024-09-12, 0, 80, NOT_FIT",
    "2024-09-12, 90, 95, NOT_FIT"
  })
  void whatIsLeftOfTheWholeStandsOnASampleDrawnAfterThePartWent(
      String on, int otherCereals, int germination, StandingState expected) {
    whole();
    accept(Facts.split("WHOLE").into("A", 400).into("B", 100).at("2024-09-01"));
    test("A", 400, "2024-09-10");
    accept(fails("A", "other cereals"), fails("A", "germination"));
    assertThat(state("WHOLE")).isEqualTo(StandingState.EVIDENCE_OWED);

    String sample = "S-REST";
    int each = germination;
    accept(
        Facts.sampling("WHOLE", 40, 500, 200)
            .with(drawn -> drawn.setSampleId(sample).setContainers(null))
            .at(on),
        Facts.germination("WHOLE", each, each, each, each)
            .with(test -> test.setSampleId(sample))
            .at(on),
        Facts.purity("WHOLE", 119.4, 0.5, 0.1).with(test -> test.setSampleId(sample)).at(on),
        Facts.moisture("WHOLE", 13).with(test -> test.setSampleId(sample)).at(on),
        Facts.otherSeeds("WHOLE")
            .with(test -> test.setSampleId(sample).setOtherCereals(otherCereals))
            .at(on));

    assertThat(state("WHOLE")).isEqualTo(expected);
    assertThat(state("B")).as("it went before").isNotEqualTo(StandingState.FIT);
  }

  /** Nobody knows from which seed of the whole a plot was sown; common practice, no source. */
  @Test
  void whatLiesInStoreIsDividedOffBeforeAPlotSettlesWhatAPartWas() {
    whole();
    accept(
        Facts.split("WHOLE").into("A", 400).at("2024-09-01"),
        Facts.dispatch("WHOLE", 250).at("2024-09-05"),
        fails("A", "post-control"));
    assertThat(restOwes("WHOLE")).isEqualTo(Map.of("inStore", 350.0, "distributed", 250.0));

    accept(Facts.postControl("WHOLE", 2000, 0).at("2025-07-02"));
    assertThat(state("WHOLE")).as("a plot of the whole").isEqualTo(StandingState.EVIDENCE_OWED);

    accept(
        Facts.split("WHOLE").into("REST", 350).at("2025-07-03"),
        Facts.postControl("REST", 2000, 0).at("2025-07-10"));
    assertThat(state("REST")).isEqualTo(StandingState.FIT);
    assertThat(restOwes("WHOLE")).isEqualTo(Map.of("distributed", 250.0));
    assertThat(evidence("lot:REST", "POST_CONTROL")).isEmpty();
  }

  /** Kilograms that the evidence on the rest of a whole names. */
  private Map<String, Double> restOwes(String lot) {
    return standing("lot:" + lot).getVerdicts().stream()
        .flatMap(verdict -> verdict.getEvidence().stream())
        .filter(owed -> owed.getCode().equals("evidence.post-control-of-rest"))
        .map(StatementRecords::read)
        .flatMap(owed -> owed.arguments().stream())
        .collect(
            Collectors.toMap(
                Coded.Argument::name, argument -> ((Value.Amount) argument.value()).number()));
  }

  @Test
  void whatIsLeftOfTheWholeOwesTooAndAllIsWellAgainWhenTheFailureWasWrong() {
    whole();
    accept(
        Facts.split("WHOLE").into("A", 400).at("2024-09-01"),
        Facts.split("A").into("A1", 100).into("A2", 300).at("2024-09-02"),
        crop("CROP", "EU", 2025),
        Facts.sowing("CROP").of("WHOLE", 500).at("2024-09-20"));
    test("A1", 100, "2024-09-10");
    accept(fails("A1", "other cereals").id("failed"), fails("A1", "post-control").id("grown"));

    for (String lot : List.of("WHOLE", "A2")) {
      assertThat(state(lot)).as(lot).isEqualTo(StandingState.EVIDENCE_OWED);
    }
    assertThat(troubles("crop:CROP")).contains("OTHER_SEEDS OWED", "POST_CONTROL OWED");

    accept(Facts.withdrawal("failed").id("undo"), Facts.withdrawal("grown").id("undo-too"));
    for (String lot : List.of("WHOLE", "A1", "A2")) {
      assertThat(state(lot)).as(lot).isEqualTo(StandingState.FIT);
    }
    assertThat(troubles("crop:CROP")).isEmpty();
  }

  /** That nothing hangs on the order of facts needs no source. */
  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3})
  void inWhateverOrderTheFactsComeTheOthersOwe(long seed) {
    List<SpecificRecord> facts = new ArrayList<>();
    Stream.of(
            wholeFacts(),
            tests("A1", 100, "2024-09-10"),
            Stream.<Draft<?>>of(
                Facts.split("WHOLE").into("A", 400).into("B", 600).at("2024-09-01"),
                Facts.split("A").into("A1", 100).into("A2", 300).at("2024-09-02"),
                fails("A1", "other cereals")))
        .flatMap(drafts -> drafts)
        .forEach(draft -> facts.add(DrivenTopology.by(DrivenTopology.QUALITY, draft.fact())));
    Collections.shuffle(facts, new Random(seed));
    if (seed == 1) {
      topology.acceptAtOnce(facts);
    } else {
      topology.acceptAsSent(facts.toArray(SpecificRecord[]::new));
    }

    assertThat(verdicts("lot:B", "OTHER_SEEDS")).contains(VerdictState.OWED);
    assertThat(verdicts("lot:A2", "OTHER_SEEDS")).contains(VerdictState.OWED);
    assertThat(verdicts("lot:A1", "OTHER_SEEDS")).contains(VerdictState.NOT_MET);
    assertThat(state("WHOLE")).isEqualTo(StandingState.FIT);
  }

  @Test
  void failuresInACircleOfPartsComeToRestAndEnd() {
    whole();
    accept(
        Facts.split("WHOLE").into("A", 400).at("2024-09-01"),
        Facts.split("A").into("B", 400).at("2024-09-02"),
        Facts.split("B").into("C", 400).at("2024-09-03"),
        Facts.split("C").into("A", 400).at("2024-09-04"));
    test("C", 400, "2024-09-10");
    accept(fails("C", "purity").id("failed"));
    accept(Facts.withdrawal("failed").id("undo"));

    assertThat(state("WHOLE")).isEqualTo(StandingState.FIT);
  }

  private void whole() {
    accept(wholeFacts().toArray(Draft<?>[]::new));
  }

  private static Stream<Draft<?>> wholeFacts() {
    return Stream.concat(
        Stream.of(
            Facts.declared("WHOLE", Facts.HYBRID, Category.CERTIFIED, KG)
                .with(lot -> lot.setRulebookId("DE"))
                .at("2024-08-01")),
        tests("WHOLE", KG, "2024-08-11"));
  }

  private static Draft<?> fails(String lot, String failure) {
    String sample = "S-" + lot;
    return switch (failure) {
      case "other cereals" -> otherCereals(lot);
      case "wild radish" ->
          Facts.otherSeeds(lot)
              .with(
                  test -> test.setOtherPlants(90).setRaphanusAndAgrostemma(90).setSampleId(sample));
      case "purity" -> Facts.purity(lot, 111, 8, 1).with(test -> test.setSampleId(sample));
      case "ergot" ->
          Facts.otherSeeds(lot).with(test -> test.setErgotBodies(30).setSampleId(sample));
      case "not settled" ->
          Facts.otherSeeds(lot).with(test -> test.setErgotBodies(5).setSampleId(sample));
      case "germination" ->
          Facts.germination(lot, 60, 61, 59, 60).with(test -> test.setSampleId(sample));
      case "moisture" -> Facts.moisture(lot, 18).with(test -> test.setSampleId(sample));
      case "post-control" -> Facts.postControl(lot, 2000, 400).at("2025-07-01");
      default -> throw new IllegalArgumentException(failure);
    };
  }

  private static Facts.Plain<OtherSeedDetermination.Builder> otherCereals(String lot) {
    return Facts.otherSeeds(lot).with(test -> test.setOtherCereals(90).setSampleId("S-" + lot));
  }

  /** A crop of the pollinator, sown with seed of its own that is like that. */
  private void sow(String crop, String lot, String book, String seed) {
    accept(
        Facts.hybrid().id("hybrid").at("2024-01-01"),
        Facts.declared(lot, Facts.RESTORER, Category.BASIC, KG)
            .with(declared -> declared.setRulebookId("DE"))
            .at("2024-08-01"));
    if (!seed.equals("untested")) {
      test(lot, KG, "2024-08-11");
    }
    switch (seed) {
      case "of other cereals" -> accept(fails(lot, "other cereals").at("2024-08-12"));
      case "of wild radish" -> accept(fails(lot, "wild radish").at("2024-08-12"));
      case "that does not germinate" -> accept(fails(lot, "germination").at("2024-08-12"));
      case "that is moist" -> accept(fails(lot, "moisture").at("2024-08-12"));
      case "with ergot" -> accept(fails(lot, "ergot").at("2024-08-12"));
      default -> assertThat(seed).isIn("good", "untested");
    }
    accept(crop(crop, book, 2025), Facts.sowing(crop).of(lot, 500).at("2024-09-20"));
  }

  private static Facts.Plain<?> crop(String crop, String book, int year) {
    return Facts.crop(crop, CropRole.POLLINATOR)
        .with(declared -> declared.setRulebookId(book).setCropYear(year))
        .at((year - 1) + "-09-19");
  }

  private static Draft<?> inspection(String crop, String id, int otherCereals) {
    return Facts.inspection(crop)
        .offTypesInArea(0, 300)
        .with(
            visit ->
                visit
                    .setOtherCerealPlants(otherCereals)
                    .setHardToSeparatePlants(0)
                    .setWildOatPlants(0)
                    .setSmutPlants(0))
        .id(id)
        .at("2025-06-05");
  }

  private void mixture(boolean weighed) {
    accept(Facts.hybrid().id("hybrid").at("2024-01-01"));
    mixtureOf(weighed);
  }

  private void mixtureWithoutHybrid() {
    mixtureOf(true);
  }

  private void mixtureOf(boolean weighed) {
    for (Map.Entry<String, String> part :
        Map.of("FEMALE", Facts.SINGLE_CROSS, "POLLINATOR", Facts.RESTORER).entrySet()) {
      String lot = part.getKey();
      accept(Facts.declared(lot, part.getValue(), Category.BASIC, KG).at("2024-08-01"));
      test(lot, KG, "2024-08-02");
      if (weighed) {
        accept(
            Facts.kernelWeight(lot, 3.0, 3.0, 3.0, 3.0, 3.0, 3.0, 3.0, 3.0)
                .with(weight -> weight.setSampleId("S-" + lot))
                .at("2024-08-02"));
      }
    }
    accept(Facts.blend("MIX").female("FEMALE", 950).pollinator("POLLINATOR", 50));
    test("MIX", KG, "2024-09-10");
  }

  private static Facts.Plain<BlendComposition.Builder> composition(
      String lot, int kernels, int pollinator, CompositionMethod method) {
    return Facts.composition(lot, kernels, pollinator)
        .with(sample -> sample.setMethod(method).setSampleId("S-" + lot))
        .with(
            sample -> {
              if (method != CompositionMethod.MARKER) {
                sample.setFalsePositivePercent(null).setFalseNegativePercent(null);
              }
            })
        .at("2024-09-15");
  }

  private void test(String lot, double massKg, String on) {
    accept(tests(lot, massKg, on).toArray(Draft<?>[]::new));
  }

  /** Good tests of a good sample. */
  private static Stream<Draft<?>> tests(String lot, double massKg, String on) {
    String sample = "S-" + lot;
    return Stream.of(
        Facts.laboratory("LAB1"),
        Facts.sampling(lot, 40, massKg, 200)
            .with(sampling -> sampling.setSampleId(sample).setContainers(null))
            .at(on),
        Facts.germination(lot, 95, 94, 96, 95).with(test -> test.setSampleId(sample)).at(on),
        Facts.purity(lot, 119.4, 0.5, 0.1).with(test -> test.setSampleId(sample)).at(on),
        Facts.moisture(lot, 13).with(test -> test.setSampleId(sample)).at(on),
        Facts.otherSeeds(lot).with(test -> test.setSampleId(sample)).at(on));
  }

  private void accept(Draft<?>... facts) {
    for (Draft<?> fact : facts) {
      topology.accept(fact.fact());
    }
    assertThat(topology.quarantine()).isEmpty();
  }

  private StandingState state(String lot) {
    return topology.standing(Subject.lot(lot)).getState();
  }

  private List<VerdictState> verdicts(String subject, String gate) {
    return standing(subject).getVerdicts().stream()
        .filter(verdict -> verdict.getGate().equals(gate))
        .map(verdict -> verdict.getState())
        .toList();
  }

  private List<String> evidence(String subject, String gate) {
    return standing(subject).getVerdicts().stream()
        .filter(verdict -> verdict.getGate().equals(gate))
        .flatMap(verdict -> verdict.getEvidence().stream())
        .map(evidence -> evidence.getCode())
        .toList();
  }

  /** What it takes over, but for what every descendant of declared seed does. */
  private List<String> troubles(String subject) {
    TreeMap<String, String> found = new TreeMap<>();
    for (InheritedTrouble trouble : standing(subject).getInherited()) {
      found.merge(trouble.getGate(), trouble.getWeight().toString(), (one, other) -> one);
    }
    found.keySet().removeAll(List.of("ISOLATION", "ORIGIN", "OFF_TYPES", "PREVIOUS_CROPPING"));
    List<String> words = new ArrayList<>();
    found.forEach((gate, weight) -> words.add(gate + " " + weight));
    return words;
  }

  private LotStanding standing(String subject) {
    return topology.standing(Subject.parse(subject));
  }
}
