package org.kornspur.processors.advice;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import org.kornspur.ingest.statement.Value.Amount;

/** Rounds numbers to the figures that matter to a reader. */
final class SignificantFigures {
  private static final MathContext TWO = new MathContext(2, RoundingMode.HALF_UP);

  private SignificantFigures() {}

  static Amount number(double value) {
    return new Amount(value, "");
  }

  /** A share as percent, to a tenth; small shares keep two figures. */
  static Amount percent(double share) {
    BigDecimal percent = BigDecimal.valueOf(100 * share);
    BigDecimal shown =
        100 * share >= 1 ? percent.setScale(1, RoundingMode.HALF_UP) : percent.round(TWO);
    return Amount.percent(shown.doubleValue());
  }
}
