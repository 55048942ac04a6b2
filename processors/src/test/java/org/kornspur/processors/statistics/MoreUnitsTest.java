package org.kornspur.processors.statistics;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.math.RoundingMode;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;
import org.kornspur.processors.statistics.MoreUnits.State;

class MoreUnitsTest {

  /**
   * None bad settles 1 % at 95 % with 299 units, 2 % with 149: 0.99^299 is the first power under
   * 0.05. The same is the rule of three, 3 / n.
   */
  @Test
  void noneBadNeedsTheKnownNumbers() {
    assertThat(MoreUnits.toSettle(0, 100, 0.01, 0.95).ifNoneBad()).hasValue(199);
    assertThat(MoreUnits.toSettle(0, 100, 0.02, 0.95).ifNoneBad()).hasValue(49);
    assertThat(MoreUnits.toSettle(0, 299, 0.01, 0.95).now()).isEqualTo(State.WITHIN);
  }

  @Test
  void saysWhatIsAlreadySettled() {
    MoreUnits broken = MoreUnits.toSettle(30, 400, 0.02, 0.95);
    assertThat(broken.now()).isEqualTo(State.BROKEN);
    assertThat(broken.ifNoneBad()).isEmpty();
    assertThat(broken.atPresentRate()).isEmpty();
  }

  @Test
  void anEstimateOnTheStandardIsNeverSettledAtItsRate() {
    MoreUnits open = MoreUnits.toSettle(2, 100, 0.02, 0.95);
    assertThat(open.now()).isEqualTo(State.OPEN);
    assertThat(open.atPresentRate()).isEmpty();
    assertThat(open.ifNoneBad()).isPresent();
  }

  /** Checked by counting up one by one. */
  @Property(tries = 60)
  void theNumberIsTheFirstThatSettles(
      @ForAll @IntRange(min = 20, max = 400) int examined,
      @ForAll @IntRange(min = 0, max = 8) int bad) {
    MoreUnits more = MoreUnits.toSettle(bad, examined, 0.02, 0.95);
    if (more.now() == State.OPEN) {
      int n = examined;
      while (ExactBinomial.interval(bad, n, 0.90).upper() > 0.02) {
        n++;
      }
      assertThat(more.ifNoneBad()).hasValue(n - examined);
    }
  }

  /** A count that goes on as it began is settled once that many more were examined. */
  @Property(tries = 60)
  void thePresentRateSettlesWhenItIsSaidTo(
      @ForAll @IntRange(min = 20, max = 400) int examined,
      @ForAll @IntRange(min = 0, max = 30) int found) {
    settlesAtItsRate(Math.min(found, examined), examined);
  }

  /**
   * Every small count, so also those whose rate gives a whole number of bad units further on, which
   * a quotient of doubles misses by a hair: 29 / 400 * 14,000 is 1,014.9999999999999 there.
   */
  @Test
  void thePresentRateSettlesToTheUnit() {
    for (int examined = 20; examined <= 400; examined++) {
      for (int bad = 0; bad <= Math.min(30, examined); bad++) {
        settlesAtItsRate(bad, examined);
      }
    }
  }

  private static void settlesAtItsRate(int bad, int examined) {
    MoreUnits.toSettle(bad, examined, 0.02, 0.95)
        .atPresentRate()
        .ifPresent(
            further -> {
              int units = examined + further;
              RoundingMode againstItsSide =
                  bad < 0.02 * examined ? RoundingMode.CEILING : RoundingMode.FLOOR;
              int then =
                  BigDecimal.valueOf((long) bad * units)
                      .divide(BigDecimal.valueOf(examined), 0, againstItsSide)
                      .intValueExact();
              assertThat(MoreUnits.toSettle(then, units, 0.02, 0.95).now())
                  .as("%d of %d, then %d of %d", bad, examined, then, units)
                  .isNotEqualTo(State.OPEN);
            });
  }
}
