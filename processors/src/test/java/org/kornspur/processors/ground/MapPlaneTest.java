package org.kornspur.processors.ground;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import net.sf.geographiclib.Geodesic;
import net.sf.geographiclib.GeodesicData;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.processors.ground.FieldDrawing.Spot;

/**
 * The map of a season, held against GeographicLib (C. F. F. Karney, Algorithms for geodesics,
 * Journal of Geodesy 87, 2013), which knows no plane.
 */
class MapPlaneTest {

  /**
   * Source: length of a degree on WGS84 by latitude, National Geospatial-Intelligence Agency,
   * Length of a degree of latitude and longitude; here from memory.
   */
  @ParameterizedTest
  @CsvSource({"0, 111320, 110574", "45, 78847, 111132", "60, 55800, 111412"})
  void degreesAreAsLongAsPublished(double lat, double lonDegreeM, double latDegreeM) {
    MapPlane map = MapPlane.at(new GeoPosition(14.6, lat));
    assertThat(map.lonDegreeM()).isCloseTo(lonDegreeM, within(1.0));
    assertThat(map.latDegreeM()).isCloseTo(latDegreeM, within(1.0));
  }

  /** As the documentation of the class promises, for a season spread over this many kilometres. */
  @ParameterizedTest
  @CsvSource({"10, 0.0023", "27, 0.0057", "110, 0.0235", "300, 0.07"})
  void lengthsOnTheMapAreThoseOnTheGroundWithinTheBound(double spreadKm, double bound) {
    GeoPosition middle = new GeoPosition(14.8, 52.7);
    MapPlane map = MapPlane.at(middle);
    double worst = 0;
    for (int bearing = 0; bearing < 360; bearing += 15) {
      GeodesicData there = Geodesic.WGS84.Direct(52.7, 14.8, bearing, spreadKm * 1000);
      for (int way = 0; way < 360; way += 15) {
        GeodesicData end = Geodesic.WGS84.Direct(there.lat2, there.lon2, way, 500);
        Spot from = map.spot(new GeoPosition(there.lon2, there.lat2));
        Spot to = map.spot(new GeoPosition(end.lon2, end.lat2));
        double drawnM = Math.hypot(to.eastM() - from.eastM(), to.northM() - from.northM());
        worst = Math.max(worst, Math.abs(drawnM - 500) / 500);
      }
    }
    assertThat(worst).isLessThan(bound).isGreaterThan(bound / 2);
  }

  @Test
  void theMiddleIsThatOfAllPlacesOnBothSidesOfTheDateLine() {
    MapPlane map =
        MapPlane.around(List.of(new GeoPosition(179.9, 10), new GeoPosition(-179.7, 12)));
    assertThat(map.middle().lon()).isCloseTo(-179.9, within(1e-9));
    assertThat(map.middle().lat()).isCloseTo(11, within(1e-9));
    assertThat(map.spot(new GeoPosition(179.9, 11)).eastM()).isNegative();
    assertThat(map.spot(new GeoPosition(-179.7, 11)).eastM()).isPositive();
  }
}
