package org.kornspur.processors.gates;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;

/** Numbers as they stand in sentences for a person. */
final class Wording {
  private static final MathContext SIX_FIGURES = new MathContext(6, RoundingMode.HALF_UP);

  private Wording() {}

  /** A number with at most six figures and no trailing zeros; whole numbers stay whole. */
  static String number(double value) {
    if (value == Math.rint(value) && Math.abs(value) < 1e15) {
      return Long.toString((long) value);
    }
    return new BigDecimal(value).round(SIX_FIGURES).stripTrailingZeros().toPlainString();
  }

  /** A share as percent. */
  static String percent(double share) {
    return number(100 * share) + " %";
  }
}
