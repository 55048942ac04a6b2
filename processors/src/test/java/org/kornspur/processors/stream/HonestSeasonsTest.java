package org.kornspur.processors.stream;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.contract.Category;
import org.kornspur.contract.CompositionMethod;
import org.kornspur.contract.CropRole;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.fixture.Draft;
import org.kornspur.processors.fixture.Facts;
import org.kornspur.standing.LotStanding;
import org.kornspur.standing.StandingState;

/**
 * Seasons in which all is right, and what is wrong with those that look like them. Our own rules,
 * no source, but where a test names one.
 */
class HonestSeasonsTest {
  private static final double KG = 1000;

  /** Basic seed that is a mixture of both components: Seed Ordinance (SaatV), Annex 5 no. 1. */
  @Test
  void aMixtureThatWasBoughtInIsTestedItself() {
    List<Draft<?>> mixture = tested("M", Facts.HYBRID, Category.BASIC);
    assertThat(standing("M", mixture).getState()).isEqualTo(StandingState.EVIDENCE_OWED);

    mixture.add(Facts.postControl("M", 2000, 0));
    assertThat(standing("M", mixture).getState())
        .as("its share of pollinator is not known")
        .isEqualTo(StandingState.EVIDENCE_OWED);

    assertThat(standing("M", with(mixture, composition(1000, 50))).getState())
        .isEqualTo(StandingState.FIT);
    assertThat(standing("M", with(mixture, composition(1000, 200))).getState())
        .isEqualTo(StandingState.NOT_FIT);
  }

  /** Only certified seed of it is held up: 95/6/EC, as a national transposition has it. */
  @Test
  void ofAMixtureThatWasBoughtInPostControlIsAskedOfWhatComesOfIt() {
    List<Draft<?>> mixture = tested("M", Facts.HYBRID, Category.BASIC);
    mixture.add(composition(1000, 50));
    LotStanding standing = standing("M", mixture);
    assertThat(standing.getState()).isEqualTo(StandingState.FIT);
    assertThat(standing.getVerdicts())
        .anyMatch(
            verdict ->
                verdict.getGate().equals("POST_CONTROL_OF_BASIC_SEED")
                    && verdict.getState().toString().equals("OWED"));
  }

  private static Draft<?> composition(int kernels, int pollinator) {
    return Facts.composition("M", kernels, pollinator)
        .with(
            grown ->
                grown
                    .setSampleId("S-M")
                    .setMethod(CompositionMethod.GROW_OUT)
                    .setFalsePositivePercent(null)
                    .setFalseNegativePercent(null));
  }

  @ParameterizedTest(name = "certified seed of {0}, {1}: {2}")
  @CsvSource({
    "OP1, sold, FIT",
    "OP1, kept, FIT",
    // a component of the hybrid is no variety of its own, and none is sown as one
    "A1, sold, EVIDENCE_OWED",
    "OP1, mixed, EVIDENCE_OWED"
  })
  void openPollinatedRyeIsSoldAsItIs(String seed, String use, StandingState expected) {
    List<Draft<?>> lot = tested("OP", seed, Category.CERTIFIED);
    switch (use) {
      case "sold" -> lot.add(Facts.dispatch("OP", KG));
      case "mixed" -> lot.add(Facts.blend("M").female("F", 10).pollinator("OP", KG));
      default -> {
        // nothing happens to it
      }
    }
    assertThat(standing("OP", lot).getState()).isEqualTo(expected);
  }

  @ParameterizedTest(name = "{0} of 1,000 kg treated, {1} kg screenings, germination {2} %: {3}")
  @CsvSource({
    "1000, 0, 95, FIT",
    "1000, 0, 60, NOT_FIT",
    // a sample of the whole says nothing of a half that nobody divided off
    "500, 0, 95, EVIDENCE_OWED",
    "1000, 20, 95, EVIDENCE_OWED"
  })
  void seedThatWasOnlyTreatedIsWhatItWas(
      double treatedKg, double screeningsKg, int germination, StandingState expected) {
    List<Draft<?>> lot = tested("L", Facts.HYBRID, Category.CERTIFIED);
    lot.add(
        Facts.germination("L", germination, germination, germination, germination)
            .with(test -> test.setSampleId("S-L"))
            .at("2024-09-11"));
    lot.add(
        Facts.conditioning()
            .from("L", treatedKg)
            .into("T", treatedKg - screeningsKg)
            .screenings(screeningsKg)
            .treatedWith("invented dressing")
            .at("2024-09-20"));
    assertThat(standing("T", lot).getState()).isEqualTo(expected);
  }

  @Test
  void aPartThatWasTreatedIsWhatTheLotWas() {
    List<Draft<?>> lot = tested("L", Facts.HYBRID, Category.CERTIFIED);
    lot.add(Facts.split("L").into("P", 400).at("2024-09-15"));
    lot.add(
        Facts.conditioning()
            .from("P", 400)
            .into("T", 400)
            .treatedWith("invented dressing")
            .at("2024-09-20"));
    assertThat(standing("T", lot).getState()).isEqualTo(StandingState.FIT);
  }

  /** The first half was gone when the sample was drawn. */
  @Test
  void seedThatWasTreatedInTwoPartsIsSampledAnew() {
    List<Draft<?>> lot = tested("L", Facts.HYBRID, Category.CERTIFIED);
    for (String day : List.of("2024-09-05", "2024-09-20")) {
      lot.add(
          Facts.conditioning()
              .from("L", KG / 2)
              .into("T", KG / 2)
              .treatedWith("invented dressing")
              .at(day));
    }
    assertThat(standing("T", lot).getState()).isEqualTo(StandingState.EVIDENCE_OWED);
  }

  @Test
  void untestedSeedIsNotTestedByTreatingIt() {
    List<Draft<?>> lot =
        new ArrayList<>(List.of(Facts.declared("L", Facts.HYBRID, Category.CERTIFIED, KG)));
    lot.add(
        Facts.conditioning()
            .from("L", KG)
            .into("T", KG)
            .treatedWith("invented dressing")
            .at("2024-09-20"));
    assertThat(standing("T", lot).getState()).isEqualTo(StandingState.EVIDENCE_OWED);
  }

  @ParameterizedTest(name = "female {0}, pollinator {1}: category is {2}")
  @CsvSource({
    "PRE_BASIC, BASIC, BASIC",
    "BASIC, PRE_BASIC, BASIC",
    "BREEDER, BASIC, BASIC",
    "CERTIFIED, BASIC, CERTIFIED"
  })
  void seedOfAHigherCategoryGoesIntoAMixtureAsBasic(
      Category female, Category pollinator, Category expected) {
    List<Draft<?>> lots = tested("F", Facts.SINGLE_CROSS, female);
    lots.addAll(tested("P", Facts.RESTORER, pollinator));
    lots.add(Facts.postControl("F", 2000, 0).with(plot -> plot.setSheddingPlants(0)));
    lots.add(Facts.postControl("P", 2000, 0));
    lots.add(Facts.blend("M").female("F", 950).pollinator("P", 50).at("2024-09-20"));
    LotStanding standing = standing("M", lots);

    assertThat(standing.getMaterial().getCategory()).isEqualTo(expected.name());
    assertThat(standing.getVerdicts().stream().filter(v -> v.getGate().equals("COMPONENTS")))
        .isNotEmpty()
        .allMatch(v -> v.getState().toString().equals("MET") == (expected == Category.BASIC));
  }

  /**
   * Components in post-control, a mixture, two fields of one raw lot, rogued and cleaned in two
   * runs, dressed, and sold: nothing is owed anywhere. Common practice, no source.
   */
  @Test
  void anOrdinaryYearOfHybridSeedIsFit() {
    List<Draft<?>> year = tested("F", Facts.SINGLE_CROSS, Category.BASIC);
    year.addAll(tested("P", Facts.RESTORER, Category.BASIC));
    year.add(
        Facts.postControl("F", 2000, 2).with(plot -> plot.setSheddingPlants(5)).at("2025-06-10"));
    year.add(Facts.postControl("P", 2000, 1).at("2025-06-10"));
    year.add(Facts.blend("M").female("F", 950).pollinator("P", 50).at("2024-09-12"));
    year.addAll(tests("M", KG, "2024-09-13"));
    year.addAll(field("K1", 10.0, "2025-08-03"));
    year.addAll(field("K2", 10.1, "2025-08-05"));
    year.add(cleaned("L1", 16_800, 2_900, "2025-08-20"));
    year.add(cleaned("L2", 16_600, 3_100, "2025-08-22"));
    year.addAll(tests("L1", 16_800, "2025-08-24"));
    year.addAll(tests("L2", 16_600, "2025-08-24"));
    year.add(dressed("L1", 16_800, "T1"));
    year.add(Facts.split("L2").into("PART", 8_000).into("REST", 8_600).at("2025-08-30"));
    year.add(dressed("PART", 8_000, "T2"));
    for (String sold : List.of("T1", "T2", "REST")) {
      year.add(Facts.dispatch(sold, 8_000).at("2025-09-05"));
    }
    try (DrivenTopology topology = DrivenTopology.withRealRules()) {
      topology.accept(Facts.laboratory("LAB1").fact(), Facts.hybrid().at("2024-01-01").fact());
      year.forEach(fact -> topology.accept(fact.fact()));
      assertThat(topology.quarantine()).isEmpty();
      assertThat(topology.standings().values())
          .hasSize(12)
          .allMatch(standing -> standing.getState() == StandingState.FIT);
    }
  }

  private static List<Draft<?>> field(String crop, double lon, String harvested) {
    List<Draft<?>> facts =
        new ArrayList<>(
            List.of(
                Facts.crop(crop, CropRole.F1_MIXTURE)
                    .with(
                        declared ->
                            declared
                                .setCropYear(2025)
                                .setFloweringFrom(LocalDate.of(2025, 6, 1))
                                .setFloweringTo(LocalDate.of(2025, 6, 14))
                                .setOutline(Facts.square(lon, 52.0, 0.003)))
                    .at("2024-09-14"),
                Facts.sowing(crop).of("M", 450).on(6.8).at("2024-09-25"),
                visit(crop, 1, 55, 20, "2025-05-24"),
                Facts.harvest(crop, "RAW", 20_000).at(harvested)));
    for (int visit = 2; visit <= 4; visit++) {
      facts.add(visit(crop, visit, 65, 3, "2025-06-0" + 2 * visit).sheddingAmong(9, 1200));
    }
    return facts;
  }

  private static Facts.InspectionDraft visit(
      String crop, int number, int stage, int offTypes, String on) {
    Facts.InspectionDraft visit =
        Facts.inspection(crop).visit(number).female().offTypesInArea(offTypes, 150);
    visit.at(on);
    return visit.with(
        count ->
            count
                .setBbchStage(stage)
                .setOtherCerealPlants(1)
                .setHardToSeparatePlants(0)
                .setWildOatPlants(0)
                .setSmutPlants(0));
  }

  private static Draft<?> cleaned(String lot, double massKg, double screeningsKg, String on) {
    return Facts.conditioning()
        .from("RAW", 20_000)
        .into(lot, massKg)
        .screenings(screeningsKg)
        .driedOff(250.0)
        .at(on);
  }

  /** Dressing with its water weighs 0.8 %. */
  private static Draft<?> dressed(String lot, double massKg, String into) {
    return Facts.conditioning()
        .from(lot, massKg)
        .into(into, 1.008 * massKg)
        .treatedWith("invented dressing")
        .at("2025-09-01");
  }

  private static List<Draft<?>> tests(String lotId, double massKg, String on) {
    String sample = "S-" + lotId;
    return List.of(
        Facts.sampling(lotId, 40, massKg, 200)
            .with(drawn -> drawn.setSampleId(sample).setContainers(null))
            .at(on),
        Facts.germination(lotId, 95, 94, 96, 95).with(test -> test.setSampleId(sample)).at(on),
        Facts.purity(lotId, 119.4, 0.5, 0.1).with(test -> test.setSampleId(sample)).at(on),
        Facts.moisture(lotId, 13).with(test -> test.setSampleId(sample)).at(on),
        Facts.otherSeeds(lotId).with(test -> test.setSampleId(sample)).at(on));
  }

  private static List<Draft<?>> tested(String lotId, String seed, Category category) {
    String sample = "S-" + lotId;
    return new ArrayList<>(
        List.of(
            Facts.declared(lotId, seed, category, KG).at("2024-09-01"),
            Facts.sampling(lotId, 40, KG, 200)
                .with(drawn -> drawn.setSampleId(sample).setContainers(null)),
            Facts.germination(lotId, 95, 94, 96, 95).with(test -> test.setSampleId(sample)),
            Facts.purity(lotId, 119.4, 0.5, 0.1).with(test -> test.setSampleId(sample)),
            Facts.moisture(lotId, 13).with(test -> test.setSampleId(sample)),
            Facts.kernelWeight(lotId, 3, 3, 3, 3, 3, 3, 3, 3)
                .with(test -> test.setSampleId(sample)),
            Facts.otherSeeds(lotId).with(test -> test.setSampleId(sample))));
  }

  private static List<Draft<?>> with(List<Draft<?>> facts, Draft<?>... more) {
    List<Draft<?>> all = new ArrayList<>(facts);
    all.addAll(Arrays.asList(more));
    return all;
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
