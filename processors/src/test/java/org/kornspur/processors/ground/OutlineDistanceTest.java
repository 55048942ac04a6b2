package org.kornspur.processors.ground;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.kornspur.processors.ground.Fields.at;
import static org.kornspur.processors.ground.Fields.rectangle;
import static org.kornspur.processors.ground.Fields.ring;

import java.util.List;
import net.sf.geographiclib.Geodesic;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.LineSegment;

class OutlineDistanceTest {
  private static final GeoPosition HOME = at(10.5, 52.2);

  @Test
  void shouldGiveNoDistanceWhereFieldsShareAnEdge() {
    List<GeoPosition> west = ring(HOME, -400, 0, 0, 0, 0, 300, -400, 300);
    List<GeoPosition> east = List.of(west.get(1), Fields.offset(HOME, 400, 0), west.get(2));
    OutlineDistance separation =
        OutlineDistance.between(Outline.ofPositions(west), Outline.ofPositions(east));
    assertThat(separation.distanceM()).isZero();
    assertThat(separation.onFirst()).isEqualTo(separation.onSecond());
  }

  @Test
  void shouldGiveNoDistanceWhereFieldsShareACorner() {
    Outline southWest = rectangle(HOME, -400, -300, 0, 0);
    Outline northEast = rectangle(HOME, 0, 0, 400, 300);
    OutlineDistance separation = OutlineDistance.between(southWest, northEast);
    assertThat(separation.distanceM()).isZero();
    assertThat(GeodesicOracle.distanceM(separation.onFirst(), HOME)).isLessThan(0.001);
  }

  @Test
  void shouldGiveNoDistanceWhereACornerStandsOnAnEdge() {
    List<GeoPosition> field = ring(HOME, -400, 0, 400, 0, 0, -500);
    GeoPosition a = field.get(0);
    double azimuth =
        Geodesic.WGS84.Inverse(a.lat(), a.lon(), field.get(1).lat(), field.get(1).lon()).azi1;
    GeoPosition onEdge = Fields.from(a, azimuth, 300);
    Outline above =
        Outline.ofPositions(
            List.of(onEdge, Fields.offset(onEdge, 50, 90), Fields.offset(onEdge, -50, 90)));
    assertThat(OutlineDistance.between(Outline.ofPositions(field), above).distanceM()).isZero();
  }

  @Test
  void shouldGiveNoDistanceAndACommonPointWhereFieldsOverlap() {
    Outline first = rectangle(HOME, 0, 0, 500, 500);
    Outline second = rectangle(HOME, 300, 300, 900, 900);
    OutlineDistance separation = OutlineDistance.between(first, second);
    assertThat(separation.distanceM()).isZero();
    assertThat(separation.onFirst()).isEqualTo(separation.onSecond());
  }

  @Test
  void shouldGiveNoDistanceWhereOneFieldLiesInTheOther() {
    Outline large = rectangle(HOME, -500, -500, 500, 500);
    Outline small = rectangle(HOME, -20, -20, 20, 20);
    assertThat(OutlineDistance.between(large, small).distanceM()).isZero();
    OutlineDistance turned = OutlineDistance.between(small, large);
    assertThat(turned.distanceM()).isZero();
    assertThat(GeodesicOracle.distanceM(turned.onFirst(), HOME)).isLessThan(30);
  }

  @Test
  void shouldMeasureToTheRimOfTheHoleInWhichASourceStands() {
    Outline field =
        Outline.ofPositions(
            ring(HOME, -900, -900, 900, -900, 900, 900, -900, 900),
            List.of(ring(HOME, -600, -600, 600, -600, 600, 600, -600, 600)));
    Outline source = rectangle(HOME, -350, -50, -250, 50);
    OutlineDistance separation = OutlineDistance.between(field, source);
    assertThat(separation.distanceM()).isCloseTo(250, within(0.01));
    assertThat(separation.distanceM())
        .isCloseTo(GeodesicOracle.boundaryDistanceM(field, source), within(0.002));
  }

  @Test
  void shouldGiveNoDistanceWhereASourceReachesOverTheRimOfAHole() {
    Outline field =
        Outline.ofPositions(
            ring(HOME, -900, -900, 900, -900, 900, 900, -900, 900),
            List.of(ring(HOME, -600, -600, 600, -600, 600, 600, -600, 600)));
    assertThat(OutlineDistance.between(field, rectangle(HOME, 500, -50, 700, 50)).distanceM())
        .isZero();
  }

  @Test
  void shouldNotTakeTwoMillimetresForTouching() {
    Outline south = rectangle(HOME, -10, -10, 10, 0);
    Outline north = rectangle(HOME, -10, 0.002, 10, 10);
    assertThat(OutlineDistance.between(south, north).distanceM()).isCloseTo(0.002, within(0.0005));
  }

  @Test
  void shouldReturnPointsOnEachOutlineThatAreAsFarApartAsItSays() {
    Outline first = rectangle(HOME, 0, 0, 500, 500);
    Outline second = rectangle(HOME, 1400, -800, 1900, -600);
    OutlineDistance separation = OutlineDistance.between(first, second);
    assertThat(GeodesicOracle.distanceM(separation.onFirst(), Fields.offset(HOME, 500, 0)))
        .isLessThan(0.001);
    assertThat(GeodesicOracle.distanceM(separation.onSecond(), Fields.offset(HOME, 1400, -600)))
        .isLessThan(0.001);
    assertThat(GeodesicOracle.distanceM(separation.onFirst(), separation.onSecond()))
        .isEqualTo(separation.distanceM());
  }

  @ParameterizedTest
  @ValueSource(doubles = {5_000, 20_000, 40_000})
  void shouldFollowTheGeodesicOnLongEdges(double lengthM) {
    GeoPosition place = at(25.0, 65.0);
    Outline large = rectangle(place, -lengthM / 2, 0, lengthM / 2, 3_000);
    Outline beside = rectangle(place, -30, -2_050, 30, -2_000);
    assertThat(OutlineDistance.between(large, beside).distanceM())
        .isCloseTo(GeodesicOracle.boundaryDistanceM(large, beside), within(0.002));
  }

  /** Both outlines begin 45 km south of where they come near, so the first plane is poor there. */
  @Test
  void shouldMeasureToAMillimetreFarFromTheFirstCorners() {
    GeoPosition place = at(25.0, 60.0);
    Outline wedge = Outline.ofPositions(ring(place, 0, 0, 2_500, 45_000, -2_500, 45_000));
    Outline hook =
        Outline.ofPositions(
            ring(
                place, 5_000, 0, 6_000, 0, 6_000, 47_000, 3_000, 47_000, 0, 46_000, 5_000, 46_500));
    assertThat(OutlineDistance.between(wedge, hook).distanceM())
        .isCloseTo(GeodesicOracle.boundaryDistanceM(wedge, hook), within(0.001));
  }

  @ParameterizedTest
  @ValueSource(doubles = {50_000, 500_000, 5_000_000})
  void shouldMeasureFieldsThatLieFarApart(double awayM) {
    Outline here = Fields.star(HOME, 12, List.of(900.0, 1_500.0, 700.0, 1_200.0, 2_000.0));
    Outline there =
        Fields.star(Fields.from(HOME, 77, awayM), 40, List.of(3_000.0, 800.0, 1_100.0, 900.0));
    assertThat(OutlineDistance.between(here, there).distanceM())
        .isCloseTo(GeodesicOracle.boundaryDistanceM(here, there), within(0.1));
  }

  /** The bow that {@link LocalPlane} states for edges of 5 km, 5 km from the centre. */
  @ParameterizedTest
  @ValueSource(doubles = {0, 52, 65, 75, 84})
  void shouldKeepGeodesicsStraightOnTheLocalPlane(double lat) {
    GeoPosition centre = at(0, lat);
    LocalPlane plane = new LocalPlane(centre);
    for (int azimuth = 0; azimuth < 360; azimuth += 15) {
      GeoPosition middle = Fields.from(centre, azimuth, 5_000);
      for (int direction = 0; direction < 180; direction += 15) {
        GeoPosition a = Fields.from(middle, direction, 2_500);
        GeoPosition b = Fields.from(middle, direction + 180.0, 2_500);
        Coordinate onLine =
            new LineSegment(plane.project(a), plane.project(b)).closestPoint(plane.project(middle));
        assertThat(onLine.distance(plane.project(middle))).isLessThan(0.0004);
      }
    }
  }

  /**
   * The difference between a geodesic and a line in longitude and latitude that the package states.
   */
  @ParameterizedTest
  @CsvSource({"52, 1000, 0.0251", "65, 1000, 0.0421", "65, 5000, 1.053", "75, 5000, 1.831"})
  void shouldDepartFromALineInDegreesByTheStatedBound(double lat, double lengthM, double boundM) {
    GeoPosition a = at(20, lat);
    double lonDeg = Math.toDegrees(lengthM / (6_378_137 * Math.cos(Math.toRadians(lat))));
    GeoPosition b = at(20 + lonDeg, lat);
    double azimuth = Geodesic.WGS84.Inverse(a.lat(), a.lon(), b.lat(), b.lon()).azi1;
    GeoPosition middle = Fields.from(a, azimuth, GeodesicOracle.distanceM(a, b) / 2);
    double bowM = GeodesicOracle.distanceM(middle, at(20 + lonDeg / 2, lat));
    assertThat(bowM).isCloseTo(boundM, within(boundM * 0.02));
    assertThat(bowM)
        .isCloseTo(
            lengthM * lengthM * Math.tan(Math.toRadians(lat)) / (8 * 6_371_000),
            within(boundM * 0.02));
  }
}
