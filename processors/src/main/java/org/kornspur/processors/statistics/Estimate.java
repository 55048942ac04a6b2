package org.kornspur.processors.statistics;

/**
 * A measured value with its standard error.
 *
 * @param value the value
 * @param standardError its standard error in the same unit, 0 where it is exact
 * @param measurement what it was measured by; estimates of one measurement err together. Empty
 *     where it was measured by itself
 */
public record Estimate(double value, double standardError, String measurement) {

  /**
   * @throws IllegalArgumentException where the value is not above 0 or the error is below 0
   */
  public Estimate {
    Preconditions.positive("value", value);
    if (!(standardError >= 0)) {
      throw new IllegalArgumentException("A standard error is 0 or more; it is " + standardError);
    }
  }

  /** A value that was measured by itself. */
  public Estimate(double value, double standardError) {
    this(value, standardError, "");
  }

  /** A value without error. */
  public static Estimate exact(double value) {
    return new Estimate(value, 0);
  }

  /** Variance of the logarithm, by the delta method. */
  double relativeVariance() {
    return standardError * standardError / (value * value);
  }
}
