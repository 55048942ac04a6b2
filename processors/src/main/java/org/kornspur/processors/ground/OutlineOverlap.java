package org.kornspur.processors.ground;

import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.operation.overlayng.OverlayNG;
import org.locationtech.jts.operation.overlayng.OverlayNGRobust;

/** Ground that lies in two outlines. */
public final class OutlineOverlap {
  private static final double SQUARE_METRES_IN_HECTARE = 10_000;

  private OutlineOverlap() {}

  /**
   * Hectares that two outlines have in common, on a plane between them; areas of fields up to 5 km
   * wide are right to a millionth there. 0 where they only touch.
   */
  public static double hectares(Outline first, Outline second) {
    if (areApart(first.bounds(), second.bounds())) {
      return 0;
    }
    LocalPlane plane = LocalPlane.midwayBetween(first.corners().get(0), second.corners().get(0));
    Polygon one = first.on(plane);
    Polygon other = second.on(plane);
    return OverlayNGRobust.overlay(one, other, OverlayNG.INTERSECTION).getArea()
        / SQUARE_METRES_IN_HECTARE;
  }

  /** Boxes may lie on both sides of the 180th meridian. */
  static boolean areApart(Bounds one, Bounds other) {
    double middlesDeg =
        Math.IEEEremainder((one.west() + one.east() - other.west() - other.east()) / 2, 360);
    double halvesDeg = (one.east() - one.west() + other.east() - other.west()) / 2;
    return one.north() < other.south()
        || other.north() < one.south()
        || Math.abs(middlesDeg) > halvesDeg;
  }
}
