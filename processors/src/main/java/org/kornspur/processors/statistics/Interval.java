package org.kornspur.processors.statistics;

/**
 * A two-sided confidence interval.
 *
 * @param lower lower end, in the unit of what was estimated
 * @param upper upper end
 * @param confidence probability, between 0 and 1, with which such intervals hold the true value
 */
public record Interval(double lower, double upper, double confidence) {

  /**
   * @throws IllegalArgumentException where the ends are not in order or the confidence is not
   *     between 0 and 1
   */
  public Interval {
    if (!(lower <= upper)) {
      throw new IllegalArgumentException(
          "An interval runs from its lower to its upper end, not from " + lower + " to " + upper);
    }
    Preconditions.probability("confidence", confidence);
  }

  /** Whether the value lies within the interval, ends included. */
  public boolean contains(double value) {
    return lower <= value && value <= upper;
  }
}
