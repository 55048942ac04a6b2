package org.kornspur.processors.verdict;

import java.util.Optional;

/**
 * A value as a gate found it.
 *
 * @param value the value, in {@code unit}
 * @param unit its unit, as in the limit that it is held against
 * @param margin room left to the limit in the same unit; negative where the limit is broken
 * @param interval what the value may truly be, given how much was counted; empty where it is exact
 */
public record Measured(double value, String unit, double margin, Optional<Interval> interval) {

  /** A value without an interval. */
  public static Measured exact(double value, String unit, double margin) {
    return new Measured(value, unit, margin, Optional.empty());
  }

  /** A two-sided confidence interval; {@code confidence} lies between 0 and 1. */
  public record Interval(double lower, double upper, double confidence) {}
}
