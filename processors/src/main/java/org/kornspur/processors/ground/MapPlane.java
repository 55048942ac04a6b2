package org.kornspur.processors.ground;

import java.util.Collection;
import net.sf.geographiclib.Geodesic;
import org.kornspur.processors.ground.FieldDrawing.Spot;

/**
 * An equirectangular map of WGS84: metres east and north of a middle place, along parallels and
 * meridians. It is linear in degrees and north is up everywhere, so a picture between two parallels
 * and two meridians fits it exactly.
 *
 * <p>For drawing alone; a distance is that of {@link OutlineDistance}. Lengths are true at the
 * middle. From there, lengths from north to south are right to 0.02 % a degree of latitude; those
 * from west to east are too short or too long by the tangent of the latitude times the way to the
 * middle latitude in radians: at 52° by 0.2 % after 10 km and by 2.3 % after 110 km.
 *
 * @param middle place at 0, 0
 * @param lonDegreeM metres of a degree of longitude at the middle
 * @param latDegreeM metres of a degree of latitude at the middle
 */
public record MapPlane(GeoPosition middle, double lonDegreeM, double latDegreeM) {

  /** A step that is short enough for a slope, degrees. */
  private static final double STEP_DEG = 0.001;

  public static MapPlane at(GeoPosition middle) {
    double lat = middle.lat();
    double lonDegreeM = Geodesic.WGS84.Inverse(lat, 0, lat, STEP_DEG).s12 / STEP_DEG;
    double latDegreeM =
        Geodesic.WGS84.Inverse(lat - STEP_DEG / 2, 0, lat + STEP_DEG / 2, 0).s12 / STEP_DEG;
    return new MapPlane(middle, lonDegreeM, latDegreeM);
  }

  /**
   * The map whose middle is that of the least box around places; they may lie on both sides of the
   * 180th meridian.
   *
   * @param places at least one
   */
  public static MapPlane around(Collection<GeoPosition> places) {
    double anchor = places.iterator().next().lon();
    double west = 0;
    double east = 0;
    double south = Double.POSITIVE_INFINITY;
    double north = Double.NEGATIVE_INFINITY;
    for (GeoPosition place : places) {
      double fromAnchor = Math.IEEEremainder(place.lon() - anchor, 360);
      west = Math.min(west, fromAnchor);
      east = Math.max(east, fromAnchor);
      south = Math.min(south, place.lat());
      north = Math.max(north, place.lat());
    }
    double lon = Math.IEEEremainder(anchor + (west + east) / 2, 360);
    return at(new GeoPosition(lon, (south + north) / 2));
  }

  public Spot spot(GeoPosition place) {
    return new Spot(
        Math.IEEEremainder(place.lon() - middle.lon(), 360) * lonDegreeM,
        (place.lat() - middle.lat()) * latDegreeM);
  }
}
