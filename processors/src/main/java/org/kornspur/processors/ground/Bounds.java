package org.kornspur.processors.ground;

import java.util.List;

/**
 * A box of latitude and longitude that holds an outline and everything on its edges, degrees.
 *
 * @param west western longitude in [-180, 180)
 * @param east eastern longitude, at least {@code west}; above 180 where the box lies across the
 *     180th meridian
 */
record Bounds(double south, double north, double west, double east) {
  /** Semi-major axis of WGS84, the least radius of curvature across the meridian. */
  private static final double EQUATOR_RADIUS_M = 6_378_137.0;

  /** Least radius of curvature along the meridian of WGS84, a (1 - e²), at the equator. */
  private static final double LEAST_MERIDIAN_RADIUS_M = 6_335_439.0;

  /**
   * A geodesic of 5 km bows poleward of its corners by up to 5.7 m at 85° latitude, the farthest
   * that boxes are made for.
   */
  private static final double BOW_M = 6.0;

  /** One centimetre, far above the rounding of the arithmetic with boxes. */
  private static final double ROUNDING_DEG = 1e-7;

  static Bounds around(List<GeoPosition> tracedCorners) {
    double anchorLon = tracedCorners.get(0).lon();
    double south = Double.POSITIVE_INFINITY;
    double north = Double.NEGATIVE_INFINITY;
    double west = Double.POSITIVE_INFINITY;
    double east = Double.NEGATIVE_INFINITY;
    for (GeoPosition corner : tracedCorners) {
      double lon = anchorLon + Math.IEEEremainder(corner.lon() - anchorLon, 360);
      south = Math.min(south, corner.lat());
      north = Math.max(north, corner.lat());
      west = Math.min(west, lon);
      east = Math.max(east, lon);
    }
    double bowDeg = Math.toDegrees(BOW_M / LEAST_MERIDIAN_RADIUS_M);
    return new Bounds(south - bowDeg, north + bowDeg, west - ROUNDING_DEG, east + ROUNDING_DEG)
        .fromWestIn360();
  }

  /**
   * A box that holds every place within so many metres of this one. A path of that length stays
   * below the latitude that it would reach due poleward, and gains most longitude there.
   */
  Bounds widenedBy(double reachM) {
    double latDeg = Math.toDegrees(reachM / LEAST_MERIDIAN_RADIUS_M) + ROUNDING_DEG;
    double northmost = Math.min(90, north + latDeg);
    double southmost = Math.max(-90, south - latDeg);
    double parallelRadiusM =
        EQUATOR_RADIUS_M
            * Math.cos(Math.toRadians(Math.max(Math.abs(northmost), Math.abs(southmost))));
    double lonDeg = Math.toDegrees(reachM / parallelRadiusM) + ROUNDING_DEG;
    return new Bounds(southmost, northmost, west - lonDeg, east + lonDeg).fromWestIn360();
  }

  private Bounds fromWestIn360() {
    if (east - west >= 360) {
      return new Bounds(south, north, -180, 180);
    }
    double turns = 360 * Math.floor((west + 180) / 360);
    return new Bounds(south, north, west - turns, east - turns);
  }
}
