package org.kornspur.processors.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.math.MathContext;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Scale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.processors.PublishedChecks;

class ExactBinomialTest {

  private final PublishedChecks checks = PublishedChecks.of("statistics");

  /** Closed forms: none of n bad gives 0 to 1 - 0.025^(1/n); all bad is its mirror. */
  @ParameterizedTest
  @CsvSource({"1", "20", "400", "30000"})
  void givesTheClosedFormWhereNoneOrAllAreBad(int examined) {
    double upper = 1 - Math.pow(0.025, 1.0 / examined);
    assertThat(ExactBinomial.interval(0, examined, 0.95).upper()).isCloseTo(upper, within(1e-12));
    assertThat(ExactBinomial.interval(0, examined, 0.95).lower()).isZero();
    assertThat(ExactBinomial.interval(examined, examined, 0.95).lower())
        .isCloseTo(1 - upper, within(1e-12));
    assertThat(ExactBinomial.interval(examined, examined, 0.95).upper()).isEqualTo(1);
  }

  /**
   * Exact limits as the table of 95 % limits in statistical textbooks prints them: 5 of 10 and 1 of
   * 10 and 10 of 100 (from memory, not verified).
   */
  @ParameterizedTest
  @CsvSource({"5, 10, 0.1871, 0.8129", "1, 10, 0.0025, 0.4450", "10, 100, 0.0490, 0.1762"})
  void agreesWithThePrintedLimits(int bad, int examined, double lower, double upper) {
    Interval ours = ExactBinomial.interval(bad, examined, 0.95);
    String source = "Clopper-Pearson limits as printed in textbooks (from memory, not verified)";
    String check = bad + " of " + examined + ", 95 %, ";
    checks.close(check + "lower", lower, round4(ours.lower()), 1e-9, source);
    checks.close(check + "upper", upper, round4(ours.upper()), 1e-9, source);
  }

  @Property(tries = 200)
  void limitsLeaveExactlyTheTailOnEachSide(
      @ForAll @IntRange(min = 1, max = 3000) int examined,
      @ForAll @DoubleRange(min = 0, max = 1) @Scale(6) double part) {
    int bad = (int) Math.round(part * examined);
    Interval interval = ExactBinomial.interval(bad, examined, 0.95);
    assertThat(interval.contains((double) bad / examined)).isTrue();
    if (bad > 0) {
      assertThat(ExactBinomial.atLeast(bad, examined, interval.lower()))
          .isCloseTo(0.025, within(1e-5));
    }
    if (bad < examined) {
      assertThat(ExactBinomial.atMost(bad, examined, interval.upper()))
          .isCloseTo(0.025, within(1e-5));
    }
  }

  @ParameterizedTest
  @CsvSource({"0, 35, 0.01", "1, 35, 0.01", "2, 36, 0.01", "3, 150, 0.033", "60, 400, 0.15"})
  void cumulativeProbabilityAgreesWithExactFractions(int bad, int examined, String share) {
    BigDecimal sum = BigDecimal.ZERO;
    for (int k = 0; k <= bad; k++) {
      sum = sum.add(term(k, examined, new BigDecimal(share)));
    }
    assertThat(ExactBinomial.atMost(bad, examined, Double.parseDouble(share)))
        .isCloseTo(sum.doubleValue(), within(1e-12));
    assertThat(ExactBinomial.atLeast(bad + 1, examined, Double.parseDouble(share)))
        .isCloseTo(BigDecimal.ONE.subtract(sum).doubleValue(), within(1e-12));
  }

  @Property(tries = 300)
  void acceptanceNumberIsTheSmallestThatAcceptsOftenEnough(
      @ForAll @IntRange(min = 1, max = 2000) int examined,
      @ForAll @DoubleRange(min = 0.0005, max = 0.3) @Scale(6) double standard) {
    int most = ExactBinomial.acceptanceNumber(examined, standard, 0.95);
    assertThat(ExactBinomial.atMost(most, examined, standard)).isGreaterThanOrEqualTo(0.95);
    if (most > 0) {
      assertThat(ExactBinomial.atMost(most - 1, examined, standard)).isLessThan(0.95);
    }
  }

  @Property(tries = 200)
  void rejectNumberFollowsTheAcceptanceNumber(
      @ForAll @IntRange(min = 1, max = 2000) int examined,
      @ForAll @DoubleRange(min = 0.0005, max = 0.3) @Scale(6) double standard) {
    assertThat(ExactBinomial.rejectNumber(examined, standard, 0.05))
        .isEqualTo(ExactBinomial.acceptanceNumber(examined, standard, 0.95) + 1);
  }

  @Property(tries = 200)
  void moreBadUnitsNeverHelp(
      @ForAll @IntRange(min = 2, max = 2000) int examined,
      @ForAll @DoubleRange(min = 0, max = 0.999) @Scale(6) double part) {
    int bad = (int) (part * examined);
    Interval fewer = ExactBinomial.interval(bad, examined, 0.95);
    Interval more = ExactBinomial.interval(bad + 1, examined, 0.95);
    assertThat(more.lower()).isGreaterThan(fewer.lower());
    assertThat(more.upper()).isGreaterThanOrEqualTo(fewer.upper());
  }

  @Test
  void refusesACountThatDoesNotFit() {
    assertThatThrownBy(() -> ExactBinomial.interval(11, 10, 0.95))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("from 0 to the 10 examined; it is 11");
    assertThatThrownBy(() -> ExactBinomial.interval(1, 10, 95))
        .hasMessageContaining("confidence must lie between 0 and 1");
  }

  private static BigDecimal term(int k, int n, BigDecimal p) {
    BigInteger choose = BigInteger.ONE;
    for (int i = 1; i <= k; i++) {
      choose = choose.multiply(BigInteger.valueOf(n - k + i)).divide(BigInteger.valueOf(i));
    }
    MathContext digits = new MathContext(60);
    return new BigDecimal(choose)
        .multiply(p.pow(k, digits))
        .multiply(BigDecimal.ONE.subtract(p).pow(n - k, digits));
  }

  private static double round4(double value) {
    return Math.round(value * 1e4) / 1e4;
  }
}
