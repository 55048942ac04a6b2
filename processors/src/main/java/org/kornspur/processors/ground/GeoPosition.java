package org.kornspur.processors.ground;

import org.kornspur.contract.GeoPoint;

/** A place on WGS84: longitude and latitude in degrees. */
public record GeoPosition(double lon, double lat) {

  public static GeoPosition of(GeoPoint point) {
    return new GeoPosition(point.getLon(), point.getLat());
  }

  /** The way to another place along the ellipsoid, metres. */
  public double metresTo(GeoPosition other) {
    return LocalPlane.distanceM(this, other);
  }
}
