package org.kornspur.processors.advice;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;

/** Numbers as they stand in sentences for a person: point as decimal mark in every locale. */
final class Figures {
  private static final MathContext FOUR = new MathContext(4, RoundingMode.HALF_UP);

  private Figures() {}

  /** A number with at most four figures; whole numbers stay whole. */
  static String number(double value) {
    if (value == Math.rint(value) && Math.abs(value) < 1e15) {
      return Long.toString((long) value);
    }
    return BigDecimal.valueOf(value).round(FOUR).stripTrailingZeros().toPlainString();
  }

  /** A share as percent, to a tenth; small shares keep two figures. */
  static String percent(double share) {
    double percent = 100 * share;
    BigDecimal exact = BigDecimal.valueOf(percent);
    BigDecimal shown =
        percent >= 1 || percent == 0
            ? exact.setScale(1, RoundingMode.HALF_UP)
            : exact.round(new MathContext(2, RoundingMode.HALF_UP));
    return shown.stripTrailingZeros().toPlainString() + " %";
  }

  /** Kilograms to the gram. */
  static String kilograms(double massKg) {
    return BigDecimal.valueOf(massKg)
            .setScale(3, RoundingMode.HALF_UP)
            .stripTrailingZeros()
            .toPlainString()
        + " kg";
  }
}
