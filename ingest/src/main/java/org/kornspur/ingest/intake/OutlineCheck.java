package org.kornspur.ingest.intake;

import java.util.HashSet;
import java.util.List;
import org.kornspur.contract.GeoPoint;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.operation.valid.IsValidOp;
import org.locationtech.jts.operation.valid.TopologyValidationError;

/**
 * An outline is one ring around one piece of land: at least three distinct corners, no side that
 * crosses or touches another, not wider than a degree.
 *
 * <p>The first corner may be repeated as the last. An outline across the 180th meridian is taken as
 * such where its longitudes lie more than half the globe apart.
 */
final class OutlineCheck {

  /** No field is a hundred kilometres wide; longitude and latitude exchanged often are. */
  static final double WIDEST_DEG = 1.0;

  /**
   * Most corners. A ring made to be slow costs the square of its corners: 10,000 slanting teeth
   * took nine seconds, this many about two.
   */
  static final int MOST_CORNERS = 4000;

  private static final GeometryFactory GEOMETRY = new GeometryFactory();

  private OutlineCheck() {}

  static void check(String path, List<GeoPoint> outline, Problems into) {
    if (outline.size() > MOST_CORNERS) {
      into.addDescribed(
          path,
          Counted.of(outline.size(), "corner(s)"),
          "at most " + MOST_CORNERS + " corners",
          "Thin out the outline; a corner every few metres is enough");
      return;
    }
    if (!outline.stream().allMatch(OutlineCheck::isOnEarth)) {
      return; // said already, corner by corner
    }
    Coordinate[] ring = ring(outline);
    int distinct = new HashSet<>(List.of(ring)).size();
    if (distinct < 3) {
      into.addDescribed(
          path,
          Counted.of(distinct, "distinct corner(s)"),
          "at least 3 distinct corners",
          "Give the corners of the field in order; two make a line");
      return;
    }
    Polygon land = GEOMETRY.createPolygon(ring);
    Envelope box = land.getEnvelopeInternal();
    if (box.getWidth() > WIDEST_DEG || box.getHeight() > WIDEST_DEG) {
      into.addDescribed(
          path,
          toSevenPlaces(box.getWidth()) + " by " + toSevenPlaces(box.getHeight()) + " degrees",
          "at most 1 degree wide and high",
          "Look for a corner with longitude and latitude exchanged, or a digit too many");
    }
    TopologyValidationError fault = new IsValidOp(land).getValidationError();
    if (fault != null) {
      into.addDescribed(
          path,
          fault.getMessage() + " at " + place(fault.getCoordinate()),
          "a ring whose sides neither cross nor touch",
          "Give the corners in the order in which one walks round the field");
    }
  }

  private static boolean isOnEarth(GeoPoint corner) {
    return Math.abs(corner.getLon()) <= 180 && Math.abs(corner.getLat()) <= 90;
  }

  private static Coordinate[] ring(List<GeoPoint> outline) {
    double west = outline.stream().mapToDouble(GeoPoint::getLon).min().orElseThrow();
    double east = outline.stream().mapToDouble(GeoPoint::getLon).max().orElseThrow();
    boolean across180 = east - west > 180;
    int size = outline.size();
    boolean closed = size > 1 && outline.get(0).equals(outline.get(size - 1));
    int corners = closed ? size - 1 : size;
    Coordinate[] ring = new Coordinate[corners + 1];
    for (int index = 0; index < corners; index++) {
      GeoPoint corner = outline.get(index);
      boolean beyond = across180 && corner.getLon() < 0;
      ring[index] =
          new Coordinate(beyond ? corner.getLon() + 360 : corner.getLon(), corner.getLat());
    }
    ring[corners] = ring[0].copy();
    return ring;
  }

  private static String place(Coordinate coordinate) {
    double lon = coordinate.x > 180 ? coordinate.x - 360 : coordinate.x;
    return "lon " + toSevenPlaces(lon) + " lat " + toSevenPlaces(coordinate.y);
  }

  /** Seven places of a degree are a centimetre on the ground. */
  private static String toSevenPlaces(double degrees) {
    return Problem.plain(Math.rint(degrees * 1e7) / 1e7);
  }
}
