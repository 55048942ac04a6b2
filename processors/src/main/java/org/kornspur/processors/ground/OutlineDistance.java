package org.kornspur.processors.ground;

import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.operation.distance.DistanceOp;

/**
 * How far two outlines lie apart.
 *
 * <p>The nearest points are found on a plane around the middle between the outlines, and once more
 * on a plane around the middle between those points where the first was wide; the distance is then
 * that of the geodesic between them (GeographicLib, C. F. F. Karney, Algorithms for geodesics,
 * Journal of Geodesy 87, 2013). On the second plane an edge of up to 5 km within 5 km of its centre
 * departs from the geodesic by less than 0.4 mm; longer edges are traced in steps of 5 km.
 *
 * @param distanceM metres on the ellipsoid between the nearest points; 0 where the outlines touch,
 *     overlap or lie in one another, and where they are less than 1 mm apart
 * @param onFirst nearest point of the first outline; a common point where the distance is 0
 * @param onSecond nearest point of the second outline
 */
public record OutlineDistance(double distanceM, GeoPosition onFirst, GeoPosition onSecond) {
  /** Below this, what is computed is rounding and no gap. */
  private static final double TOUCHING_M = 0.001;

  /** Within this of its centre, one plane alone is exact to 1 mm. */
  private static final double EXACT_WITHIN_M = 10_000;

  /** The separation of two outlines anywhere on the ellipsoid. */
  public static OutlineDistance between(Outline first, Outline second) {
    LocalPlane plane = LocalPlane.midwayBetween(first.corners().get(0), second.corners().get(0));
    Polygon onPlane = first.on(plane);
    Polygon otherOnPlane = second.on(plane);
    OutlineDistance found = between(onPlane, otherOnPlane, plane);
    if (farthestM(onPlane) <= EXACT_WITHIN_M && farthestM(otherOnPlane) <= EXACT_WITHIN_M) {
      return found;
    }
    LocalPlane nearer = LocalPlane.midwayBetween(found.onFirst(), found.onSecond());
    return between(first.on(nearer), second.on(nearer), nearer);
  }

  private static OutlineDistance between(Polygon first, Polygon second, LocalPlane plane) {
    Coordinate[] nearest = new DistanceOp(first, second).nearestPoints();
    GeoPosition onFirst = plane.locate(nearest[0]);
    GeoPosition onSecond = plane.locate(nearest[1]);
    double distanceM = LocalPlane.distanceM(onFirst, onSecond);
    return distanceM < TOUCHING_M
        ? new OutlineDistance(0, onFirst, onFirst)
        : new OutlineDistance(distanceM, onFirst, onSecond);
  }

  private static double farthestM(Polygon polygon) {
    double farthest = 0;
    for (Coordinate corner : polygon.getExteriorRing().getCoordinates()) {
      farthest = Math.max(farthest, Math.hypot(corner.x, corner.y));
    }
    return farthest;
  }
}
