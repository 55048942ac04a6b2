package org.kornspur.processors.statistics;

import static org.assertj.core.api.Assertions.assertThat;

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
      while (ExactBinomial.upperLimit(bad, n, 0.05) > 0.02) {
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
    int bad = Math.min(found, examined);
    MoreUnits more = MoreUnits.toSettle(bad, examined, 0.02, 0.95);
    more.atPresentRate()
        .ifPresent(
            further -> {
              int n = examined + further;
              double rate = (double) bad / examined;
              int then = (int) (rate < 0.02 ? Math.ceil(rate * n) : Math.floor(rate * n));
              State settled = MoreUnits.toSettle(then, n, 0.02, 0.95).now();
              assertThat(settled).isNotEqualTo(State.OPEN);
            });
  }
}
