package org.kornspur.processors.plan;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.kornspur.contract.Category;
import org.kornspur.processors.dossier.Material;
import org.kornspur.processors.plan.Supply.LotInStore;
import org.kornspur.processors.verdict.Fitness;

/** Lots are invented. */
class SupplyTest {

  @Test
  void onlyAFitAndReleasedLotCountsInFull() {
    assertThat(supply(lot("L1", Fitness.FIT, true)).lots())
        .containsExactly(new SupplyLot("L1", "SC-1", 100, 2026, Optional.empty()));
    assertThat(supply(lot("L1", Fitness.FIT, false)).lots())
        .singleElement()
        .satisfies(lot -> assertThat(lot.waiting()).isPresent());
    assertThat(supply(lot("L1", Fitness.EVIDENCE_OWED, false, "ERGOT")).lots())
        .singleElement()
        .satisfies(lot -> assertThat(lot.countedKg()).isCloseTo(50, within(1e-9)));
  }

  /** Only of a fit lot may be said that nothing is owed. */
  @Test
  void aLotThatWaitsForWhatIsNotToldIsNotSure() {
    assertThat(supply(lot("L1", Fitness.EVIDENCE_OWED, true)).lots())
        .singleElement()
        .satisfies(lot -> assertThat(lot.waiting().orElseThrow().chance()).isEqualTo(0.5));
    assertThat(supply(lot("L1", Fitness.FIT, false)).lots())
        .singleElement()
        .satisfies(lot -> assertThat(lot.waiting().orElseThrow().chance()).isEqualTo(1));
  }

  /** Whatever else is said of it, and released or not. */
  @ParameterizedTest
  @EnumSource(Category.class)
  void aLotThatIsNotFitIsNeverCounted(Category category) {
    for (boolean isReleased : new boolean[] {true, false}) {
      for (boolean isRaw : new boolean[] {true, false}) {
        Supply supply =
            supply(
                new LotInStore(
                    "L1",
                    Optional.of(material("SC-1", Material.Kind.COMPONENT, category)),
                    Optional.of(Fitness.NOT_FIT),
                    isReleased,
                    isRaw,
                    100,
                    List.of(),
                    List.of("ISOLATION"),
                    Optional.empty()));
        assertThat(supply.lots()).isEmpty();
        assertThat(supply.leftOut())
            .containsExactly(new Supply.LeftOut("L1", 100, Supply.Reason.NOT_FIT));
      }
    }
  }

  @Test
  void whatIsUnknownOrOfTooLowACategoryOrLeftOutIsNotCounted() {
    LotInStore unknown =
        new LotInStore(
            "L1",
            Optional.of(material("SC-1", Material.Kind.COMPONENT, Category.BASIC)),
            Optional.empty(),
            true,
            false,
            100,
            List.of(),
            List.of(),
            Optional.empty());
    assertThat(supply(unknown).leftOut().get(0).reason()).isEqualTo(Supply.Reason.UNKNOWN);
    LotInStore certified =
        new LotInStore(
            "L1",
            Optional.of(material("SC-1", Material.Kind.COMPONENT, Category.CERTIFIED)),
            Optional.of(Fitness.FIT),
            true,
            false,
            100,
            List.of(),
            List.of(),
            Optional.empty());
    assertThat(supply(certified).leftOut().get(0).reason())
        .isEqualTo(Supply.Reason.TOO_LOW_A_CATEGORY);
    Supply byAPerson =
        Supply.of(
            List.of(lot("L1", Fitness.FIT, true)),
            Invented.chain(1),
            Invented.ROUND,
            new FitChanceEstimator(List.of()),
            Set.of("L1"));
    assertThat(byAPerson.lots()).isEmpty();
    assertThat(byAPerson.leftOut().get(0).reason()).isEqualTo(Supply.Reason.BY_A_PERSON);
  }

  /** Cleaning takes a fifth, and every test of seed is still to come. */
  @Test
  void rawHarvestIsWhatCleaningWillLeaveAndWaits() {
    LotInStore raw =
        new LotInStore(
            "R1",
            Optional.of(material("SC-1", Material.Kind.COMPONENT, Category.BASIC)),
            Optional.of(Fitness.FIT),
            false,
            true,
            100,
            List.of(),
            List.of(),
            Optional.empty());
    assertThat(supply(raw).lots())
        .singleElement()
        .satisfies(
            lot -> {
              assertThat(lot.massKg()).isCloseTo(80, within(1e-9));
              assertThat(lot.waiting().orElseThrow().chance()).isLessThan(0.1);
            });
  }

  /** 5 % of viable kernels, and both have the same kernels: 95 kg of female in 100 kg. */
  @Test
  void aTechnicalMixtureIsWhatItIsMixedFrom() {
    LotInStore mixture =
        new LotInStore(
            "M1",
            Optional.of(material("H-1", Material.Kind.TECHNICAL_MIXTURE, Category.BASIC)),
            Optional.of(Fitness.FIT),
            true,
            false,
            100,
            List.of(),
            List.of(),
            Optional.empty());
    assertThat(supply(mixture).lots())
        .extracting(SupplyLot::seedId)
        .containsExactlyInAnyOrder("SC-1", "C-1");
    assertThat(supply(mixture).lots())
        .filteredOn(lot -> lot.seedId().equals("SC-1"))
        .singleElement()
        .satisfies(lot -> assertThat(lot.massKg()).isCloseTo(95, within(1e-9)));
  }

  @Test
  void theRecordIsOfTheKindsOfSeedThatAGateBearsOn() {
    FitChanceEstimator record =
        Supply.record(
            List.of(
                lot("L1", Fitness.NOT_FIT, false),
                notMet("L2", "ERGOT"),
                lot("L3", Fitness.FIT, true),
                lot("L4", Fitness.EVIDENCE_OWED, false, "ERGOT")));
    // two of three met: m = 2.5 / 4, and (10 · 0.625 + 2) / 13
    assertThat(
            record
                .chance(
                    Set.of("ERGOT"), new FitChanceEstimator.Group(Material.Kind.COMPONENT, "NORTH"))
                .chance())
        .isCloseTo((6.25 + 2) / 13, within(1e-9));
  }

  private static Supply supply(LotInStore lot) {
    return Supply.of(
        List.of(lot),
        Invented.chain(1),
        Invented.ROUND,
        new FitChanceEstimator(List.of()),
        Set.of());
  }

  private static LotInStore lot(String lotId, Fitness state, boolean released, String... owed) {
    return new LotInStore(
        lotId,
        Optional.of(material("SC-1", Material.Kind.COMPONENT, Category.BASIC)),
        Optional.of(state),
        released,
        false,
        100,
        List.of(owed),
        List.of(),
        Optional.of("NORTH"));
  }

  private static LotInStore notMet(String lotId, String gate) {
    return new LotInStore(
        lotId,
        Optional.of(material("SC-1", Material.Kind.COMPONENT, Category.BASIC)),
        Optional.of(Fitness.NOT_FIT),
        false,
        false,
        100,
        List.of(),
        List.of(gate),
        Optional.of("NORTH"));
  }

  private static Material material(String seedId, Material.Kind kind, Category category) {
    return new Material("H-1", seedId, kind, category, 2026, "EU");
  }
}
