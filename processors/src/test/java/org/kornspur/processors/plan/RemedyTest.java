package org.kornspur.processors.plan;

import static org.assertj.core.api.Assertions.assertThat;
import static org.kornspur.processors.plan.Invented.NOW;
import static org.kornspur.processors.plan.Invented.demand;
import static org.kornspur.processors.plan.Invented.lot;
import static org.kornspur.processors.plan.Invented.task;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.statistics.Interval;

/**
 * Last days of sowing: rye is sown until the end of October, common practice, no source. Numbers
 * are invented.
 */
class RemedyTest {

  /**
   * The single cross in store is used. It can be had from elsewhere until October of the year
   * before the harvest; the lot that waits for half its chance would bring the other half.
   */
  @Test
  void untilTheLastSowingMoreCanBeSownBroughtAndDecided() {
    SupplyLot waiting =
        new SupplyLot(
            "L3", "SC-1", 40, NOW, Optional.of(new FitChance(0.5, new Interval(0.3, 0.7, 0.9))));
    PlanTask task =
        task(
            NOW + 1,
            List.of(demand("H-1", NOW + 1, 20)),
            List.of(lot("L1", "SC-1", 57), lot("L2", "C-1", 30), waiting));
    assertThat(remedies(task, LocalDate.of(NOW, 9, 1)))
        .containsExactly(
            new Remedy.Sow("H-1", NOW + 1, LocalDate.of(NOW, 10, 31)),
            new Remedy.Bring("SC-1", LocalDate.of(NOW, 10, 31)),
            new Remedy.Decide(Subject.lot("L3"), "SC-1", Amount.kilograms(20)),
            new Remedy.Buy("H-1", NOW + 1));
    assertThat(remedies(task, LocalDate.of(NOW, 10, 31))).hasSize(4);
  }

  @Test
  void afterTheLastSowingNothingCanBeSown() {
    PlanTask task =
        task(
            NOW + 1,
            List.of(demand("H-1", NOW + 1, 20)),
            List.of(lot("L1", "SC-1", 57), lot("L2", "C-1", 30)));
    assertThat(remedies(task, LocalDate.of(NOW, 11, 1)))
        .containsExactly(new Remedy.Buy("H-1", NOW + 1));
  }

  /** Two harvests ahead the single cross itself can still be grown, if its lines are there. */
  @Test
  void seedOfAnEarlierGenerationIsNamedWithItsOwnLastDay() {
    PlanTask task =
        task(
            NOW + 2,
            List.of(demand("H-1", NOW + 2, 2_000)),
            List.of(lot("L1", "SC-1", 57), lot("L2", "C-1", 3_000), lot("L3", "A-1", 5)));
    assertThat(remedies(task, LocalDate.of(NOW, 9, 1)))
        .contains(
            new Remedy.Sow("H-1", NOW + 2, LocalDate.of(NOW + 1, 10, 31)),
            new Remedy.Sow("SC-1", NOW + 1, LocalDate.of(NOW, 10, 31)));
  }

  @Test
  void aDemandThatIsMetNeedsNothing() {
    PlanTask task = task(NOW + 1, List.of(demand("H-1", NOW, 0.001)), List.of(lot("L1", "H-1", 9)));
    assertThat(remedies(task, LocalDate.of(NOW, 9, 1))).isEmpty();
  }

  private static List<Remedy> remedies(PlanTask task, LocalDate today) {
    return Remedy.of(task, PlanSolver.solve(task).demands().get(0), today);
  }
}
