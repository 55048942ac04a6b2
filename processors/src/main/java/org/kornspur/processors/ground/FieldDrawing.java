package org.kornspur.processors.ground;

import java.util.ArrayList;
import java.util.List;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.LinearRing;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.operation.buffer.BufferOp;
import org.locationtech.jts.operation.buffer.BufferParameters;

/**
 * The plan of a field and of the ground around it: places in metres east and north of the middle of
 * the field, for drawing to scale. Within 10 km of the field lengths are true to 1 mm in a
 * kilometre.
 */
public final class FieldDrawing {

  /** A quarter circle has so many pieces; a chord then lies 0.4 m within a circle of 10 km. */
  private static final int PIECES_OF_A_QUARTER = 90;

  private final Outline field;
  private final LocalPlane plane;

  private FieldDrawing(Outline field, LocalPlane plane) {
    this.field = field;
    this.plane = plane;
  }

  /** A place on the plan, metres from the middle of the field. */
  public record Spot(double eastM, double northM) {

    static Spot of(Coordinate point) {
      return new Spot(point.x, point.y);
    }
  }

  /**
   * An area on the plan.
   *
   * @param shell its outer ring, not closed
   * @param holes rings that do not belong to it, not closed
   */
  public record Figure(List<Spot> shell, List<List<Spot>> holes) {}

  public static FieldDrawing around(Outline field) {
    return new FieldDrawing(field, new LocalPlane(middleOf(field)));
  }

  /** The middle of the least box around a field. */
  public static GeoPosition middleOf(Outline field) {
    LocalPlane first = new LocalPlane(field.corners().get(0));
    Envelope box = field.on(first).getEnvelopeInternal();
    return first.locate(box.centre());
  }

  public Figure field() {
    return figure(field);
  }

  public Figure figure(Outline outline) {
    return figure(outline.on(plane));
  }

  public Spot spot(GeoPosition position) {
    return Spot.of(plane.project(position));
  }

  public GeoPosition position(Spot spot) {
    return plane.locate(new Coordinate(spot.eastM(), spot.northM()));
  }

  /**
   * All ground within a distance of the field, the field included.
   *
   * @param distanceM metres, above 0
   */
  public Figure zone(double distanceM) {
    return zone(distanceM, PIECES_OF_A_QUARTER);
  }

  /** The same with corners that are rounded by so many chords a quarter. */
  Figure zone(double distanceM, int piecesOfAQuarter) {
    BufferParameters round = new BufferParameters(piecesOfAQuarter);
    Geometry zone = BufferOp.bufferOp(field.on(plane), distanceM, round);
    return figure((Polygon) zone);
  }

  private static Figure figure(Polygon polygon) {
    List<List<Spot>> holes = new ArrayList<>();
    for (int i = 0; i < polygon.getNumInteriorRing(); i++) {
      holes.add(ring(polygon.getInteriorRingN(i)));
    }
    return new Figure(ring(polygon.getExteriorRing()), List.copyOf(holes));
  }

  private static List<Spot> ring(LinearRing ring) {
    Coordinate[] points = ring.getCoordinates();
    List<Spot> spots = new ArrayList<>();
    for (int i = 0; i < points.length - 1; i++) {
      spots.add(Spot.of(points[i]));
    }
    return List.copyOf(spots);
  }
}
