package org.kornspur.processors.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.kornspur.processors.PublishedChecks;
import org.kornspur.processors.statistics.ReplicateRangeTheory.Cell;

class ReplicateRangeTheoryTest {

  private final PublishedChecks checks = PublishedChecks.of("statistics");

  /**
   * The range of two normal values is their difference: its quantile is root 2 times a normal one.
   * 3.98 for four is the upper 2.5 % point of the range in printed tables (from memory).
   */
  @Test
  void normalTheoryHasTheKnownQuantiles() {
    double half = ReplicateRangeTheory.normal(50, 2) / 5;
    assertThat(half).isCloseTo(Math.sqrt(2) * 2.241402727604945, within(1e-6));
    checks.close(
        "upper 2.5 % point of the range of four standard normal values",
        3.98,
        ReplicateRangeTheory.normal(50, 4) / 5,
        0.005,
        "printed tables of the range (from memory, not verified)");
  }

  /** Counted one by one for two replicates: all ways to split the seedlings. */
  @Test
  void exactTheoryAgreesWithEnumeration() {
    for (int seedlings : new int[] {1, 40, 150, 197}) {
      for (int range = 0; range <= 20; range++) {
        double ways = 0;
        for (int a = Math.max(0, seedlings - 100); a <= Math.min(100, seedlings); a++) {
          int b = seedlings - a;
          if (Math.abs(a - b) <= range) {
            ways += choose(a) * choose(b);
          }
        }
        assertThat(ReplicateRangeTheory.waysOfRange(range, 2, seedlings))
            .isCloseTo(ways, within(ways * 1e-9 + 1e-9));
      }
    }
  }

  /** The table governs; the report shows where theory would have said otherwise. */
  @Test
  void showsWhereTheTableAndTheoryDiffer() {
    List<Cell> ofFour = ReplicateRangeTheory.cells(ReplicateTolerance.tableOfFour(), 4);
    List<Cell> ofTwo = ReplicateRangeTheory.cells(ReplicateTolerance.tableOfTwo(), 2);
    show("four", ofFour);
    show("two", ofTwo);
    assertThat(ofFour)
        .filteredOn(cell -> cell.meanPercent() > 50 && cell.published() != cell.normal())
        .extracting(Cell::meanPercent)
        .as("means at which 3.98 times the binomial deviation, rounded, misses the table")
        .contains(99, 94, 84);
    assertThat(ofFour)
        .filteredOn(cell -> cell.meanPercent() > 50)
        .allSatisfy(
            cell -> assertThat(cell.exact()).isBetween(cell.published() - 2, cell.published() + 1));
  }

  private void show(String replicates, List<Cell> cells) {
    cells.stream()
        .filter(cell -> cell.meanPercent() > 50 && cell.differs())
        .forEach(
            cell ->
                checks.shown(
                    "theory beside the table, range of %s, mean %d %%: the table governs"
                        .formatted(replicates, cell.meanPercent()),
                    cell.published(),
                    "normal %d, exact %d".formatted(cell.normal(), cell.exact()),
                    "7 CFR 201.55(a); theory computed at a risk of 2.5 %"));
  }

  private static double choose(int k) {
    double ways = 1;
    for (int i = 1; i <= k; i++) {
      ways = ways * (100 - k + i) / i;
    }
    return ways;
  }
}
