package org.kornspur.processors.ground;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.kornspur.processors.ground.Fields.at;
import static org.kornspur.processors.ground.Fields.ring;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import net.sf.geographiclib.Geodesic;
import net.sf.geographiclib.PolygonArea;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Distances and areas beside values from outside, kept as a table in target/checks/ground.md. */
class GroundChecksTest {
  private static final double WGS84_A = 6_378_137.0;
  private static final double WGS84_F = 1 / 298.257223563;
  private static final double WGS84_E2 = WGS84_F * (2 - WGS84_F);

  private static final String BRUTE_FORCE =
      "GeographicLib-Java 2.1, inverse geodesic over every pair of edges by grid and golden"
          + " section, below 1 mm";
  private static final String CLOSED_FORM =
      "closed form on WGS84 (a = 6378137 m, 1/f = 298.257223563)";

  private static final Map<String, String> ROWS = new TreeMap<>();

  private static void row(String check, String reference, String ours, String source) {
    ROWS.put(check, "| %s | %s | %s | %s |".formatted(check, reference, ours, source));
  }

  private static String metres(double value) {
    return String.format(Locale.ROOT, "%.4f m", value);
  }

  private static String hectares(double value) {
    return String.format(Locale.ROOT, "%.6f ha", value);
  }

  @AfterAll
  static void writeTable() throws IOException {
    List<String> lines = new ArrayList<>();
    lines.add("| check | reference | ours | source |");
    lines.add("|---|---|---|---|");
    lines.addAll(ROWS.values());
    Path file = Path.of("target", "checks", "ground.md");
    Files.createDirectories(file.getParent());
    Files.write(file, lines);
  }

  /** Invented fields of irregular shape; the gap is set so that an edge faces a corner. */
  @ParameterizedTest
  @CsvSource({
    "0, 20, 250",
    "0, 20, 2000",
    "52.2, 10.5, 300",
    "52.2, 10.5, 600",
    "52.2, 10.5, 1000",
    "52.2, 10.5, 2000",
    "65, 25.5, 2000",
    "75, 90, 2000",
    "84.9, -30, 2000",
    "-34.5, -60, 500",
    "-34.5, -60, 2000",
    "-75, 0, 2000",
    "52.2, 180, 2000",
    "65, -179.999, 500",
    "65, 179.999, 2000",
    "-16.8, 180, 1000",
  })
  void shouldMeasureToATenthOfAMetreAtTwoKilometres(double lat, double lon, double gapM) {
    GeoPosition place = at(lon, lat);
    for (int azimuth : new int[] {0, 37, 90, 200, 315}) {
      Outline field =
          Fields.star(place, azimuth, List.of(100.0, 480.0, 510.0, 350.0, 620.0, 490.0, 300.0));
      Outline source =
          Fields.star(
              Fields.from(place, azimuth, 100 + gapM + 600),
              azimuth + 180.0,
              List.of(600.0, 700.0, 400.0, 380.0, 720.0));
      double reference = GeodesicOracle.boundaryDistanceM(field, source);
      double ours = OutlineDistance.between(field, source).distanceM();
      row(
          "distance near %.0f m, latitude %s, longitude %s, azimuth %d"
              .formatted(gapM, lat, lon, azimuth),
          metres(reference),
          metres(ours),
          BRUTE_FORCE);
      assertThat(ours).isCloseTo(reference, within(0.002));
      assertThat(ours).isBetween(gapM * 0.5, gapM * 1.01);
    }
  }

  @ParameterizedTest
  @CsvSource({"0.009, 10", "0.018, 10", "0.018, 179.99"})
  void shouldMeasureAlongTheEquatorAsItsRadiusSays(double gapDeg, double lonDeg) {
    double east = Math.IEEEremainder(lonDeg + gapDeg, 360);
    Outline here = pointingAt(at(lonDeg, 0), 270);
    Outline there = pointingAt(at(east, 0), 90);
    double reference = WGS84_A * Math.toRadians(gapDeg);
    double ours = OutlineDistance.between(here, there).distanceM();
    row(
        "distance along the equator over %s° from longitude %s".formatted(gapDeg, lonDeg),
        metres(reference),
        metres(ours),
        CLOSED_FORM + ": a · Δλ");
    assertThat(ours).isCloseTo(reference, within(0.001));
  }

  @ParameterizedTest
  @CsvSource({"0.018, 52", "0.018, 65", "0.018, 75", "0.018, -34", "0.009, 84.9"})
  void shouldMeasureAlongTheMeridianAsItsCurvatureSays(double gapDeg, double latDeg) {
    Outline here = pointingAt(at(10, latDeg), 180);
    Outline there = pointingAt(at(10, latDeg + gapDeg), 0);
    double reference = meridianArcM(latDeg, latDeg + gapDeg);
    double ours = OutlineDistance.between(here, there).distanceM();
    row(
        "distance along the meridian over %s° from latitude %s".formatted(gapDeg, latDeg),
        metres(reference),
        metres(ours),
        CLOSED_FORM + ": ∫ a (1 - e²) / (1 - e² sin² φ)^1.5 dφ by Simpson's rule");
    assertThat(ours).isCloseTo(reference, within(0.001));
  }

  /** A triangle with one corner at the place and its body in this direction from it. */
  private static Outline pointingAt(GeoPosition apex, double bodyAzimuthDeg) {
    return Outline.ofPositions(
        List.of(
            apex,
            Fields.from(apex, bodyAzimuthDeg - 25, 400),
            Fields.from(apex, bodyAzimuthDeg + 25, 400)));
  }

  private static double meridianArcM(double fromDeg, double toDeg) {
    int steps = 200;
    double h = Math.toRadians(toDeg - fromDeg) / steps;
    double sum = 0;
    for (int i = 0; i <= steps; i++) {
      double sin = Math.sin(Math.toRadians(fromDeg) + i * h);
      double weight = i == 0 || i == steps ? 1 : i % 2 == 1 ? 4 : 2;
      sum += weight * WGS84_A * (1 - WGS84_E2) / Math.pow(1 - WGS84_E2 * sin * sin, 1.5);
    }
    return sum * h / 3;
  }

  @ParameterizedTest
  @CsvSource({"0, 10", "52, 10", "65, 179.99", "75, -60", "-34, 140"})
  void shouldGiveTheAreaBetweenParallelsAndMeridians(double south, double west) {
    double heightDeg = 0.01;
    double widthDeg = 0.02;
    int steps = 100;
    List<GeoPosition> corners = new ArrayList<>();
    for (int i = 0; i <= steps; i++) {
      corners.add(at(Math.IEEEremainder(west + widthDeg * i / steps, 360), south));
    }
    for (int i = steps; i >= 0; i--) {
      corners.add(at(Math.IEEEremainder(west + widthDeg * i / steps, 360), south + heightDeg));
    }
    double reference =
        Math.toRadians(widthDeg)
            * (areaOfZoneByRadian(south + heightDeg) - areaOfZoneByRadian(south))
            / 10_000;
    double ours = Area.hectares(Outline.ofPositions(corners));
    row(
        "area of 0.02° by 0.01° from latitude %s, longitude %s".formatted(south, west),
        hectares(reference),
        hectares(ours),
        CLOSED_FORM + ": authalic zone, J. P. Snyder, USGS Professional Paper 1395, equation 3-12");
    assertThat(ours).isCloseTo(reference, within(reference * 1e-6));
  }

  /** Square metres between the equator and a latitude, for each radian of longitude. */
  private static double areaOfZoneByRadian(double latDeg) {
    double e = Math.sqrt(WGS84_E2);
    double sin = Math.sin(Math.toRadians(latDeg));
    double q =
        (1 - WGS84_E2)
            * (sin / (1 - WGS84_E2 * sin * sin)
                - Math.log((1 - e * sin) / (1 + e * sin)) / (2 * e));
    return WGS84_A * WGS84_A * q / 2;
  }

  @Test
  void shouldTakeHolesOffTheArea() {
    GeoPosition place = at(10.5, 52.2);
    List<GeoPosition> shell = ring(place, 0, 0, 500, 0, 500, 400, 0, 400);
    List<GeoPosition> wood = ring(place, 100, 100, 100, 200, 200, 200, 200, 100);
    double reference = (geographicLibM2(shell) - geographicLibM2(wood)) / 10_000;
    double ours = Area.hectares(Outline.ofPositions(shell, List.of(wood)));
    row(
        "area of 500 m by 400 m without a wood of 100 m by 100 m",
        hectares(reference),
        hectares(ours),
        "GeographicLib-Java 2.1, PolygonArea; laid out by hand 19 ha");
    assertThat(ours).isCloseTo(reference, within(1e-9));
    assertThat(ours).isCloseTo(19, within(1e-4));
  }

  private static double geographicLibM2(List<GeoPosition> ring) {
    PolygonArea area = new PolygonArea(Geodesic.WGS84, false);
    ring.forEach(corner -> area.AddPoint(corner.lat(), corner.lon()));
    return Math.abs(area.Compute().area);
  }
}
