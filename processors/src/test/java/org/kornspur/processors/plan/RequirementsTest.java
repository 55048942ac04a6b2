package org.kornspur.processors.plan;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.kornspur.processors.plan.Invented.NOW;
import static org.kornspur.processors.plan.Invented.ROUND;
import static org.kornspur.processors.plan.Invented.chain;
import static org.kornspur.processors.plan.Invented.demand;
import static org.kornspur.processors.plan.Invented.lot;
import static org.kornspur.processors.plan.Invented.question;
import static org.kornspur.processors.plan.Invented.task;

import java.util.List;
import java.util.Map;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Scale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.contract.ShareBasis;

/** Worked by hand, each step beside it; numbers are invented and round. */
class RequirementsTest {

  /**
   * 100 t of H-1 wanted of the harvest of 2029, nothing in store.
   *
   * <ol>
   *   <li>H-1, harvest 2029: 100,000 kg / 5,000 kg/ha = 20 ha.
   *   <li>Sown in autumn 2028: 20 ha · 60 kg/ha = 1,200 kg of mixture, 5 % of it C-1 (both have the
   *       same kernels): 1,140 kg SC-1, 60 kg C-1.
   *   <li>SC-1, harvest 2028: 1,140 / 2,000 = 0.57 ha; C-1: 60 / 1,000 = 0.06 ha.
   *   <li>Sown in autumn 2027: SC-1 in strips, 0.57 · 60 · ¾ = 25.65 kg A-1 and 0.57 · 60 · ¼ =
   *       8.55 kg B-1; C-1 0.06 · 60 = 3.6 kg C-1.
   *   <li>A-1, harvest 2027: 25.65 / 1,000 = 0.02565 ha; B-1 0.00855 ha; C-1 0.0036 ha.
   *   <li>Sown in autumn 2026, of what is in store: A-1 0.02565 · 45 = 1.15425 kg, M-1 0.02565 · 15
   *       = 0.38475 kg, B-1 0.00855 · 60 = 0.513 kg, C-1 0.0036 · 60 = 0.216 kg. All of it is
   *       missing.
   * </ol>
   */
  @Test
  void fromTonnesOfHybridSeedBackToEachLine() {
    Requirements needed = Requirements.of(task(2029, List.of(demand("H-1", 2029, 100)), List.of()));
    line(needed, "H-1", 2029, 100_000, 100_000, 20, 0);
    line(needed, "SC-1", 2028, 1140, 1140, 0.57, 0);
    line(needed, "C-1", 2028, 60, 60, 0.06, 0);
    line(needed, "A-1", 2027, 25.65, 25.65, 0.02565, 0);
    line(needed, "B-1", 2027, 8.55, 8.55, 0.00855, 0);
    line(needed, "C-1", 2027, 3.6, 3.6, 0.0036, 0);
    line(needed, "A-1", 2026, 1.15425, 0, 0, 1.15425);
    line(needed, "M-1", 2026, 0.38475, 0, 0, 0.38475);
    line(needed, "B-1", 2026, 0.513, 0, 0, 0.513);
    line(needed, "C-1", 2026, 0.216, 0, 0, 0.216);
    assertThat(needed.missingKg()).isCloseTo(1.15425 + 0.38475 + 0.513 + 0.216, within(1e-9));
  }

  /**
   * 10 t wanted of the next harvest: 2 ha need 120 kg of mixture now, 114 kg SC-1 and 6 kg C-1.
   * With 100 kg and 50 kg in store, 14 kg SC-1 are missing, and 44 kg C-1 are left.
   */
  @Test
  void whatIsInStoreIsUsedAndTheRestIsMissing() {
    Requirements needed =
        Requirements.of(
            task(
                2027,
                List.of(demand("H-1", 2027, 10)),
                List.of(lot("L1", "SC-1", 60), lot("L2", "SC-1", 40), lot("L3", "C-1", 50))));
    line(needed, "SC-1", 2026, 114, 0, 0, 14);
    line(needed, "C-1", 2026, 6, 0, 0, 0);
    assertThat(one(needed, "C-1", 2026).leftKg()).isCloseTo(44, within(1e-9));
    assertThat(one(needed, "A-1", 2026).neededKg()).isZero();
  }

  /**
   * The line C-1 is multiplied every second year, first for 2027, and 20 % of seed is lost in a
   * year of store. H-1 takes 60 kg of it in autumn 2027 and 60 kg in autumn 2028, so its harvest of
   * 2027 must be 60 + 60 / 0.8 = 135 kg.
   */
  @Test
  void aHarvestLastsUntilTheNextThatTheIntervalAllows() {
    Requirements needed =
        Requirements.of(
            PlanTask.of(
                question(
                    2029,
                    Invented.round(2, 0.8),
                    List.of(demand("H-1", 2028, 100), demand("H-1", 2029, 100))),
                chain(1),
                List.of(),
                Map.of("C-1", 2025)));
    line(needed, "C-1", 2027, 60, 135, 0.135, 0);
    assertThat(one(needed, "C-1", 2027).leftKg()).isCloseTo(75, within(1e-9));
    assertThat(one(needed, "C-1", 2027).lostKg()).isCloseTo(15, within(1e-9));
    line(needed, "C-1", 2028, 60, 0, 0, 0);
  }

  /** The line was multiplied in 2026, so that 2027 is left out and 2028 is its next harvest. */
  @Test
  void theIntervalRunsFromTheLastMultiplicationOnRecord() {
    Requirements needed =
        Requirements.of(
            PlanTask.of(
                question(2029, Invented.round(2, 1), List.of(demand("H-1", 2028, 100))),
                chain(1),
                List.of(),
                Map.of("C-1", NOW)));
    line(needed, "C-1", 2027, 60, 0, 0, 60);
  }

  /**
   * The mixture has 200 viable kernels on a square metre, 2 million on a hectare. Female: 25 g, 80
   * %: 32,000 viable kernels in a kilogram. Pollinator: 40 g, 90 %: 22,500.
   *
   * <ul>
   *   <li>By mass, 10 %: 0.9 · 32,000 + 0.1 · 22,500 = 31,050 viable kernels in a kilogram of
   *       mixture; 2,000,000 / 31,050 = 64.412 kg, 57.971 of them female and 6.441 pollinator.
   *   <li>By viable kernels, 10 %: 1,800,000 / 32,000 = 56.25 kg and 200,000 / 22,500 = 8.889 kg.
   *   <li>By kernels, 10 %: of N kernels 0.9 · 0.8 + 0.1 · 0.9 = 0.81 are viable, so N = 2,469,136;
   *       2,222,222 of 25 g are 55.556 kg and 246,914 of 40 g are 9.877 kg.
   * </ul>
   */
  @ParameterizedTest
  @CsvSource({
    "MASS, 57.971014, 6.441224",
    "VIABLE_KERNELS, 56.25, 8.888889",
    "KERNELS, 55.555556, 9.876543"
  })
  void theMixtureIsInTheBreedersRatioOnItsBasis(ShareBasis basis, double female, double pollen) {
    MultiplicationChain chain =
        MultiplicationChain.of(List.of(Invented.hybrid(1, "C-1", 10, basis)));
    SeedInputs usual = ROUND.byGeneration().get(Generation.STERILE_SINGLE_CROSS);
    PlanInputs inputs =
        new PlanInputs(
            ROUND.byGeneration(),
            Map.of("SC-1", kernels(usual, 25, 0.8), "C-1", kernels(usual, 40, 0.9)));
    assertThat(SowingRates.kgPerHa(chain.step("H-1"), inputs, id -> inputs.of(chain.step(id))))
        .hasEntrySatisfying("SC-1", kg -> assertThat(kg).isCloseTo(female, within(1e-6)))
        .hasEntrySatisfying("C-1", kg -> assertThat(kg).isCloseTo(pollen, within(1e-6)))
        .hasSize(2);
  }

  private static SeedInputs kernels(SeedInputs of, double weightG, double germination) {
    return new SeedInputs(
        of.yieldKgPerHa(),
        of.cleaningLoss(),
        weightG,
        germination,
        of.viableKernelsPerM2(),
        of.femaleAreaShare(),
        of.minimumStockKg(),
        of.intervalYears(),
        of.carryOverLoss());
  }

  @Test
  void aLineOfTwoHybridsIsNeededForBoth() {
    MultiplicationChain chain =
        MultiplicationChain.of(
            List.of(
                Invented.hybrid(1, "C-9", 5, ShareBasis.MASS),
                Invented.hybrid(2, "C-9", 5, ShareBasis.MASS)));
    Requirements needed =
        Requirements.of(
            PlanTask.of(
                question(2027, ROUND, List.of(demand("H-1", 2027, 100), demand("H-2", 2027, 50))),
                chain,
                List.of(),
                Map.of()));
    line(needed, "C-9", 2026, 90, 0, 0, 90);
  }

  @Property(tries = 200)
  void massClosesInEveryLine(
      @ForAll @IntRange(min = 0, max = 500) int tonnes,
      @ForAll @IntRange(min = 0, max = 3000) int inStore,
      @ForAll @IntRange(min = 1, max = 3) int interval,
      @ForAll @DoubleRange(min = 0.5, max = 1) @Scale(2) double kept) {
    PlanTask task = random(tonnes, inStore, interval, kept);
    Requirements needed = Requirements.of(task);
    for (Requirements.Line line : needed.lines()) {
      assertThat(line.fromStoreKg() + line.harvestKg() + line.missingKg())
          .isCloseTo(line.neededKg() + line.leftKg(), within(1e-6));
      double sown =
          needed.lines().stream()
              .filter(child -> child.year() == line.year() + 1)
              .mapToDouble(child -> child.areaHa() * rate(task, child.seedId(), line.seedId()))
              .sum();
      double wanted =
          task.demands().stream()
              .filter(one -> one.hybridId().equals(line.seedId()) && one.year() == line.year())
              .mapToDouble(PlanTask.Wanted::kg)
              .sum();
      assertThat(line.neededKg()).isCloseTo(sown + wanted, within(1e-6));
      if (line.year() > NOW) {
        Requirements.Line before = one(needed, line.seedId(), line.year() - 1);
        assertThat(line.fromStoreKg()).isCloseTo(before.leftKg() - before.lostKg(), within(1e-6));
      }
    }
  }

  private static double rate(PlanTask task, String child, String parent) {
    return task.seeds().stream()
        .filter(seed -> seed.seedId().equals(child))
        .mapToDouble(seed -> seed.sownKgPerHa(parent))
        .sum();
  }

  @Property(tries = 200)
  void moreDemandNeverNeedsLessAndALostLotNeverHelps(
      @ForAll @IntRange(min = 0, max = 500) int tonnes,
      @ForAll @IntRange(min = 1, max = 100) int more,
      @ForAll @IntRange(min = 1, max = 3000) int inStore,
      @ForAll @IntRange(min = 1, max = 3) int interval,
      @ForAll @DoubleRange(min = 0.5, max = 1) @Scale(2) double kept) {
    Requirements usual = Requirements.of(random(tonnes, inStore, interval, kept));
    Requirements larger = Requirements.of(random(tonnes + more, inStore, interval, kept));
    Requirements poorer = Requirements.of(random(tonnes, 0, interval, kept));
    assertThat(larger.neededKg()).isGreaterThan(usual.neededKg());
    assertThat(larger.missingKg()).isGreaterThanOrEqualTo(usual.missingKg() - 1e-6);
    assertThat(poorer.missingKg()).isGreaterThanOrEqualTo(usual.missingKg() - 1e-6);
  }

  private static PlanTask random(int tonnes, int inStore, int interval, double kept) {
    return PlanTask.of(
        question(
            2031,
            Invented.round(interval, kept),
            List.of(
                demand("H-1", 2027, tonnes / 3.0),
                demand("H-1", 2029, tonnes),
                demand("H-1", 2031, tonnes / 2.0))),
        chain(1),
        List.of(
            lot("L1", "A-1", inStore / 50.0),
            lot("L2", "SC-1", inStore),
            lot("L3", "C-1", inStore / 10.0),
            lot("L4", "H-1", inStore)),
        Map.of("A-1", 2026, "B-1", 2024));
  }

  @Test
  void whatCannotBePlannedIsNamed() {
    assertThatThrownBy(() -> task(2026, List.of(), List.of())).hasMessageContaining("YearOutside");
    assertThatThrownBy(() -> task(2027, List.of(demand("H-2", 2027, 1)), List.of()))
        .hasMessageContaining("UnknownHybrid[hybridId=H-2]");
    assertThatThrownBy(() -> task(2027, List.of(demand("H-1", 2028, 1)), List.of()))
        .hasMessageContaining("YearOutside[field=demand, year=2028");
    assertThatThrownBy(
            () -> task(2027, List.of(demand("H-1", 2027, 1), demand("H-1", 2027, 2)), List.of()))
        .hasMessageContaining("GivenTwice");
    assertThatThrownBy(() -> demand("H-1", 2027, -1))
        .hasMessageContaining("InputOutside[field=tonnes, value=-1");
    assertThatThrownBy(
            () ->
                MultiplicationChain.of(
                    List.of(Invented.hybrid(1, "B-2", 5, ShareBasis.MASS), Invented.hybrid(2))))
        .hasMessageContaining("ToldDifferently[seedId=B-2");
  }

  private static void line(
      Requirements needed,
      String seedId,
      int year,
      double neededKg,
      double harvestKg,
      double areaHa,
      double missingKg) {
    Requirements.Line line = one(needed, seedId, year);
    assertThat(new double[] {line.neededKg(), line.harvestKg(), line.areaHa(), line.missingKg()})
        .as(seedId + " " + year)
        .containsExactly(new double[] {neededKg, harvestKg, areaHa, missingKg}, within(1e-9));
  }

  private static Requirements.Line one(Requirements needed, String seedId, int year) {
    return needed.lines().stream()
        .filter(line -> line.seedId().equals(seedId) && line.year() == year)
        .findFirst()
        .orElseThrow();
  }
}
