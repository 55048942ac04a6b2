package org.kornspur.processors.ground;

import java.util.ArrayList;
import java.util.List;
import net.sf.geographiclib.Geodesic;
import net.sf.geographiclib.GeodesicData;

/** Invented fields, laid out on the ellipsoid in metres from a place. */
final class Fields {
  private Fields() {}

  static GeoPosition at(double lon, double lat) {
    return new GeoPosition(lon, lat);
  }

  static GeoPosition from(GeoPosition start, double azimuthDeg, double distanceM) {
    GeodesicData end = Geodesic.WGS84.Direct(start.lat(), start.lon(), azimuthDeg, distanceM);
    return new GeoPosition(end.lon2, end.lat2);
  }

  /** A place so many metres east and north of another. */
  static GeoPosition offset(GeoPosition start, double eastM, double northM) {
    return from(start, Math.toDegrees(Math.atan2(eastM, northM)), Math.hypot(eastM, northM));
  }

  /** Corners given as pairs of metres east and north of a place. */
  static List<GeoPosition> ring(GeoPosition centre, double... eastNorthM) {
    List<GeoPosition> corners = new ArrayList<>();
    for (int i = 0; i < eastNorthM.length; i += 2) {
      corners.add(offset(centre, eastNorthM[i], eastNorthM[i + 1]));
    }
    return corners;
  }

  static Outline rectangle(
      GeoPosition centre, double westM, double southM, double eastM, double northM) {
    return Outline.ofPositions(
        ring(centre, westM, southM, eastM, southM, eastM, northM, westM, northM));
  }

  /** Corners at these distances from the centre, in equal steps of azimuth: never crossing. */
  static Outline star(GeoPosition centre, double turnDeg, List<Double> radiiM) {
    List<GeoPosition> corners = new ArrayList<>();
    for (int i = 0; i < radiiM.size(); i++) {
      corners.add(from(centre, turnDeg + 360.0 * i / radiiM.size(), radiiM.get(i)));
    }
    return Outline.ofPositions(corners);
  }

  /** The same outline farther east. */
  static Outline turned(Outline outline, double lonDeg) {
    return Outline.ofPositions(
        outline.corners().stream()
            .map(c -> new GeoPosition(Math.IEEEremainder(c.lon() + lonDeg, 360), c.lat()))
            .toList());
  }
}
