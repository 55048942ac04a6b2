package org.kornspur.processors.stream;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.contract.Category;
import org.kornspur.contract.CropRole;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.fixture.Draft;
import org.kornspur.processors.fixture.Facts;
import org.kornspur.standing.LotStanding;
import org.kornspur.standing.StandingState;

/**
 * What was counted in a crop is not hidden by declaring its ground a second time, as another crop
 * of the year. Common practice, no source.
 */
class CropsOnSameGroundTest {
  private static final double SIDE = 0.003;

  private final DrivenTopology topology = DrivenTopology.withRealRules();

  @BeforeEach
  void seed() {
    accept(
        Facts.laboratory("LAB1"),
        Facts.hybrid().id("hybrid").at("2024-01-01"),
        Facts.declared("SEED", Facts.RESTORER, Category.PRE_BASIC, 2000)
            .with(lot -> lot.setRulebookId("DE"))
            .at("2024-08-01"));
    accept(
        Facts.sampling("SEED", 40, 2000, 200)
            .with(drawn -> drawn.setSampleId("S").setContainers(null))
            .at("2024-08-11"),
        Facts.germination("SEED", 95, 94, 96, 95)
            .with(test -> test.setSampleId("S"))
            .at("2024-08-11"),
        Facts.purity("SEED", 119.4, 0.5, 0.1).with(test -> test.setSampleId("S")).at("2024-08-11"),
        Facts.moisture("SEED", 13).with(test -> test.setSampleId("S")).at("2024-08-11"),
        Facts.otherSeeds("SEED").with(test -> test.setSampleId("S")).at("2024-08-11"));
  }

  @AfterEach
  void close() {
    topology.close();
  }

  @Test
  void theOtherCropOfTheGroundIsNotFitThoughItsOwnCountsAre() {
    grown("CLEAN", 10.0, SIDE, 0);
    assertThat(state("crop:CLEAN")).isEqualTo(StandingState.FIT);
    assertThat(state("lot:RAW-CLEAN")).isEqualTo(StandingState.FIT);

    grown("FULL", 10.0, SIDE, 900);

    assertThat(state("crop:FULL")).isEqualTo(StandingState.NOT_FIT);
    assertThat(state("crop:CLEAN")).isEqualTo(StandingState.EVIDENCE_OWED);
    assertThat(state("lot:RAW-CLEAN")).isEqualTo(StandingState.EVIDENCE_OWED);
    assertThat(evidence("crop:CLEAN")).containsExactly("evidence.one-crop-of-ground");
  }

  @Test
  void itStandsThoughItsDeclarationIsWithdrawnUntilItsCountsAreToo() {
    grown("FULL", 10.0, SIDE, 900);
    accept(Facts.withdrawal("FULL-declared").id("undeclared").at("2025-08-20"));
    grown("CLEAN", 10.0, SIDE, 0);
    assertThat(state("crop:CLEAN")).isEqualTo(StandingState.EVIDENCE_OWED);

    for (int visit = 1; visit <= 3; visit++) {
      accept(Facts.withdrawal("FULL-" + visit).id("unseen-" + visit).at("2025-08-21"));
    }
    assertThat(state("crop:CLEAN")).isEqualTo(StandingState.FIT);
  }

  /** Winter rye that did not survive is ploughed in, and spring rye sown where it was. */
  @Test
  void aCropOfWhichOnlyYoungPlantsWereSeenMayGiveWay() {
    accept(
        crop("KILLED", 10.0, SIDE).id("killed"),
        Facts.inspection("KILLED")
            .visit(1)
            .offTypesInArea(0, 450)
            .with(visit -> visit.setBbchStage(21))
            .at("2025-03-01"),
        Facts.withdrawal("killed").id("ploughed-in").at("2025-03-10"));
    grown("CLEAN", 10.0, SIDE, 0);

    assertThat(state("crop:CLEAN")).isEqualTo(StandingState.FIT);
  }

  /** 5 % of the smaller of both is the line: common practice, no source. */
  @ParameterizedTest(name = "the other crop begins {0} degrees east and is {1} degrees wide: {2}")
  @CsvSource({
    "0.003, 0.003, FIT",
    "0.00287, 0.003, FIT",
    "0.00280, 0.003, EVIDENCE_OWED",
    // a small one within a large one is a thirtieth of that, and all of it is the same ground
    "0.001, 0.0005, EVIDENCE_OWED"
  })
  void outlinesThatTouchAreTwoGrounds(double east, double side, StandingState expected) {
    grown("CLEAN", 10.0, SIDE, 0);
    accept(crop("OTHER", 10.0 + east, side));

    assertThat(state("crop:CLEAN")).isEqualTo(expected);
  }

  private void grown(String crop, double lon, double side, int otherCereals) {
    accept(
        crop(crop, lon, side).id(crop + "-declared"),
        Facts.sowing(crop).of("SEED", 400).on(6.5).at("2024-09-20"),
        visit(crop, 1, otherCereals),
        visit(crop, 2, otherCereals),
        visit(crop, 3, otherCereals),
        Facts.harvest(crop, "RAW-" + crop, 9000).at("2025-08-05"));
  }

  private static Facts.Plain<FieldCropDeclared.Builder> crop(String crop, double lon, double side) {
    return Facts.crop(crop, CropRole.POLLINATOR)
        .with(
            declared ->
                declared
                    .setRulebookId("DE")
                    .setCropYear(2025)
                    .setOutline(Facts.square(lon, 52.0, side)))
        .at("2024-09-10");
  }

  private static Draft<?> visit(String crop, int number, int otherCereals) {
    return Facts.inspection(crop)
        .visit(number)
        .offTypesInArea(0, 450)
        .with(
            count ->
                count
                    .setOtherCerealPlants(otherCereals)
                    .setHardToSeparatePlants(0)
                    .setWildOatPlants(0)
                    .setSmutPlants(0))
        .id(crop + "-" + number)
        .at("2025-06-0" + (2 + number));
  }

  private void accept(Draft<?>... facts) {
    for (Draft<?> fact : facts) {
      topology.accept(fact.fact());
    }
    assertThat(topology.quarantine()).isEmpty();
  }

  private StandingState state(String subject) {
    return standing(subject).getState();
  }

  private List<String> evidence(String subject) {
    return standing(subject).getVerdicts().stream()
        .flatMap(verdict -> verdict.getEvidence().stream())
        .map(evidence -> evidence.getCode())
        .toList();
  }

  private LotStanding standing(String subject) {
    return topology.standing(Subject.parse(subject));
  }
}
