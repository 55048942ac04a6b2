package org.kornspur.processors.ground;

import java.util.List;
import net.sf.geographiclib.Geodesic;
import net.sf.geographiclib.GeodesicData;
import net.sf.geographiclib.GeodesicMask;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LinearRing;
import org.locationtech.jts.geom.Polygon;

/**
 * Azimuthal equidistant projection of WGS84 around a centre, metres east (x) and north (y).
 * Distances from the centre are exact; at d metres from it, lengths across are too long by (d /
 * 6371 km)² / 6, and the geodesic between two points L metres apart bows away from the straight
 * line by about d · L² / (8 · (6371 km)²): 0.4 mm for d = L = 5 km.
 *
 * <p>It knows no seam at the 180th meridian: longitudes enter only as differences.
 */
record LocalPlane(GeoPosition centre) {
  private static final GeometryFactory GEOMETRY = new GeometryFactory();

  static LocalPlane midwayBetween(GeoPosition first, GeoPosition second) {
    GeodesicData path =
        Geodesic.WGS84.Inverse(first.lat(), first.lon(), second.lat(), second.lon());
    return new LocalPlane(travel(first, path.azi1, path.s12 / 2));
  }

  static double distanceM(GeoPosition first, GeoPosition second) {
    return Geodesic.WGS84.Inverse(
            first.lat(), first.lon(), second.lat(), second.lon(), GeodesicMask.DISTANCE)
        .s12;
  }

  /** Where one arrives after so many metres on the geodesic that leaves with this azimuth. */
  static GeoPosition travel(GeoPosition start, double azimuthDeg, double distanceM) {
    GeodesicData end = Geodesic.WGS84.Direct(start.lat(), start.lon(), azimuthDeg, distanceM);
    return new GeoPosition(end.lon2, end.lat2);
  }

  Coordinate project(GeoPosition position) {
    GeodesicData path =
        Geodesic.WGS84.Inverse(
            centre.lat(),
            centre.lon(),
            position.lat(),
            position.lon(),
            GeodesicMask.DISTANCE | GeodesicMask.AZIMUTH);
    double azimuth = Math.toRadians(path.azi1);
    return new Coordinate(path.s12 * Math.sin(azimuth), path.s12 * Math.cos(azimuth));
  }

  GeoPosition locate(Coordinate point) {
    double azimuthDeg = Math.toDegrees(Math.atan2(point.x, point.y));
    return travel(centre, azimuthDeg, Math.hypot(point.x, point.y));
  }

  Polygon project(List<GeoPosition> shell, List<List<GeoPosition>> holes) {
    return GEOMETRY.createPolygon(
        ring(shell), holes.stream().map(this::ring).toArray(LinearRing[]::new));
  }

  private LinearRing ring(List<GeoPosition> corners) {
    Coordinate[] closed = new Coordinate[corners.size() + 1];
    for (int i = 0; i < corners.size(); i++) {
      closed[i] = project(corners.get(i));
    }
    closed[corners.size()] = closed[0].copy();
    return GEOMETRY.createLinearRing(closed);
  }
}
