package org.kornspur.processors.ground;

import java.util.List;
import org.kornspur.processors.ground.FieldDrawing.Spot;

/**
 * All ground within a distance of a field, the field included, as rings on WGS84. Its corners lie
 * at the distance from the field to 1 mm in a kilometre; a round corner is drawn as a chord every
 * degree.
 *
 * @param shell its outer ring, not closed
 * @param holes rings that lie farther away than the distance, not closed
 */
public record IsolationZone(List<GeoPosition> shell, List<List<GeoPosition>> holes) {
  private static final int COARSE_PIECES = 12;

  /**
   * @param distanceM metres on the ellipsoid, above 0
   */
  public static IsolationZone around(Outline field, double distanceM) {
    FieldDrawing plan = FieldDrawing.around(field);
    return of(plan.zone(distanceM), plan);
  }

  /** For a map of many fields: a chord lies within the true edge by 0.2 % of the distance. */
  public static IsolationZone coarselyAround(Outline field, double distanceM) {
    FieldDrawing plan = FieldDrawing.around(field);
    return of(plan.zone(distanceM, COARSE_PIECES), plan);
  }

  private static IsolationZone of(FieldDrawing.Figure zone, FieldDrawing plan) {
    return new IsolationZone(
        ring(zone.shell(), plan), zone.holes().stream().map(hole -> ring(hole, plan)).toList());
  }

  private static List<GeoPosition> ring(List<Spot> spots, FieldDrawing plan) {
    return spots.stream().map(plan::position).toList();
  }
}
