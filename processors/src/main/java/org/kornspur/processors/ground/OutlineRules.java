package org.kornspur.processors.ground;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.kornspur.ingest.intake.CountedNoun;
import org.kornspur.processors.ground.InvalidOutline.Fault;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.LineSegment;
import org.locationtech.jts.operation.valid.IsValidOp;
import org.locationtech.jts.operation.valid.TopologyValidationError;

/** What makes corners a field, each rule with the sentence that says which corner breaks it. */
final class OutlineRules {
  /**
   * Corners nearer than this are one place: satellite positioning with correction knows no more.
   */
  private static final double SAME_PLACE_M = 0.01;

  static final int LEAST_CORNERS = 3;

  private OutlineRules() {}

  /** The ring without the repeated first corner at its end. */
  static List<GeoPosition> openRing(String ring, List<GeoPosition> corners) {
    for (int i = 0; i < corners.size(); i++) {
      checkCorner(ring, i, corners.get(i));
    }
    int last = corners.size() - 1;
    boolean closed = last > 0 && samePlace(corners.get(0), corners.get(last));
    List<GeoPosition> open = List.copyOf(closed ? corners.subList(0, last) : corners);
    if (open.size() < LEAST_CORNERS) {
      throw new InvalidOutline(
          Fault.TOO_FEW_CORNERS,
          open.isEmpty() ? null : open.get(0),
          "The %s has %s and an area needs at least 3. Give every corner of the field in order."
              .formatted(ring, CountedNoun.of(open.size(), "corner(s)")));
    }
    return open;
  }

  private static void checkCorner(String ring, int index, GeoPosition corner) {
    if (!Double.isFinite(corner.lon()) || !Double.isFinite(corner.lat())) {
      throw new InvalidOutline(
          Fault.NOT_A_NUMBER,
          null,
          "Corner %d of the %s has longitude %s and latitude %s, which are not both numbers. Give decimal degrees on WGS84."
              .formatted(index + 1, ring, corner.lon(), corner.lat()));
    }
    if (Math.abs(corner.lon()) > 180 || Math.abs(corner.lat()) > 90) {
      throw new InvalidOutline(
          Fault.OUT_OF_RANGE,
          null,
          "Corner %d of the %s has longitude %s and latitude %s; WGS84 has longitudes from -180 to 180 and latitudes from -90 to 90 degrees. Give longitude first, in decimal degrees."
              .formatted(index + 1, ring, corner.lon(), corner.lat()));
    }
  }

  private static boolean samePlace(GeoPosition first, GeoPosition second) {
    return first.lat() == second.lat() && Math.IEEEremainder(first.lon() - second.lon(), 360) == 0;
  }

  static void checkExtent(List<GeoPosition> shell, List<List<GeoPosition>> holes) {
    checkExtent("outline", shell.get(0), shell);
    for (int hole = 0; hole < holes.size(); hole++) {
      checkExtent("hole " + (hole + 1), shell.get(0), holes.get(hole));
    }
  }

  private static void checkExtent(String ring, GeoPosition first, List<GeoPosition> corners) {
    for (int i = 0; i < corners.size(); i++) {
      double distanceM = LocalPlane.distanceM(first, corners.get(i));
      if (distanceM > Outline.MAX_EXTENT_M) {
        throw new InvalidOutline(
            Fault.TOO_LARGE,
            corners.get(i),
            String.format(
                Locale.ROOT,
                "Corner %d of the %s at %s lies %.1f km from the first corner; a field reaches %.0f km at most (common practice, no source). Correct the corner, or check whether longitude and latitude are exchanged.",
                i + 1,
                ring,
                text(corners.get(i)),
                distanceM / 1000,
                Outline.MAX_EXTENT_M / 1000));
      }
    }
  }

  static void checkShape(Outline outline) {
    LocalPlane plane = new LocalPlane(outline.corners().get(0));
    List<Edge> edges = new ArrayList<>(edges("outline", outline.corners(), plane));
    for (int hole = 0; hole < outline.holes().size(); hole++) {
      edges.addAll(edges("hole " + (hole + 1), outline.holes().get(hole), plane));
    }
    edges.forEach(edge -> checkLength(edge, plane));
    edges.forEach(edge -> checkSpike(edge, follower(edge, edges), plane));
    TopologyValidationError error = new IsValidOp(outline.on(plane)).getValidationError();
    if (error != null) {
      throw misshapen(error, edges, plane);
    }
  }

  /** One edge on the plane; corners count from 1. */
  private record Edge(String ring, int from, int to, LineSegment line) {
    boolean meets(Edge other) {
      return ring.equals(other.ring) && (from == other.to || to == other.from);
    }

    String text() {
      return "edge %d-%d of the %s".formatted(from, to, ring);
    }
  }

  private static List<Edge> edges(String ring, List<GeoPosition> corners, LocalPlane plane) {
    List<Edge> edges = new ArrayList<>();
    List<Coordinate> points = corners.stream().map(plane::project).toList();
    for (int i = 0; i < points.size(); i++) {
      int next = (i + 1) % points.size();
      edges.add(new Edge(ring, i + 1, next + 1, new LineSegment(points.get(i), points.get(next))));
    }
    return edges;
  }

  private static Edge follower(Edge edge, List<Edge> edges) {
    return edges.stream()
        .filter(next -> next.ring().equals(edge.ring()) && next.from() == edge.to())
        .findFirst()
        .orElseThrow();
  }

  private static void checkLength(Edge edge, LocalPlane plane) {
    if (edge.line().getLength() < SAME_PLACE_M) {
      GeoPosition place = plane.locate(edge.line().p0);
      throw new InvalidOutline(
          Fault.REPEATED_CORNER,
          place,
          "Corners %d and %d of the %s are the same place, %s, to within 1 cm. Remove one of them."
              .formatted(edge.from(), edge.to(), edge.ring(), text(place)));
    }
  }

  private static void checkSpike(Edge in, Edge out, LocalPlane plane) {
    boolean outIsShorter = out.line().getLength() < in.line().getLength();
    Coordinate end = outIsShorter ? out.line().p1 : in.line().p0;
    LineSegment other = outIsShorter ? in.line() : out.line();
    if (other.distance(end) < SAME_PLACE_M) {
      GeoPosition place = plane.locate(in.line().p1);
      throw new InvalidOutline(
          Fault.SPIKE,
          place,
          "The %s has a spike at corner %d, %s: the edges to it and from it lie on each other to within 1 cm. Remove the corner."
              .formatted(in.ring(), in.to(), text(place)));
    }
  }

  private static InvalidOutline misshapen(
      TopologyValidationError error, List<Edge> edges, LocalPlane plane) {
    Coordinate point = error.getCoordinate();
    GeoPosition place = plane.locate(point);
    return switch (error.getErrorType()) {
      case TopologyValidationError.SELF_INTERSECTION,
          TopologyValidationError.RING_SELF_INTERSECTION ->
          new InvalidOutline(
              Fault.CROSSING,
              place,
              "%s cross or touch at %s. Give the corners in the order in which one walks round the field; make two outlines of a field in two parts."
                  .formatted(meetingAt(point, edges), text(place)));
      default ->
          new InvalidOutline(
              Fault.HOLE_MISPLACED,
              place,
              "%s near %s. A hole lies inside the outline, apart from other holes, and does not cut the field in two; correct its corners."
                  .formatted(error.getMessage(), text(place)));
    };
  }

  private static String meetingAt(Coordinate point, List<Edge> edges) {
    Comparator<Edge> byDistance = Comparator.comparingDouble(edge -> edge.line().distance(point));
    Edge first = edges.stream().min(byDistance).orElseThrow();
    Optional<Edge> second =
        edges.stream().filter(edge -> edge != first && !edge.meets(first)).min(byDistance);
    String text = first.text() + second.map(edge -> " and " + edge.text()).orElse(" and another");
    return Character.toUpperCase(text.charAt(0)) + text.substring(1);
  }

  private static String text(GeoPosition place) {
    return String.format(Locale.ROOT, "longitude %.7f, latitude %.7f", place.lon(), place.lat());
  }
}
