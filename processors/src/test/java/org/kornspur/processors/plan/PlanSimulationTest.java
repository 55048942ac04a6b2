package org.kornspur.processors.plan;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.kornspur.processors.plan.Invented.NOW;
import static org.kornspur.processors.plan.Invented.ROUND;
import static org.kornspur.processors.plan.Invented.chain;
import static org.kornspur.processors.plan.Invented.demand;
import static org.kornspur.processors.plan.Invented.lot;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.kornspur.processors.statistics.Interval;
import org.kornspur.processors.statistics.TriangularRange;

/** Against the distribution worked out on paper; numbers are invented. */
class PlanSimulationTest {
  private static final int RUNS = 20_000;

  /**
   * 1 ha of H-1: clean yields 3,000, 5,000, 6,000 kg, triangular. All 5,000 kg are there where the
   * yield is at least 5,000 (by 0.1 %: 4,995): 1 − 1,995² / (3,000 · 2,000) = 0.3367. A tenth lies
   * below 3,000 + √(0.1 · 3,000 · 2,000) = 3,774.6 kg, half below 3,000 + √(0.5 · 3,000 · 2,000) =
   * 4,732.1 kg; more than wanted is never sold.
   */
  @Test
  void theChanceOfOneHectareIsThatOfItsYield() {
    PlanTask task =
        Invented.task(
            2027,
            List.of(demand("H-1", 2027, 5)),
            List.of(lot("L1", "SC-1", 57), lot("L2", "C-1", 3)));
    PlanSimulation.Chance chance =
        PlanSimulation.of(task, PlanSolver.solve(task), RUNS, 1).demands().get(0);
    assertThat(chance.chanceMet()).isCloseTo(0.3367, within(0.012));
    assertThat(chance.kg10()).isCloseTo(3774.6, within(40.0));
    assertThat(chance.kg50()).isCloseTo(4732.1, within(30.0));
    assertThat(chance.kg90()).isCloseTo(5000, within(1.0));
  }

  /**
   * The pollinator waits with a chance of 0.8; without it nothing is grown. Where it is fit, the
   * mean of min(yield, 5,000) is sold: 5,000 less ∫ of the part below, (2,000³ / 3) / (3,000 ·
   * 2,000) = 444.4, so 4,555.6 kg; that much is missing where it is not.
   */
  @Test
  void theRiskOfALotIsWhatIsMissingWithoutIt() {
    PlanTask task =
        Invented.task(
            2027,
            List.of(demand("H-1", 2027, 5)),
            List.of(
                lot("L1", "SC-1", 57),
                new SupplyLot(
                    "L2",
                    "C-1",
                    10,
                    NOW,
                    Optional.of(new FitChance(0.8, new Interval(0.6, 0.9, 0.9))))));
    PlanSimulation simulation = PlanSimulation.of(task, PlanSolver.solve(task), RUNS, 2);
    assertThat(simulation.demands().get(0).kg10()).isZero();
    assertThat(simulation.lots())
        .singleElement()
        .satisfies(
            risk -> {
              assertThat(risk.ifNotFitKg()).isCloseTo(4555.6, within(25.0));
              assertThat(risk.riskKg()).isCloseTo(0.2 * 4555.6, within(5.0));
            });
  }

  @Test
  void theSameSeedGivesTheSameAnswer() {
    PlanTask task = PlanSolverTest.whole(List.of(100, 200, 150, 300, 250, 90), 1);
    SeedPlan plan = PlanSolver.solve(task);
    PlanSimulation one = PlanSimulation.of(task, plan, 200, 5);
    assertThat(PlanSimulation.of(task, plan, 200, 5)).isEqualTo(one);
    assertThat(PlanSimulation.of(task, plan, 200, 6)).isNotEqualTo(one);
  }

  /** Where nothing is uncertain, every run is the plan itself. */
  @Test
  void withSureYieldsEveryRunIsThePlan() {
    PlanTask uncertain = PlanSolverTest.whole(List.of(100, 200, 150, 300, 250, 90), 1);
    PlanTask task =
        new PlanTask(
            uncertain.firstYear(),
            uncertain.lastYear(),
            uncertain.seeds().stream().map(PlanSimulationTest::sure).toList(),
            uncertain.demands(),
            uncertain.lots(),
            List.of(),
            List.of());
    SeedPlan plan = PlanSolver.solve(task);
    PlanSimulation simulation = PlanSimulation.of(task, plan, 3, 1);
    double sold = plan.demands().stream().mapToDouble(SeedPlan.Met::soldKg).sum();
    assertThat(simulation.demands().stream().mapToDouble(PlanSimulation.Chance::kg50).sum())
        .isCloseTo(sold, within(sold * 1e-3 + 1));
  }

  private static GrownSeed sure(GrownSeed seed) {
    return new GrownSeed(
        seed.seedId(),
        seed.generation(),
        TriangularRange.exactly(seed.cleanKgPerHa()),
        seed.sownKgPerHa(),
        seed.kept(),
        seed.minimumStockKg(),
        seed.harvestYears(),
        seed.isHeldByInterval());
  }

  @Test
  void aPlanWithoutDemandHasNoChances() {
    PlanTask task =
        PlanTask.of(Invented.question(2028, ROUND, List.of()), chain(1), List.of(), Map.of());
    assertThat(PlanSimulation.of(task, PlanSolver.solve(task), 10, 1).demands()).isEmpty();
  }
}
