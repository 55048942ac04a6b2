package org.kornspur.processors.statistics;

import java.math.BigDecimal;
import java.math.RoundingMode;

/**
 * Rounding of test results as they are reported.
 *
 * <p>International Rules for Seed Testing: germination to a whole percent (5.8), purity to one
 * decimal with components under 0.05 % reported as trace (3.6); from memory, not verified. Halves
 * go up: the rules name no other.
 */
public final class Rounding {

  /** Components below this, in percent by weight, are reported as trace. */
  public static final double TRACE_BELOW_PERCENT = 0.05;

  private Rounding() {}

  /** Whole number of steps nearest to a value that is 0 or more, halves up. */
  public static long halfUp(double value, double step) {
    return BigDecimal.valueOf(value)
        .divide(BigDecimal.valueOf(step), 9, RoundingMode.HALF_EVEN)
        .setScale(0, RoundingMode.HALF_UP)
        .longValueExact();
  }

  /** Whole percent, halves up. */
  public static int wholePercent(double percent) {
    return Math.toIntExact(halfUp(percent, 1));
  }

  /** Percent to one decimal, halves up. */
  public static double tenthPercent(double percent) {
    return halfUp(percent, 0.1) / 10.0;
  }

  /** Whether a component was found, but so little of it that it is reported as trace. */
  public static boolean isTrace(double percent) {
    return percent > 0 && percent < TRACE_BELOW_PERCENT;
  }
}
