package org.kornspur.processors.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.processors.PublishedChecks;
import org.kornspur.processors.statistics.SequentialPlan.Decision;

class SequentialPlanTest {

  private final PublishedChecks checks = PublishedChecks.of("statistics");

  /** Every one of the 2^14 ways that 14 plants can be good or bad, followed plant by plant. */
  @ParameterizedTest
  @CsvSource({"0.1, 0.4", "0.05, 0.3", "0.2, 0.6"})
  void performanceAgreesWithEnumerationOfEveryPath(double acceptable, double rejectable) {
    SequentialPlan plan = new SequentialPlan(acceptable, rejectable, 0.1, 0.1, 14);
    for (double share : new double[] {0, 0.05, acceptable, 0.3, rejectable, 1}) {
      double acceptance = 0;
      double units = 0;
      for (int path = 0; path < 1 << 14; path++) {
        int bad = 0;
        int end = 0;
        Decision decision = Decision.GO_ON;
        while (decision == Decision.GO_ON) {
          bad += path >> end & 1;
          end++;
          decision = plan.after(end, bad);
        }
        double probability = 1;
        for (int i = 0; i < 14; i++) {
          probability *= (path >> i & 1) == 1 ? share : 1 - share;
        }
        acceptance += decision == Decision.ACCEPT ? probability : 0;
        units += end * probability;
      }
      SequentialPlan.Performance exact = plan.at(share);
      assertThat(exact.acceptance()).isCloseTo(acceptance, within(1e-10));
      assertThat(exact.expectedUnits()).isCloseTo(units, within(1e-9));
    }
  }

  @ParameterizedTest
  @CsvSource({
    "0.002, 0.010, 0.05, 0.05",
    "0.001, 0.01, 0.05, 0.10",
    "0.01, 0.04, 0.05, 0.05",
    "0.02, 0.05, 0.05, 0.05"
  })
  void exactRisksDoNotExceedTheNominalOnes(double p0, double p1, double alpha, double beta) {
    SequentialPlan plan = SequentialPlan.keepingRisks(p0, p1, alpha, beta);
    assertThat(plan.producersRisk()).isLessThanOrEqualTo(alpha);
    assertThat(plan.consumersRisk()).isLessThanOrEqualTo(beta);
    String check = "sequential plan %s / %s ends by %d units".formatted(p0, p1, plan.mostUnits());
    checks.shown(
        check + ": producer's risk", "at most " + alpha, plan.producersRisk(), "Wald 1945");
    checks.shown(check + ": consumer's risk", "at most " + beta, plan.consumersRisk(), "Wald 1945");
  }

  /** One unit earlier, one of the risks would be exceeded. */
  @Test
  void theEndIsTheEarliestThatKeepsTheRisks() {
    SequentialPlan plan = SequentialPlan.keepingRisks(0.01, 0.04, 0.05, 0.05);
    SequentialPlan shorter = new SequentialPlan(0.01, 0.04, 0.05, 0.05, plan.mostUnits() - 1);
    assertThat(shorter.producersRisk() > 0.05 || shorter.consumersRisk() > 0.05).isTrue();
  }

  @Test
  void worseCropsAreAcceptedLessOftenAndMoreBadPlantsNeverHelp() {
    SequentialPlan plan = SequentialPlan.keepingRisks(0.002, 0.01, 0.05, 0.05);
    double before = 1;
    for (double share = 0.0; share <= 0.03; share += 0.0005) {
      double acceptance = plan.at(share).acceptance();
      assertThat(acceptance).isLessThanOrEqualTo(before + 1e-12);
      before = acceptance;
    }
    for (int examined = 1; examined <= plan.mostUnits(); examined += 7) {
      Decision last = Decision.ACCEPT;
      for (int bad = 0; bad <= Math.min(examined, 30); bad++) {
        Decision here = plan.after(examined, bad);
        assertThat(order(here)).isGreaterThanOrEqualTo(order(last));
        last = here;
      }
      assertThat(examined < plan.mostUnits() || last != Decision.GO_ON).isTrue();
    }
  }

  /**
   * A crop far better than it must be is settled with far fewer plants than a fixed sample needs.
   */
  @Test
  void clearCropsNeedFewerPlants() {
    SequentialPlan plan = SequentialPlan.keepingRisks(0.002, 0.01, 0.05, 0.05);
    int fixed = 1;
    while (ExactBinomial.atMost(ExactBinomial.acceptanceNumber(fixed, 0.002, 0.95), fixed, 0.01)
        > 0.05) {
      fixed++;
    }
    assertThat(plan.at(0.0001).expectedUnits()).isLessThan(fixed * 0.6);
    assertThat(plan.at(0.05).expectedUnits()).isLessThan(fixed * 0.3);
  }

  @Test
  void simulationAgrees() {
    SequentialPlan plan = SequentialPlan.keepingRisks(0.01, 0.04, 0.05, 0.05);
    SplittableRandom random = new SplittableRandom(20261125);
    int accepted = 0;
    int runs = 20_000;
    for (int run = 0; run < runs; run++) {
      int bad = 0;
      int examined = 0;
      Decision decision = Decision.GO_ON;
      while (decision == Decision.GO_ON) {
        examined++;
        bad += random.nextDouble() < 0.02 ? 1 : 0;
        decision = plan.after(examined, bad);
      }
      accepted += decision == Decision.ACCEPT ? 1 : 0;
    }
    double exact = plan.at(0.02).acceptance();
    double error = Math.sqrt(exact * (1 - exact) / runs);
    assertThat((double) accepted / runs).isCloseTo(exact, within(4 * error));
  }

  @Test
  void refusesSharesThatAreNotInOrder() {
    assertThatThrownBy(() -> SequentialPlan.keepingRisks(0.05, 0.01, 0.05, 0.05))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("must lie above the acceptable share 0.05");
  }

  private static int order(Decision decision) {
    return switch (decision) {
      case ACCEPT -> 0;
      case GO_ON -> 1;
      case REJECT -> 2;
    };
  }
}
