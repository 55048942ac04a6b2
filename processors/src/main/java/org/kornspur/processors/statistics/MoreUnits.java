package org.kornspur.processors.statistics;

import java.util.OptionalInt;
import java.util.function.IntPredicate;

/**
 * What more counting would settle.
 *
 * <p>A count is settled when the one-sided exact limit on its side of the standard has passed it:
 * the upper limit no higher than the standard (clearly within), or the lower limit above it
 * (clearly broken). Until then the count agrees with either.
 *
 * @param now what the count says as it stands
 * @param ifNoneBad further units that settle it as within, if none of them is bad; empty where it
 *     is settled or would take more than {@link #MOST_UNITS} units
 * @param atPresentRate further units that settle it, on the side that the estimate lies, if they
 *     are as good or bad as those counted; empty where it is settled, where the estimate lies on
 *     the standard, or where it would take more than {@link #MOST_UNITS} units
 */
public record MoreUnits(State now, OptionalInt ifNoneBad, OptionalInt atPresentRate) {

  /** Beyond this many units nobody counts. */
  public static final int MOST_UNITS = 10_000_000;

  /** What a count says of a standard. */
  public enum State {
    WITHIN,
    OPEN,
    BROKEN
  }

  /**
   * What more counting would settle, from the count so far.
   *
   * @param bad bad units found
   * @param examined units examined
   * @param standard greatest share of bad units
   * @param confidence one-sided, as in 0.95
   * @throws IllegalArgumentException where the count does not fit the number examined
   */
  public static MoreUnits toSettle(int bad, int examined, double standard, double confidence) {
    Preconditions.count(bad, examined);
    Preconditions.probability("standard", standard);
    Preconditions.probability("confidence", confidence);
    State now = state(bad, examined, standard, confidence);
    if (now != State.OPEN) {
      return new MoreUnits(now, OptionalInt.empty(), OptionalInt.empty());
    }
    OptionalInt ifNoneBad =
        first(examined, n -> state(bad, n, standard, confidence) == State.WITHIN);
    double rate = (double) bad / examined;
    boolean good = rate < standard;
    State settled = good ? State.WITHIN : State.BROKEN;
    OptionalInt atPresentRate =
        rate == standard
            ? OptionalInt.empty()
            : first(
                examined,
                n -> state(badAmong(n, bad, examined, good), n, standard, confidence) == settled);
    return new MoreUnits(now, ifNoneBad, atPresentRate);
  }

  private static State state(int bad, int examined, double standard, double confidence) {
    double tail = 1 - confidence;
    if (ExactBinomial.atMost(bad, examined, standard) <= tail) {
      return State.WITHIN;
    }
    return ExactBinomial.atLeast(bad, examined, standard) <= tail ? State.BROKEN : State.OPEN;
  }

  /**
   * Bad units among more units, at the rate of those counted: rounded against the side that would
   * be settled, so that the number is enough. In whole numbers, since a product of fractions that
   * falls just beside a whole one would be a unit off.
   */
  private static int badAmong(int units, int bad, int examined, boolean good) {
    long scaled = (long) bad * units;
    return Math.toIntExact(
        good ? -Math.floorDiv(-scaled, (long) examined) : Math.floorDiv(scaled, (long) examined));
  }

  /** Doubles, then halves: what settles at n settles beyond n, but for the rounding of one unit. */
  private static OptionalInt first(int examined, IntPredicate settled) {
    int low = examined;
    long step = 1;
    int high = examined;
    while (!settled.test(high)) {
      low = high;
      if ((long) high + step - examined > MOST_UNITS) {
        return OptionalInt.empty();
      }
      high = Math.toIntExact(high + step);
      step *= 2;
    }
    while (high - low > 1) {
      int middle = low + (high - low) / 2;
      if (settled.test(middle)) {
        high = middle;
      } else {
        low = middle;
      }
    }
    return OptionalInt.of(high - examined);
  }
}
