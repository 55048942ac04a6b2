package org.kornspur.processors.advice;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.processors.advice.InspectionAdvice.Terms;
import org.kornspur.processors.statistics.SequentialPlan;
import org.kornspur.processors.statistics.SequentialPlan.Decision;

/** The table against the plan and the binomial themselves, count by count. */
class CountTableTest {

  @ParameterizedTest
  @CsvSource({"0.02, 2", "0.02, 3", "0.001, 3", "0.05, 2"})
  void theTableSaysOfEveryCountWhatTheAdviceSays(double acceptable, double multiple) {
    Terms terms = new Terms(0.05, 0.05, multiple);
    SequentialPlan plan =
        SequentialPlan.keepingRisks(acceptable, multiple * acceptable, terms.alpha(), terms.beta());
    List<CountTable.Row> rows = CountTable.of(plan, terms);
    int next = 0;
    CountTable.Row row = rows.get(0);
    assertThat(row.units()).isEqualTo(1);
    for (int units = 1; units <= 4 * plan.mostUnits(); units++) {
      if (next < rows.size() && rows.get(next).units() == units) {
        row = rows.get(next);
        next++;
      }
      for (int bad : List.of(row.acceptAtMost(), row.acceptAtMost() + 1, row.rejectAtLeast() - 1)) {
        check(units, bad, row, acceptable, terms, plan);
      }
      check(units, row.rejectAtLeast(), row, acceptable, terms, plan);
    }
    assertThat(next).isEqualTo(rows.size());
  }

  private static void check(
      int units, int bad, CountTable.Row row, double acceptable, Terms terms, SequentialPlan plan) {
    if (bad < 0 || bad > units) {
      return;
    }
    Decision byTable =
        bad <= row.acceptAtMost()
            ? Decision.ACCEPT
            : bad >= row.rejectAtLeast() ? Decision.REJECT : Decision.GO_ON;
    // an assertion that describes itself, for each of a million counts, would take minutes
    if (InspectionAdvice.decision(units, bad, acceptable, terms, Optional.of(plan)) != byTable) {
      assertThat(InspectionAdvice.decision(units, bad, acceptable, terms, Optional.of(plan)))
          .as("%d bad among %d", bad, units)
          .isEqualTo(byTable);
    }
  }

  /** By hand: the same row by row, but that nothing is accepted before the least sample. */
  @Test
  void nothingEndsWellBeforeTheLeastSample() {
    Terms terms = new Terms(0.05, 0.1, 3);
    SequentialPlan plan = SequentialPlan.keepingRisks(0.02, 0.06, 0.05, 0.1);
    for (int least : new int[] {1, 100, 151, plan.mostUnits() + 7}) {
      List<CountTable.Row> rows = CountTable.of(plan, terms, least);
      List<CountTable.Row> free = CountTable.of(plan, terms);
      for (int units = 1; units < plan.mostUnits() * 2; units++) {
        CountTable.Row held = at(rows, units);
        assertThat(held.rejectAtLeast()).isEqualTo(at(free, units).rejectAtLeast());
        assertThat(held.acceptAtMost())
            .isEqualTo(units < least ? -1 : at(free, units).acceptAtMost());
      }
    }
  }

  private static CountTable.Row at(List<CountTable.Row> rows, int units) {
    return rows.stream()
        .filter(row -> row.units() <= units)
        .reduce((earlier, later) -> later)
        .orElseThrow();
  }
}
