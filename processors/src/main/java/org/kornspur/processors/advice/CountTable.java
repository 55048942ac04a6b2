package org.kornspur.processors.advice;

import java.util.ArrayList;
import java.util.List;
import org.kornspur.processors.advice.InspectionAdvice.Terms;
import org.kornspur.processors.statistics.ExactBinomial;
import org.kornspur.processors.statistics.SequentialPlan;

/**
 * Acceptance and reject numbers of a count as a table, for a place where they cannot be calculated:
 * a phone without network. It says of every count what {@link InspectionAdvice} says of it: by the
 * sequential plan up to its end, beyond it by the acceptance number of the exact binomial.
 */
public final class CountTable {
  /** How many times the length of the plan the table reaches; nobody counts so far. */
  private static final int REACH = 4;

  private CountTable() {}

  /**
   * Numbers that hold from so many units on, until the next row.
   *
   * @param units units counted
   * @param acceptAtMost most bad units with which the count ends well; -1 where it cannot yet
   * @param rejectAtLeast fewest bad units with which it ends badly
   */
  public record Row(int units, int acceptAtMost, int rejectAtLeast) {}

  /** The table, from the first unit on, by units. */
  public static List<Row> of(SequentialPlan plan, Terms terms) {
    List<Row> rows = new ArrayList<>();
    for (int units = 1; units <= plan.mostUnits(); units++) {
      add(rows, units, Math.max(-1, plan.acceptAtMost(units)), plan.rejectAtLeast(units));
    }
    int most = Math.multiplyExact(plan.mostUnits(), REACH);
    int units = plan.mostUnits() + 1;
    while (units <= most) {
      int accept = acceptanceNumber(units, plan, terms);
      add(rows, units, accept, accept + 1);
      units = lastWith(accept, units, most, plan, terms) + 1;
    }
    return List.copyOf(rows);
  }

  /** The same, where no count ends well before so many units. */
  public static List<Row> of(SequentialPlan plan, Terms terms, int leastUnits) {
    List<Row> rows = new ArrayList<>();
    Row before = new Row(0, -1, 0);
    for (Row row : of(plan, terms)) {
      if (before.units() < leastUnits && row.units() > leastUnits && before.units() > 0) {
        add(rows, leastUnits, before.acceptAtMost(), before.rejectAtLeast());
      }
      int accept = row.units() < leastUnits ? -1 : row.acceptAtMost();
      add(rows, row.units(), accept, row.rejectAtLeast());
      before = row;
    }
    if (before.units() > 0 && before.units() < leastUnits) {
      add(rows, leastUnits, before.acceptAtMost(), before.rejectAtLeast());
    }
    return List.copyOf(rows);
  }

  private static void add(List<Row> rows, int units, int accept, int reject) {
    if (!rows.isEmpty()) {
      Row last = rows.get(rows.size() - 1);
      if (last.acceptAtMost() == accept && last.rejectAtLeast() == reject) {
        return;
      }
    }
    rows.add(new Row(units, accept, reject));
  }

  /** The acceptance number rises with the units, so halving finds where it rises. */
  private static int lastWith(int accept, int from, int most, SequentialPlan plan, Terms terms) {
    int low = from;
    int high = most + 1;
    while (high - low > 1) {
      int middle = low + (high - low) / 2;
      if (acceptanceNumber(middle, plan, terms) == accept) {
        low = middle;
      } else {
        high = middle;
      }
    }
    return low;
  }

  private static int acceptanceNumber(int units, SequentialPlan plan, Terms terms) {
    return ExactBinomial.acceptanceNumber(units, plan.acceptable(), 1 - terms.alpha());
  }
}
