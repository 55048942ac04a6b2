package org.kornspur.ingest.problem;

/** What a GeoJSON file, and the geometry of each of its features, must be. */
public sealed interface GeoJsonProblem extends IntakeReason {
  record NoCollection() implements GeoJsonProblem {}

  /** RFC 7946, section 4, knows WGS84 alone; earlier files may name another system. */
  record OtherCoordinates() implements GeoJsonProblem {}

  record NoPolygon() implements GeoJsonProblem {}

  record SeveralAreas() implements GeoJsonProblem {}

  record Hole() implements GeoJsonProblem {}

  /** The last position of a ring is not the first (RFC 7946, section 3.1.6). */
  record OpenRing() implements GeoJsonProblem {}

  /** As metres of a projection are. */
  record NoDegrees() implements GeoJsonProblem {}

  /** Latitude before longitude, to judge by where the other fields lie. */
  record AxesExchanged(int kilometres) implements GeoJsonProblem {}
}
