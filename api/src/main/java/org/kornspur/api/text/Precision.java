package org.kornspur.api.text;

import java.math.BigDecimal;
import java.util.Optional;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.standing.VerdictLimit;

/**
 * How many decimals a number has. One that is held against a limit has one more than the limit, and
 * more where it would else seem to lie on the other side of it.
 *
 * @param limit the limit, in {@code unit}; empty where numbers are held against none
 */
record Precision(Optional<Double> limit, String unit) {
  private static final int MOST_DECIMALS = 6;
  private static final String NO_BREAK_SPACE = "\u00a0";

  static final Precision USUAL = new Precision(Optional.empty(), "");

  /** Of what an ancestor's gate found, without its limit. */
  static final Precision OF_DISTANCES = new Precision(Optional.empty(), "m");

  static Precision of(VerdictLimit limit) {
    return limit == null ? USUAL : new Precision(Optional.of(limit.getValue()), limit.getUnit());
  }

  String written(Amount amount, LocalFormat form) {
    if (!amount.unit().equals(unit) || (limit.isEmpty() && unit.isEmpty())) {
      return amount.unit().isEmpty()
          ? form.number(amount.number())
          : form.measure(amount.number(), amount.unit());
    }
    return measure(amount.number(), form);
  }

  /** A number in the unit of the limit. */
  String measure(double number, LocalFormat form) {
    if (limit.isEmpty()) {
      return unit.equals("m")
          ? form.distance(number) + NO_BREAK_SPACE + unit
          : form.measure(number, unit);
    }
    double shown = number * times();
    return withUnit(shown, decimals(shown, limit.get() * times()), form);
  }

  /** How far a number in the unit of the limit lies from it: what the two differ by as shown. */
  String apart(double number, LocalFormat form) {
    double shown = number * times();
    double shownLimit = limit.orElseThrow() * times();
    int decimals = decimals(shown, shownLimit);
    double step = Math.pow(10, decimals);
    double apart = Math.abs(Math.rint(shown * step) - Math.rint(shownLimit * step)) / step;
    return withUnit(apart, decimals, form);
  }

  private String withUnit(double shown, int decimals, LocalFormat form) {
    return form.number(shown, decimals)
        + NO_BREAK_SPACE
        + StatementTexts.in(form.language()).unit(shown, unit);
  }

  /** A share of plants is read more easily for a hundred of them. */
  private double times() {
    return unit.equals("plants/plant") ? 100 : 1;
  }

  private static int decimals(double shown, double shownLimit) {
    int decimals = decimalsFor(shownLimit);
    while (decimals < MOST_DECIMALS && changesSides(shown, shownLimit, decimals)) {
      decimals++;
    }
    return decimals;
  }

  /** One more than the limit has; of a limit that is a quotient three digits. */
  private static int decimalsFor(double limit) {
    int scale = Math.max(0, BigDecimal.valueOf(limit).stripTrailingZeros().scale());
    return scale < MOST_DECIMALS - 1
        ? scale + 1
        : Math.min(MOST_DECIMALS, 2 - (int) Math.floor(Math.log10(Math.abs(limit))));
  }

  private static boolean changesSides(double number, double limit, int decimals) {
    double step = Math.pow(10, decimals);
    double rounded = Math.rint(number * step) / step;
    return Math.signum(number - limit) != Math.signum(rounded - limit);
  }
}
