package org.kornspur.processors.ground;

import org.locationtech.jts.geom.Coordinate;

/**
 * A prevailing wind, an assumption of whoever asks. What flies into a direction is 1 + b cos(angle
 * to the wind) times what flies there without it, so that all of the pollen still falls somewhere;
 * b follows from the ratio. That shape is an assumption without a source.
 *
 * @param fromDeg direction from which it blows, degrees clockwise from north
 * @param ratio pollen carried with it, as a multiple of what is carried against it, 1 or more
 */
public record Wind(double fromDeg, double ratio) {

  /**
   * @throws IllegalArgumentException where the ratio is under 1 or either is no number
   */
  public Wind {
    if (!(ratio >= 1) || !Double.isFinite(ratio) || !Double.isFinite(fromDeg)) {
      throw new IllegalArgumentException(
          "A wind needs a direction in degrees and a ratio of 1 or more; they are %s and %s"
              .formatted(fromDeg, ratio));
    }
  }

  /** How many times as much pollen arrives so many metres east and north of where it was shed. */
  double factor(double eastM, double northM) {
    double distanceM = Math.hypot(eastM, northM);
    if (distanceM == 0) {
      return 1;
    }
    double from = Math.toRadians(fromDeg);
    double along = -(eastM * Math.sin(from) + northM * Math.cos(from)) / distanceM;
    return 1 + (ratio - 1) / (ratio + 1) * along;
  }

  /** The same between two places; 1 where they are one. */
  public double factor(GeoPosition shed, GeoPosition arriving) {
    LocalPlane plane = new LocalPlane(shed);
    Coordinate there = plane.project(arriving);
    return factor(there.x, there.y);
  }
}
