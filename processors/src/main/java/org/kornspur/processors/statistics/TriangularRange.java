package org.kornspur.processors.statistics;

/**
 * An uncertain parameter as a triangular distribution: its least, most likely and greatest value.
 *
 * @param least least value that is thought possible
 * @param likely most likely value
 * @param greatest greatest value that is thought possible
 */
public record TriangularRange(double least, double likely, double greatest) {

  /**
   * @throws IllegalArgumentException where the values are not in order
   */
  public TriangularRange {
    if (!(least <= likely && likely <= greatest)) {
      throw new IllegalArgumentException(
          "Least, likely and greatest must be in order; they are %s, %s, %s"
              .formatted(least, likely, greatest));
    }
  }

  /** A value that is known without error. */
  public static TriangularRange exactly(double value) {
    return new TriangularRange(value, value, value);
  }

  /** The value below which the distribution holds {@code part}, from 0 to 1. */
  public double quantile(double part) {
    double width = greatest - least;
    if (width == 0) {
      return least;
    }
    double rising = (likely - least) / width;
    return part < rising
        ? least + Math.sqrt(part * width * (likely - least))
        : greatest - Math.sqrt((1 - part) * width * (greatest - likely));
  }
}
