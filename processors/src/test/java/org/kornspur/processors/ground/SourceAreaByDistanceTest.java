package org.kornspur.processors.ground;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.kornspur.processors.PublishedChecks;
import org.kornspur.processors.statistics.PollenKernel;
import org.kornspur.processors.statistics.SourceExtent;
import org.locationtech.jts.geom.Coordinate;

/** Fields are invented; metres east and north of a place. */
class SourceAreaByDistanceTest {
  private static final double DISTANCE_M = 20;
  private static final double SHARE_WITHIN = 0.97;

  /** The stated error of a source that does not touch the crop. */
  private static final double STATED = 0.015;

  private static final Site HERE = new Site(10, 52, 0);
  private static final Box CROP = new Box(0, 0, 400, 300);

  private final PublishedChecks checks = PublishedChecks.of("pollen");

  /** Where the plan lies, and by how much it is turned. */
  private record Site(double lon, double lat, double turnedDeg) {
    Outline outline(Box box) {
      LocalPlane plane = new LocalPlane(new GeoPosition(lon, lat));
      double turn = Math.toRadians(turnedDeg);
      return Outline.ofPositions(
          box.corners().stream()
              .map(
                  corner ->
                      plane.locate(
                          new Coordinate(
                              corner.x * Math.cos(turn) - corner.y * Math.sin(turn),
                              corner.x * Math.sin(turn) + corner.y * Math.cos(turn))))
              .toList());
    }

    SourceExtent extent(Box source, Box crop) {
      return SourceAreaByDistance.between(outline(source), outline(crop), Optional.empty());
    }
  }

  private record Box(double west, double south, double width, double height) {
    List<Coordinate> corners() {
      return List.of(
          new Coordinate(west, south),
          new Coordinate(west + width, south),
          new Coordinate(west + width, south + height),
          new Coordinate(west, south + height));
    }

    double area() {
      return width * height;
    }

    List<Coordinate> grid(int across) {
      List<Coordinate> points = new ArrayList<>();
      for (int i = 0; i < across; i++) {
        for (int j = 0; j < across; j++) {
          points.add(
              new Coordinate(
                  west + width * (i + 0.5) / across, south + height * (j + 0.5) / across));
        }
      }
      return points;
    }
  }

  /**
   * With exponent 2 the kernel's integral over a rectangle is its solid angle from the height a
   * above it, over 2π: four arctangents (any textbook on solid angles).
   */
  private static double solidAngle(Box box, double scaleM, Coordinate from) {
    double east = box.west + box.width - from.x;
    double west = box.west - from.x;
    double north = box.south + box.height - from.y;
    double south = box.south - from.y;
    return (corner(east, north, scaleM)
            - corner(west, north, scaleM)
            - corner(east, south, scaleM)
            + corner(west, south, scaleM))
        / (2 * Math.PI);
  }

  private static double corner(double x, double y, double scaleM) {
    return Math.atan(x * y / (scaleM * Math.sqrt(scaleM * scaleM + x * x + y * y)));
  }

  private static double scaleM(double exponent) {
    return DISTANCE_M / Math.sqrt(Math.pow(1 - SHARE_WITHIN, -2 / (exponent - 1)) - 1);
  }

  private static PollenKernel kernel(double exponent) {
    return PollenKernel.calibrated(DISTANCE_M, SHARE_WITHIN, exponent);
  }

  @ParameterizedTest
  @CsvSource({"50, 0, 200, 200", "320, -100, 300, 300", "1000, 500, 800, 60", "-900, 20, 100, 700"})
  void aPlaceReceivesTheSolidAngleOfARectangle(
      double west, double south, double width, double height) {
    Box source = new Box(west, south, width, height);
    Box place = new Box(-1, -1, 2, 2);
    double exact = solidAngle(source, scaleM(2), new Coordinate(0, 0));

    double ours = HERE.extent(source, place).received(kernel(2));

    checks.close(
        "pollen at a place from %s".formatted(source),
        exact,
        ours,
        exact * STATED,
        "solid angle of a rectangle over 2 pi, in closed form");
  }

  @ParameterizedTest
  @CsvSource({
    "450, 0, 300, 300",
    "700, -500, 1200, 150",
    "-30, 330, 500, 80",
    "900, 900, 200, 500"
  })
  void aCropReceivesTheMeanOverItsPlaces(double west, double south, double width, double height) {
    Box source = new Box(west, south, width, height);
    double exact =
        CROP.grid(400).stream()
            .mapToDouble(place -> solidAngle(source, scaleM(2), place))
            .average()
            .orElseThrow();

    double ours = HERE.extent(source, CROP).received(kernel(2));

    checks.close(
        "pollen in a crop of 400 m by 300 m from %s".formatted(source),
        exact,
        ours,
        exact * STATED,
        "the same closed form, mean of 160,000 places");
  }

  /** The same with another exponent, by the plain sum over small squares of both fields. */
  @ParameterizedTest
  @ValueSource(doubles = {1.5, 2.0})
  void otherExponentsAgreeWithTheSumOverSmallSquares(double exponent) {
    Box source = new Box(720, 150, 250, 400);
    double scaleM = scaleM(exponent);
    double norm = (exponent - 1) / (2 * Math.PI * scaleM * scaleM);
    List<Coordinate> shedding = source.grid(50);
    double sum = 0;
    for (Coordinate place : CROP.grid(50)) {
      for (Coordinate plant : shedding) {
        double relative = place.distance(plant) / scaleM;
        sum += norm * Math.pow(1 + relative * relative, -(exponent + 1) / 2);
      }
    }
    double exact = sum / (2500.0 * 2500) * source.area();

    double ours = HERE.extent(source, CROP).received(kernel(exponent));

    checks.close(
        "pollen from a field 320 m off, exponent %s".formatted(exponent),
        exact,
        ours,
        exact * STATED,
        "sum over 2,500 squares of each field");
  }

  /** Places next to the common edge receive most, so the reference stands closer there. */
  @Test
  void aFieldThatTouchesTheCropIsWithinATenth() {
    Box source = new Box(400, 0, 350, 300);
    double scaleM = scaleM(2);
    double exact = 0;
    double far = CROP.width;
    for (double near = far / 1.02; far > 1e-4; near = far / 1.02) {
      double x = CROP.width - (far + near) / 2;
      double mean = 0;
      for (int j = 0; j < 300; j++) {
        mean += solidAngle(source, scaleM, new Coordinate(x, j + 0.5)) / 300;
      }
      exact += mean * (far - near) / CROP.width;
      far = near;
    }

    double ours = HERE.extent(source, CROP).received(kernel(2));

    checks.close(
        "pollen in a crop from a field along its edge",
        exact,
        ours,
        exact * 0.1,
        "the closed form, places closer together towards the edge");
  }

  @Test
  void whatLiesOnTheCropCountsByItsShareOfTheCrop() {
    SourceExtent.ByDistance half =
        SourceAreaByDistance.between(
            HERE.outline(new Box(200, -50, 400, 400)), HERE.outline(CROP), Optional.empty());
    assertThat(half.sharedPart()).isCloseTo(0.5, within(1e-6));
    assertThat(half.received(kernel(2))).isBetween(0.5, 0.51);
    assertThat(HERE.extent(CROP, CROP).received(kernel(2))).isCloseTo(1, within(1e-9));
    assertThat(HERE.extent(new Box(100, 100, 40, 30), CROP).received(kernel(2)))
        .isCloseTo(0.01, within(1e-6));
  }

  @Test
  void placeAndDirectionChangeNothing() {
    Box source = new Box(700, -200, 900, 250);
    double here = HERE.extent(source, CROP).received(kernel(2));
    for (Site site :
        List.of(
            new Site(10, 52, 30),
            new Site(10, 52, 137),
            new Site(10, 52, 270),
            new Site(-105.3, 41.2, 0),
            new Site(179.999, -17, 45))) {
      assertThat(site.extent(source, CROP).received(kernel(2)))
          .as("%s", site)
          .isCloseTo(here, within(here * STATED));
    }
  }

  @Test
  void aFieldAndItsPartsSendTheSame() {
    Box whole = new Box(600, 0, 800, 300);
    double once = HERE.extent(whole, CROP).received(kernel(2));
    double halves =
        Stream.of(new Box(600, 0, 300, 300), new Box(900, 0, 500, 300))
            .mapToDouble(part -> HERE.extent(part, CROP).received(kernel(2)))
            .sum();
    assertThat(halves).isCloseTo(once, within(once * STATED / 2));

    double places =
        Stream.of(new Box(0, 0, 100, 300), new Box(100, 0, 300, 300))
            .mapToDouble(
                part -> HERE.extent(whole, part).received(kernel(2)) * part.area() / CROP.area())
            .sum();
    assertThat(places).isCloseTo(once, within(once * STATED / 2));
  }

  @Test
  void theSameOutlinesGiveTheSameAnswer() {
    Box source = new Box(500, 100, 333, 222);
    assertThat(HERE.extent(source, CROP)).isEqualTo(HERE.extent(source, CROP));
  }

  /** Many corners on a curve and a wood within. */
  @Test
  void aCurvedOutlineWithAHoleIsItsAreaFarOff() {
    LocalPlane plane = new LocalPlane(new GeoPosition(10, 52));
    Outline ring =
        Outline.ofPositions(circle(plane, 3000, 200, 720), List.of(circle(plane, 3000, 100, 360)));
    double distanceM = 3000;
    double area = Math.PI * (200.0 * 200 - 100 * 100);
    double relative = distanceM / scaleM(2);
    double density =
        1 / (2 * Math.PI * scaleM(2) * scaleM(2)) * Math.pow(1 + relative * relative, -1.5);

    double ours =
        SourceAreaByDistance.between(ring, HERE.outline(new Box(-5, -5, 10, 10)), Optional.empty())
            .received(kernel(2));

    assertThat(ours).isCloseTo(area * density, within(area * density * 0.03));
  }

  private static List<GeoPosition> circle(
      LocalPlane plane, double east, double radiusM, int corners) {
    List<GeoPosition> positions = new ArrayList<>();
    for (int i = 0; i < corners; i++) {
      double angle = 2 * Math.PI * i / corners;
      positions.add(
          plane.locate(
              new Coordinate(east + radiusM * Math.cos(angle), radiusM * Math.sin(angle))));
    }
    return positions;
  }

  @Test
  void aWindCarriesSoManyTimesMoreWithItThanAgainstItAndLosesNothing() {
    Outline place = HERE.outline(new Box(-1, -1, 2, 2));
    Outline south = HERE.outline(new Box(-5, -1005, 10, 10));
    double with = received(south, place, new Wind(180, 3));
    double against = received(south, place, new Wind(0, 3));
    double calm =
        HERE.extent(new Box(-5, -1005, 10, 10), new Box(-1, -1, 2, 2)).received(kernel(2));
    assertThat(with / against).isCloseTo(3, within(1e-3));
    double all = 0;
    for (int from = 0; from < 360; from += 10) {
      all += received(south, place, new Wind(from, 3)) / 36;
    }
    assertThat(all).isCloseTo(calm, within(calm * 1e-9));
    assertThat(received(south, place, new Wind(77, 1))).isCloseTo(calm, within(calm * 1e-9));
    assertThatThrownBy(() -> new Wind(0, 0.5)).isInstanceOf(IllegalArgumentException.class);
  }

  private static double received(Outline source, Outline place, Wind wind) {
    return SourceAreaByDistance.between(source, place, Optional.of(wind)).received(kernel(2));
  }

  /** How far off the square at the nearest edge was that stood for every source before. */
  @Test
  void aSquareAtTheNearestEdgeIsFarFromWideFields() {
    double least = Double.MAX_VALUE;
    double greatest = 0;
    Box edge = new Box(CROP.width - 1, CROP.height / 2 - 1, 2, 2);
    for (double offM : new double[] {100, 300, 500, 1000}) {
      for (double times : new double[] {1, 2, 4, 8}) {
        for (boolean broadside : new boolean[] {true, false}) {
          double sideM = 300;
          double longM = sideM * Math.sqrt(times);
          double shortM = sideM / Math.sqrt(times);
          double width = broadside ? shortM : longM;
          double height = broadside ? longM : shortM;
          Box source = new Box(CROP.width + offM, CROP.height / 2 - height / 2, width, height);
          double square = new SourceExtent.Facing(offM, sideM, sideM, 1).received(kernel(2));
          double ratio = square / HERE.extent(source, edge).received(kernel(2));
          least = Math.min(least, ratio);
          greatest = Math.max(greatest, ratio);
          checks.shown(
              "9 ha, %s to 1 %s, %s m off: square over outline"
                  .formatted(times, broadside ? "broadside" : "end on", offM),
              "%.2f at the edge".formatted(ratio),
              "%.2f over the crop"
                  .formatted(square / HERE.extent(source, CROP).received(kernel(2))),
              "comparison, no source");
        }
      }
    }
    checks.shown(
        "range of square over outline at the nearest edge",
        "%.2f".formatted(least),
        "%.2f".formatted(greatest),
        "comparison, no source");
    assertThat(least).isLessThan(0.9);
    assertThat(greatest).isGreaterThan(1.2);
  }
}
