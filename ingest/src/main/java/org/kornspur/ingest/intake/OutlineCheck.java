package org.kornspur.ingest.intake;

import java.util.HashSet;
import java.util.List;
import org.kornspur.contract.GeoPoint;
import org.kornspur.ingest.problem.Given;
import org.kornspur.ingest.problem.OutlineProblem;
import org.kornspur.ingest.statement.Value.Amount;
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

  private static final int LEAST_CORNERS = 3;

  private static final GeometryFactory GEOMETRY = new GeometryFactory();

  private OutlineCheck() {}

  static void check(String path, List<GeoPoint> outline, Problems into) {
    if (outline.size() > MOST_CORNERS) {
      into.add(
          path, new Given.Corners(outline.size()), new OutlineProblem.TooManyCorners(MOST_CORNERS));
      return;
    }
    if (!outline.stream().allMatch(OutlineCheck::isOnEarth)) {
      return; // said already, corner by corner
    }
    Coordinate[] ring = ring(outline);
    int distinct = new HashSet<>(List.of(ring)).size();
    if (distinct < LEAST_CORNERS) {
      into.add(
          path,
          new Given.DistinctCorners(distinct),
          new OutlineProblem.TooFewCorners(LEAST_CORNERS));
      return;
    }
    Polygon land = GEOMETRY.createPolygon(ring);
    Envelope box = land.getEnvelopeInternal();
    if (box.getWidth() > WIDEST_DEG || box.getHeight() > WIDEST_DEG) {
      into.add(
          path,
          new Given.Extent(degrees(box.getWidth()), degrees(box.getHeight())),
          new OutlineProblem.TooWide(degrees(WIDEST_DEG)));
    }
    TopologyValidationError fault = new IsValidOp(land).getValidationError();
    if (fault != null) {
      into.add(path, place(fault.getCoordinate()), new OutlineProblem.SidesMeet());
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

  private static Given place(Coordinate coordinate) {
    double lon = coordinate.x > 180 ? coordinate.x - 360 : coordinate.x;
    return new Given.SidesMeetAt(degrees(lon), degrees(coordinate.y));
  }

  /** Seven places of a degree are a centimetre on the ground. */
  private static Amount degrees(double degrees) {
    return new Amount(Math.rint(degrees * 1e7) / 1e7, "deg");
  }
}
