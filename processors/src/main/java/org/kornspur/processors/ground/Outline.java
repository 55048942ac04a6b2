package org.kornspur.processors.ground;

import java.util.ArrayList;
import java.util.List;
import net.sf.geographiclib.Geodesic;
import net.sf.geographiclib.GeodesicData;
import org.kornspur.contract.GeoPoint;
import org.locationtech.jts.geom.Polygon;

/**
 * The outline of a field crop or a pollen source on WGS84: one ring of corners, in either
 * direction, and rings for what is cut out of it. Edges are geodesics. It may lie across the 180th
 * meridian. Immutable; whoever holds one knows that it is valid.
 */
public final class Outline {
  /**
   * How far from the first corner any other may lie, metres. The largest arable fields measure some
   * kilometres (common practice, no source); more is a wrong corner.
   */
  public static final double MAX_EXTENT_M = 50_000;

  /** Longer edges are traced by points in between, so that the projection keeps them straight. */
  private static final double TRACED_STEP_M = 5_000;

  private final List<GeoPosition> shell;
  private final List<List<GeoPosition>> holes;
  private final List<GeoPosition> tracedShell;
  private final List<List<GeoPosition>> tracedHoles;
  private final Bounds bounds;

  private Outline(List<GeoPosition> shell, List<List<GeoPosition>> holes) {
    this.shell = shell;
    this.holes = holes;
    this.tracedShell = traced(shell);
    this.tracedHoles = holes.stream().map(Outline::traced).toList();
    this.bounds = Bounds.around(tracedShell);
  }

  /**
   * @param corners corners in order, degrees; the ring is closed by itself, a last corner equal to
   *     the first is accepted
   * @throws InvalidOutline if they make no field
   */
  public static Outline of(List<GeoPoint> corners) {
    return ofPositions(corners.stream().map(GeoPosition::of).toList());
  }

  /**
   * @param corners as in {@link #of}
   * @throws InvalidOutline if they make no field
   */
  public static Outline ofPositions(List<GeoPosition> corners) {
    return ofPositions(corners, List.of());
  }

  /**
   * @param corners as in {@link #of}
   * @param holes rings inside it that do not belong to it, such as a wood in the field
   * @throws InvalidOutline if they make no field
   */
  public static Outline ofPositions(List<GeoPosition> corners, List<List<GeoPosition>> holes) {
    List<GeoPosition> shellRing = OutlineRules.openRing("outline", corners);
    List<List<GeoPosition>> holeRings = new ArrayList<>();
    for (List<GeoPosition> hole : holes) {
      holeRings.add(OutlineRules.openRing("hole " + (holeRings.size() + 1), hole));
    }
    OutlineRules.checkExtent(shellRing, holeRings);
    Outline outline = new Outline(shellRing, List.copyOf(holeRings));
    OutlineRules.checkShape(outline);
    return outline;
  }

  /** Corners in the order given, not closed. */
  public List<GeoPosition> corners() {
    return shell;
  }

  /** Corners of each hole in the order given, not closed. */
  public List<List<GeoPosition>> holes() {
    return holes;
  }

  Bounds bounds() {
    return bounds;
  }

  Polygon on(LocalPlane plane) {
    return plane.project(tracedShell, tracedHoles);
  }

  private static List<GeoPosition> traced(List<GeoPosition> ring) {
    List<GeoPosition> traced = new ArrayList<>(ring.size());
    for (int i = 0; i < ring.size(); i++) {
      GeoPosition from = ring.get(i);
      GeoPosition to = ring.get((i + 1) % ring.size());
      traced.add(from);
      GeodesicData edge = Geodesic.WGS84.Inverse(from.lat(), from.lon(), to.lat(), to.lon());
      int pieces = (int) Math.ceil(edge.s12 / TRACED_STEP_M);
      for (int piece = 1; piece < pieces; piece++) {
        traced.add(LocalPlane.travel(from, edge.azi1, edge.s12 * piece / pieces));
      }
    }
    return List.copyOf(traced);
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof Outline that && shell.equals(that.shell) && holes.equals(that.holes);
  }

  @Override
  public int hashCode() {
    return 31 * shell.hashCode() + holes.hashCode();
  }

  @Override
  public String toString() {
    return "Outline" + shell + (holes.isEmpty() ? "" : " without " + holes);
  }
}
