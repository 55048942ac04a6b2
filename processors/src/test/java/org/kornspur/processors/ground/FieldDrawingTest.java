package org.kornspur.processors.ground;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.kornspur.processors.ground.Fields.at;
import static org.kornspur.processors.ground.Fields.rectangle;

import java.util.List;
import net.sf.geographiclib.Geodesic;
import net.sf.geographiclib.GeodesicLine;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.processors.ground.FieldDrawing.Spot;

/**
 * The plan of a field, held against GeographicLib (C. F. F. Karney, Algorithms for geodesics,
 * Journal of Geodesy 87, 2013), which knows no plane.
 */
class FieldDrawingTest {
  private static final Outline FIELD =
      Outline.ofPositions(Fields.ring(at(10.5, 52.2), 0, 0, 420, -30, 510, 260, 220, 140, 60, 330));

  /** 500 m and 1000 m: isolation of hybrid rye, Council Directive 66/402/EEC, Annex I. */
  @ParameterizedTest
  @CsvSource({"250", "500", "1000"})
  void everyPlaceOnTheEdgeOfTheZoneLiesAsFarFromTheOutlineAsIsRequired(double distanceM) {
    FieldDrawing plan = FieldDrawing.around(FIELD);
    List<Spot> edge = plan.zone(distanceM).shell();
    assertThat(edge).hasSizeGreaterThan(100);
    for (Spot spot : edge) {
      assertThat(toOutlineM(plan.position(spot))).isBetween(distanceM - 0.05, distanceM + 0.001);
    }
  }

  /** Between the corners of the drawn edge it runs inside the true one, by less than a foot. */
  @Test
  void betweenItsCornersTheEdgeOfTheZoneStaysClose() {
    FieldDrawing plan = FieldDrawing.around(FIELD);
    List<Spot> edge = plan.zone(1000).shell();
    for (int i = 0; i < edge.size(); i++) {
      Spot here = edge.get(i);
      Spot next = edge.get((i + 1) % edge.size());
      Spot middle =
          new Spot((here.eastM() + next.eastM()) / 2, (here.northM() + next.northM()) / 2);
      assertThat(toOutlineM(plan.position(middle))).isBetween(999.9, 1000.01);
    }
  }

  /** As it leaves the program, in degrees. */
  @Test
  void theCornersOfAZoneLieAsFarFromTheOutlineAsIsRequired() {
    List<GeoPosition> corners = IsolationZone.around(FIELD, 500).shell();
    assertThat(corners).hasSizeGreaterThan(100);
    for (GeoPosition corner : corners) {
      assertThat(toOutlineM(corner)).isBetween(499.95, 500.001);
    }
  }

  @Test
  void whatLiesFartherWithinABentFieldIsAHoleOfItsZone() {
    Outline bent =
        Outline.ofPositions(
            Fields.ring(
                at(10.5, 52.2),
                0,
                0,
                900,
                0,
                900,
                900,
                20,
                900,
                20,
                850,
                850,
                850,
                850,
                50,
                50,
                50,
                50,
                820,
                0,
                820));
    assertThat(IsolationZone.around(bent, 100).holes()).hasSize(1);
    assertThat(IsolationZone.around(bent, 500).holes()).isEmpty();
  }

  @Test
  void twoNearestPointsStandOnThePlanAsFarApartAsOnTheEllipsoid() {
    Outline source = rectangle(at(10.512, 52.209), 0, 0, 120, 90);
    OutlineDistance separation = OutlineDistance.between(FIELD, source);
    FieldDrawing plan = FieldDrawing.around(FIELD);
    Spot onField = plan.spot(separation.onFirst());
    Spot onSource = plan.spot(separation.onSecond());
    double drawnM =
        Math.hypot(onField.eastM() - onSource.eastM(), onField.northM() - onSource.northM());
    assertThat(drawnM).isCloseTo(separation.distanceM(), within(0.001));
    assertThat(drawnM).isCloseTo(GeodesicOracle.boundaryDistanceM(FIELD, source), within(0.01));
  }

  @Test
  void northIsUpAndEastIsRight() {
    FieldDrawing plan = FieldDrawing.around(FIELD);
    GeoPosition middle = plan.position(new Spot(0, 0));
    Spot north = plan.spot(Fields.from(middle, 0, 700));
    Spot east = plan.spot(Fields.from(middle, 90, 700));
    assertThat(north.northM()).isCloseTo(700, within(0.001));
    assertThat(north.eastM()).isCloseTo(0, within(0.001));
    assertThat(east.eastM()).isCloseTo(700, within(0.001));
  }

  /** Least distance to the edges, by ever finer steps along each geodesic. */
  private static double toOutlineM(GeoPosition place) {
    double least = Double.POSITIVE_INFINITY;
    List<GeoPosition> corners = FIELD.corners();
    for (int i = 0; i < corners.size(); i++) {
      GeoPosition a = corners.get(i);
      GeoPosition b = corners.get((i + 1) % corners.size());
      GeodesicLine edge = Geodesic.WGS84.InverseLine(a.lat(), a.lon(), b.lat(), b.lon());
      double from = 0;
      double to = edge.Distance();
      while (to - from > 0.001) {
        double third = (to - from) / 3;
        if (distanceM(edge, from + third, place) < distanceM(edge, to - third, place)) {
          to -= third;
        } else {
          from += third;
        }
      }
      least = Math.min(least, distanceM(edge, from, place));
    }
    return least;
  }

  private static double distanceM(GeodesicLine edge, double atM, GeoPosition place) {
    var point = edge.Position(atM);
    return Geodesic.WGS84.Inverse(point.lat2, point.lon2, place.lat(), place.lon()).s12;
  }
}
