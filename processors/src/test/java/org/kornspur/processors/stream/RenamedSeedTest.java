package org.kornspur.processors.stream;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.kornspur.contract.Category;
import org.kornspur.contract.CondemnationGround;
import org.kornspur.contract.Correction;
import org.kornspur.contract.CropRole;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.Signature;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.fixture.Draft;
import org.kornspur.processors.fixture.Facts;
import org.kornspur.standing.LotStanding;
import org.kornspur.standing.StandingState;

/**
 * What was found or decided of seed is not forgotten when the record that gave it its name is
 * corrected to another. Common practice, no source.
 */
class RenamedSeedTest {
  private static final double KG = 1000;

  private final DrivenTopology topology = DrivenTopology.withRealRules();

  @BeforeEach
  void laboratory() {
    accept(Facts.laboratory("LAB1"), Facts.hybrid().id("hybrid").at("2024-01-01"));
  }

  @AfterEach
  void close() {
    topology.close();
  }

  @ParameterizedTest
  @EnumSource
  void aCondemnationStaysWithTheSeed(CondemnationGround ground) {
    divided("WHOLE", Facts.HYBRID, Category.CERTIFIED);
    topology.accept(InventedActs.condemnation("condemned", "B", ground, signed("B", 250)));
    rename();

    assertThat(state("C")).isEqualTo(StandingState.EVIDENCE_OWED);
    assertThat(evidence("lot:WHOLE")).containsExactly("evidence.old-name-again");

    topology.accept(
        InventedActs.suspension(
            "mistaken", "B", signed("B", 260), new Correction("condemned", "of another lot")));
    assertThat(state("C")).as("it was a mistake").isEqualTo(StandingState.FIT);
  }

  @Test
  void theSeedUnderItsOldNameIsWhatWasDecided() {
    divided("WHOLE", Facts.SINGLE_CROSS, Category.PRE_BASIC);
    topology.accept(InventedActs.downgrade("lower", "B", Category.BASIC, signed("B", 250)));
    rename();
    assertThat(state("C")).isEqualTo(StandingState.EVIDENCE_OWED);
    assertThat(evidence("lot:WHOLE")).containsExactly("evidence.old-name-again");

    accept(
        Facts.split("WHOLE")
            .into("A", 400)
            .into("B", 600)
            .correcting("renamed", "it was B after all")
            .id("again")
            .at("2024-09-01"));
    assertThat(state("WHOLE")).isEqualTo(StandingState.FIT);
    assertThat(topology.standing(Subject.lot("B")).getMaterial().getCategory()).isEqualTo("BASIC");
  }

  @ParameterizedTest(name = "seed of B {0}, tested on {1}: C is {2}")
  @CsvSource({
    "fails, 2024-09-04, EVIDENCE_OWED",
    // it was B's own, before anybody said that seed of the whole was in it
    "fails, 2024-08-20, FIT",
    "passes, 2024-09-04, FIT"
  })
  void toDeclareTheOldNameIsNoWayOut(String how, String tested, StandingState expected) {
    divided("WHOLE", Facts.HYBRID, Category.CERTIFIED);
    accept(
        Facts.otherSeeds("B")
            .with(test -> test.setOtherCereals(how.equals("fails") ? 90 : 0).setSampleId("S-B"))
            .at(tested),
        lot("B", Facts.HYBRID, Category.CERTIFIED));
    rename();
    accept(tests("C", 600, "2024-09-10"));

    assertThat(state("C")).isEqualTo(expected);
  }

  @ParameterizedTest(name = "cereals in the first crop: {0}, its declaration withdrawn: {1}")
  @CsvSource({"900, true", "900, false", "0, true"})
  void whatWasSeenInACropIsNotForgottenUnderAnotherName(int cereals, boolean isWithdrawn) {
    accept(lot("SEED", Facts.RESTORER, Category.PRE_BASIC));
    accept(tests("SEED", KG, "2024-08-11"));
    accept(
        crop("FIRST").id("declared"),
        Facts.sowing("FIRST").of("SEED", 400).on(6.5).id("sown").at("2024-09-20"),
        visit("FIRST", 1, cereals).id("seen"),
        Facts.harvest("FIRST", "RAW", 9000).id("harvest").at("2025-08-05"),
        crop("NEXT"),
        Facts.sowing("NEXT")
            .of("SEED", 400)
            .on(6.5)
            .correcting("sown", "wrong crop")
            .at("2024-09-20"),
        visit("NEXT", 1, 0),
        visit("NEXT", 2, 0),
        visit("NEXT", 3, 0),
        Facts.harvest("NEXT", "RAW", 9000)
            .correcting("harvest", "wrong crop")
            .id("renamed")
            .at("2025-08-05"));
    if (isWithdrawn) {
      accept(Facts.withdrawal("declared").id("gone"));
    }

    assertThat(evidence("lot:SEED")).contains("evidence.tests-of-right-lot");
    assertThat(state("RAW")).isNotEqualTo(StandingState.FIT);

    accept(Facts.withdrawal("seen").id("unseen"));
    assertThat(state("RAW")).isEqualTo(StandingState.FIT);
  }

  private void divided(String whole, String seed, Category category) {
    accept(lot(whole, seed, category));
    accept(tests(whole, KG, "2024-08-11"));
    accept(Facts.split(whole).into("A", 400).into("B", 600).id("split").at("2024-09-01"));
  }

  private void rename() {
    accept(
        Facts.split("WHOLE")
            .into("A", 400)
            .into("C", 600)
            .correcting("split", "wrong lot")
            .id("renamed")
            .at("2024-09-01"));
  }

  private Signature signed(String lot, int day) {
    return InventedActs.signed(topology.sheet(Subject.lot(lot)), day, "p-1", 1);
  }

  private static Draft<?> lot(String lot, String seed, Category category) {
    return Facts.declared(lot, seed, category, KG)
        .with(declared -> declared.setRulebookId("DE"))
        .at("2024-08-01");
  }

  private static Facts.Plain<FieldCropDeclared.Builder> crop(String crop) {
    return Facts.crop(crop, CropRole.POLLINATOR)
        .with(
            declared ->
                declared
                    .setRulebookId("DE")
                    .setCropYear(2025)
                    .setOutline(Facts.square(crop.equals("NEXT") ? 10.1 : 10.0, 52.0, 0.003)))
        .at("2024-09-10");
  }

  private static Facts.InspectionDraft visit(String crop, int number, int cereals) {
    Facts.InspectionDraft visit =
        Facts.inspection(crop)
            .visit(number)
            .offTypesInArea(0, 450)
            .with(
                count ->
                    count
                        .setOtherCerealPlants(cereals)
                        .setHardToSeparatePlants(0)
                        .setWildOatPlants(0)
                        .setSmutPlants(0));
    visit.at("2025-06-0" + (2 + number));
    return visit;
  }

  /** Good tests of a good sample. */
  private static Draft<?>[] tests(String lot, double massKg, String on) {
    String sample = "S-" + lot;
    return Stream.<Draft<?>>of(
            Facts.sampling(lot, 40, massKg, 200)
                .with(drawn -> drawn.setSampleId(sample).setContainers(null))
                .at(on),
            Facts.germination(lot, 95, 94, 96, 95).with(test -> test.setSampleId(sample)).at(on),
            Facts.purity(lot, 119.4, 0.5, 0.1).with(test -> test.setSampleId(sample)).at(on),
            Facts.moisture(lot, 13).with(test -> test.setSampleId(sample)).at(on),
            Facts.otherSeeds(lot).with(test -> test.setSampleId(sample)).at(on))
        .toArray(Draft<?>[]::new);
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

  private List<String> evidence(String subject) {
    LotStanding standing = topology.standing(Subject.parse(subject));
    return standing.getVerdicts().stream()
        .flatMap(verdict -> verdict.getEvidence().stream())
        .map(evidence -> evidence.getCode())
        .toList();
  }
}
