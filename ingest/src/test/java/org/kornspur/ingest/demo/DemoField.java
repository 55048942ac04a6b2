package org.kornspur.ingest.demo;

import java.util.ArrayList;
import java.util.List;
import org.kornspur.contract.GeoPoint;

/**
 * An invented field.
 *
 * @param fieldId as the grower calls it
 * @param centre middle of the field
 * @param outline corners, counter-clockwise
 * @param areaHa area inside the outline, hectares
 */
record DemoField(String fieldId, GeoPoint centre, List<GeoPoint> outline, double areaHa) {
  /** Metres in a degree of latitude; good enough for drawing a field. */
  static final double METRES_A_DEGREE = 111_320;

  /** A field of 4 to 8 corners around a centre, scaled to the wanted area. */
  static DemoField around(String fieldId, GeoPoint centre, double areaHa) {
    Draw draw = Draw.of("field", fieldId);
    int corners = draw.between(4, 8);
    double stretch = draw.between(1.0, 1.7, 3);
    double turn = draw.between(0, Math.PI, 4);
    double[] east = new double[corners];
    double[] north = new double[corners];
    for (int i = 0; i < corners; i++) {
      double angle = 2 * Math.PI * (i + draw.between(-0.22, 0.22, 4)) / corners;
      double radius = draw.between(0.85, 1.15, 4);
      double along = radius * stretch * StrictMath.cos(angle);
      double across = radius * StrictMath.sin(angle);
      east[i] = along * StrictMath.cos(turn) - across * StrictMath.sin(turn);
      north[i] = along * StrictMath.sin(turn) + across * StrictMath.cos(turn);
    }
    double scale = StrictMath.sqrt(areaHa * 10_000 / area(east, north));
    List<GeoPoint> outline = new ArrayList<>();
    for (int i = 0; i < corners; i++) {
      outline.add(offset(centre, east[i] * scale, north[i] * scale));
    }
    return new DemoField(fieldId, centre, outline, areaHa);
  }

  /** A place some metres east and north of another. */
  static GeoPoint offset(GeoPoint from, double eastM, double northM) {
    double metresOfLongitude =
        METRES_A_DEGREE * StrictMath.cos(StrictMath.toRadians(from.getLat()));
    return new GeoPoint(
        Draw.rounded(from.getLon() + eastM / metresOfLongitude, 6),
        Draw.rounded(from.getLat() + northM / METRES_A_DEGREE, 6));
  }

  private static double area(double[] east, double[] north) {
    double twice = 0;
    for (int i = 0; i < east.length; i++) {
      int next = (i + 1) % east.length;
      twice += east[i] * north[next] - east[next] * north[i];
    }
    return twice / 2;
  }
}
