package org.kornspur.processors.plan.field;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;
import static org.assertj.core.api.Assertions.within;
import static org.kornspur.processors.plan.field.InventedGround.field;
import static org.kornspur.processors.plan.field.InventedGround.mixture;
import static org.kornspur.processors.plan.field.InventedGround.pollinator;
import static org.kornspur.processors.plan.field.InventedGround.seen;
import static org.kornspur.processors.plan.field.InventedGround.singleCross;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.kornspur.contract.Category;
import org.kornspur.contract.CropRole;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.plan.field.SeasonFields.Obstacle;
import org.kornspur.processors.plan.field.SeasonFields.Placed;
import org.kornspur.processors.plan.field.SeasonTask.Wanted;

/**
 * Distances and years without rye by the Seed Ordinance (SaatV), Annex 2 no. 1.3.1.3b and section
 * 5(1a): 1,000 m around the seed parent of basic seed and 500 m around hybrid seed; two years
 * without rye before basic seed of the female, one before hybrid seed. Fields are invented squares
 * of 4 ha.
 */
class FieldProposalTest {
  private static final int YEAR = 2027;
  private static final KnownField WEST = field("E1", "West", 0, 0, 200);
  private static final KnownField NEAR = field("E1", "Near", 900, 0, 200);
  private static final KnownField FAR = field("E2", "Far", 1300, 0, 200);
  private static final PlannedCrop SINGLE_CROSS = singleCross(1, YEAR, "DE");
  private static final PlannedCrop MIXTURE = mixture(1, YEAR, "DE");

  /** Near begins 700 m east of West, Far 1,100 m: only on Far is the single cross kept clean. */
  @Test
  void aMixtureIsNotSownWithinReachOfASingleCross() {
    SeasonFields found =
        FieldProposal.of(
            task(
                List.of(new Wanted(SINGLE_CROSS, 4), new Wanted(MIXTURE, 4)),
                List.of(WEST, NEAR, FAR),
                List.of(),
                List.of(pin(SINGLE_CROSS, WEST)),
                Map.of()));
    assertThat(found.placed())
        .extracting(one -> one.placement().field().name().fieldId())
        .containsExactly("West", "Far");
    assertThat(found.conflicts()).isEmpty();
    assertThat(found.unplaced()).isEmpty();
  }

  @Test
  void whatAPersonPutsTooNearStaysAndIsTold() {
    SeasonFields found =
        FieldProposal.of(
            task(
                List.of(new Wanted(SINGLE_CROSS, 4), new Wanted(MIXTURE, 4)),
                List.of(WEST, NEAR, FAR),
                List.of(),
                List.of(pin(SINGLE_CROSS, WEST), pin(MIXTURE, NEAR)),
                Map.of()));
    assertThat(found.placed()).hasSize(2);
    FieldConflict.TooNearPlanned tooNear =
        (FieldConflict.TooNearPlanned) found.placed().get(0).conflicts().get(0);
    assertThat(tooNear.field()).isEqualTo("West");
    assertThat(tooNear.otherField()).isEqualTo("Near");
    assertThat(tooNear.distance().number()).isCloseTo(700, within(2.0));
    assertThat(tooNear.limit().number()).isEqualTo(1000);
    assertThat(tooNear.rulebookId()).isEqualTo("DE");
    assertThat(found.placed().get(1).conflicts())
        .singleElement()
        .isInstanceOf(FieldConflict.SpoilsPlanned.class);
  }

  /** Rye of others 400 m north of Near: hybrid seed asks for 500 m. */
  @Test
  void ryeThatSomebodySawIsKeptFrom() {
    List<RyeStand> rye = List.of(seen("N1", YEAR, 900, 600, 100));
    assertThat(only(List.of(NEAR), rye, MIXTURE).unplaced())
        .singleElement()
        .satisfies(
            one -> {
              assertThat(one.areaHa()).isCloseTo(4, within(0.01));
              assertThat(one.fields()).containsExactly(Map.entry(Obstacle.TOO_NEAR, 1));
              assertThat(one.examples()).singleElement().isInstanceOf(FieldConflict.TooNear.class);
            });
    assertThat(only(List.of(NEAR), List.of(seen("N1", YEAR, 900, 750, 100)), MIXTURE).unplaced())
        .isEmpty();
    assertThat(
            only(List.of(NEAR), List.of(seen("N1", YEAR - 4, 900, 600, 100)), MIXTURE).unplaced())
        .isEmpty();
  }

  @Test
  void ryeOfYearsBeforeKeepsAFieldFromBasicSeedLonger() {
    List<RyeStand> lastYear = List.of(seen("R1", YEAR - 1, 0, 0, 200));
    List<RyeStand> yearBefore = List.of(seen("R1", YEAR - 2, 0, 0, 200));
    assertThat(only(List.of(WEST), lastYear, MIXTURE).unplaced()).hasSize(1);
    assertThat(only(List.of(WEST), yearBefore, MIXTURE).unplaced()).isEmpty();
    assertThat(only(List.of(WEST), yearBefore, SINGLE_CROSS).unplaced())
        .singleElement()
        .satisfies(
            one ->
                assertThat(one.examples())
                    .containsExactly(
                        new FieldConflict.RyeBefore(
                            "SC-1", "West", YEAR - 2, 1, new Amount(2, "years"), "DE")));
  }

  @Test
  void whatAGrowerCannotGrowGoesToAnother() {
    SeasonFields found =
        FieldProposal.of(
            task(
                List.of(new Wanted(MIXTURE, 8)),
                List.of(WEST, NEAR, FAR),
                List.of(),
                List.of(),
                Map.of("E1", 3.0)));
    assertThat(found.placed())
        .extracting(
            one -> one.placement().field().name().enterpriseId(),
            one -> Math.rint(one.placement().areaHa() * 10) / 10)
        .containsExactlyInAnyOrder(tuple("E1", 3.0), tuple("E2", 4.0));
    assertThat(found.unplaced())
        .singleElement()
        .satisfies(one -> assertThat(one.fields()).containsKey(Obstacle.CAPACITY));
  }

  /** The declared crop is the planned one come true; only another crop would take its ground. */
  @Test
  void aCropThatIsDeclaredAsDecidedIsNoConflict() {
    RyeStand declared = declared(MIXTURE, WEST);
    SeasonFields found =
        FieldProposal.of(
            task(
                List.of(),
                List.of(WEST, FAR),
                List.of(declared),
                List.of(pin(MIXTURE, WEST)),
                Map.of("E1", 0.0)));
    assertThat(found.conflicts()).isEmpty();
    assertThat(
            FieldProposal.of(
                    task(
                        List.of(),
                        List.of(WEST),
                        List.of(declared),
                        List.of(pin(mixture(2, YEAR, "DE"), WEST)),
                        Map.of()))
                .conflicts())
        .singleElement()
        .isInstanceOf(FieldConflict.Taken.class);
  }

  private static RyeStand declared(PlannedCrop crop, KnownField field) {
    RyeStand planned = RyeStand.planned(pin(crop, field));
    return RyeStand.known(planned.plot(), planned.seedCrop());
  }

  /** One pollen beside itself is wanted: two crops of one hybrid may touch. */
  @Test
  void cropsWithOnePollenMayStandSideBySide() {
    KnownField beside = field("E1", "Beside", 205, 0, 200);
    SeasonFields found = only(List.of(WEST, beside), List.of(), 8, MIXTURE);
    assertThat(found.placed()).hasSize(2);
    assertThat(found.unplacedHa()).isCloseTo(0, within(0.01));
  }

  @Test
  void ofFieldsThatFitTheNearestToTheStoreIsTaken() {
    SeasonTask task =
        new SeasonTask(
            YEAR,
            List.of(new Wanted(MIXTURE, 4)),
            List.of(WEST, NEAR, FAR),
            List.of(),
            List.of(),
            Map.of(),
            Optional.of(InventedGround.at(5000, 0)));
    Placed placed = FieldProposal.of(task).placed().get(0);
    assertThat(placed.placement().field()).isEqualTo(FAR);
    assertThat(placed.km().orElseThrow()).isCloseTo(3.6, within(0.02));
  }

  @Test
  void aBookThatIsSilentIsTold() {
    PlannedCrop maintainer =
        new PlannedCrop(
            "M-1",
            "M-1",
            CropRole.MAINTAINER,
            Category.BREEDER,
            YEAR,
            pollinator(1, YEAR, "DE").rulebook());
    assertThat(only(List.of(WEST), List.of(), maintainer).placed())
        .singleElement()
        .matches(Placed::isBookSilent);
    assertThat(only(List.of(WEST), List.of(), MIXTURE).placed())
        .singleElement()
        .matches(one -> !one.isBookSilent());
  }

  private static SeasonFields only(
      List<KnownField> fields, List<RyeStand> known, PlannedCrop crop) {
    return only(fields, known, 4, crop);
  }

  private static SeasonFields only(
      List<KnownField> fields, List<RyeStand> known, double areaHa, PlannedCrop crop) {
    return FieldProposal.of(
        task(List.of(new Wanted(crop, areaHa)), fields, known, List.of(), Map.of()));
  }

  private static Placement pin(PlannedCrop crop, KnownField field) {
    return new Placement(crop, field, 4, true);
  }

  private static SeasonTask task(
      List<Wanted> wanted,
      List<KnownField> fields,
      List<RyeStand> known,
      List<Placement> pinned,
      Map<String, Double> mostHa) {
    return new SeasonTask(YEAR, wanted, fields, known, pinned, mostHa, Optional.empty());
  }
}
