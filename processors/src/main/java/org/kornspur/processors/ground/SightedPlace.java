package org.kornspur.processors.ground;

import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.Polygon;

/**
 * A place that somebody saw from a field, by the direct geodesic problem (GeographicLib).
 *
 * @param place where it lies
 */
public record SightedPlace(GeoPosition place) {
  private static final GeometryFactory GEOMETRY = new GeometryFactory();

  /** Seen from the middle of a field over its edge: metres are counted from the edge. */
  public static SightedPlace beyondEdge(Outline field, double bearingDeg, double distanceM) {
    GeoPosition middle = FieldDrawing.middleOf(field);
    return new SightedPlace(
        LocalPlane.travel(middle, bearingDeg, edgeM(field, middle, bearingDeg) + distanceM));
  }

  /** A square with sides to the four winds around the place, from the north-west on. */
  public List<GeoPosition> square(double acrossM) {
    double cornerM = acrossM / Math.sqrt(2);
    return Stream.of(315.0, 225.0, 135.0, 45.0)
        .map(bearingDeg -> LocalPlane.travel(place, bearingDeg, cornerM))
        .toList();
  }

  /** How far the edge lies from the middle on a bearing; 0 where the way does not meet it. */
  private static double edgeM(Outline field, GeoPosition middle, double bearingDeg) {
    // straight lines through the centre of the plane are geodesics, at their true length
    Polygon onPlane = field.on(new LocalPlane(middle));
    double beyondM = 2 * Outline.MAX_EXTENT_M;
    double bearing = Math.toRadians(bearingDeg);
    Coordinate far = new Coordinate(beyondM * Math.sin(bearing), beyondM * Math.cos(bearing));
    Geometry crossings =
        GEOMETRY
            .createLineString(new Coordinate[] {new Coordinate(0, 0), far})
            .intersection(onPlane.getExteriorRing());
    return Arrays.stream(crossings.getCoordinates())
        .mapToDouble(crossing -> Math.hypot(crossing.x, crossing.y))
        .max()
        .orElse(0);
  }
}
