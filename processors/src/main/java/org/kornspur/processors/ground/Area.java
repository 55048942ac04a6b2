package org.kornspur.processors.ground;

import java.util.List;
import net.sf.geographiclib.Geodesic;
import net.sf.geographiclib.PolygonArea;

/** The area of an outline on the ellipsoid, its holes taken off. */
public final class Area {
  private static final double SQUARE_METRES_IN_HECTARE = 10_000;

  private Area() {}

  /** Hectares within geodesic edges; GeographicLib's {@code PolygonArea}. */
  public static double hectares(Outline outline) {
    double squareMetres = squareMetres(outline.corners());
    for (List<GeoPosition> hole : outline.holes()) {
      squareMetres -= squareMetres(hole);
    }
    return squareMetres / SQUARE_METRES_IN_HECTARE;
  }

  private static double squareMetres(List<GeoPosition> ring) {
    PolygonArea area = new PolygonArea(Geodesic.WGS84, false);
    ring.forEach(corner -> area.AddPoint(corner.lat(), corner.lon()));
    boolean clockwise = false;
    boolean signed = true;
    return Math.abs(area.Compute(clockwise, signed).area);
  }
}
