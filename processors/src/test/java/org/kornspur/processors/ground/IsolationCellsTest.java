package org.kornspur.processors.ground;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.kornspur.processors.ground.Fields.at;

import java.util.Collections;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.statistics.Statistics;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.kornspur.processors.ground.InvalidOutline.Fault;

class IsolationCellsTest {
  private static final double REACH_M = 1_000;

  private static Outline plotAt(GeoPosition place) {
    return Fields.star(place, 10, List.of(5.0, 5.0, 5.0, 5.0));
  }

  /**
   * 52.2° north is row (52.2 + 90) / 0.045 = 3160; 4,898 columns of 0.0735° fit into it at 52.245°,
   * and 190.5° east of 180° west is in column 2591.
   */
  @Test
  void shouldNameTheCellByYearRowAndColumn() {
    assertThat(IsolationCells.cellsOf(plotAt(at(10.5, 52.21)), 2026))
        .containsExactly("cell:2026:3160:2591");
  }

  @Test
  void shouldKeepYearsApart() {
    Outline plot = plotAt(at(10.5, 52.21));
    assertThat(
            Collections.disjoint(
                IsolationCells.cellsWithin(plot, REACH_M, 2025),
                IsolationCells.cellsOf(plot, 2026)))
        .isTrue();
  }

  @Test
  void shouldWrapAt180Degrees() {
    Set<String> cells =
        IsolationCells.cellsOf(
            Outline.ofPositions(List.of(at(179.999, 10.01), at(-179.999, 10.01), at(180, 10.012))),
            2026);
    Set<String> west = IsolationCells.cellsOf(plotAt(at(179.99, 10.01)), 2026);
    Set<String> east = IsolationCells.cellsOf(plotAt(at(-179.99, 10.01)), 2026);
    assertThat(cells).hasSize(2).containsAll(west).containsAll(east);
    assertThat(east).containsExactly("cell:2026:2222:0");
  }

  /** Two plots a reach apart or a few metres less, whichever way one goes. */
  @ParameterizedTest
  @CsvSource({"0, 0", "52.2, 10.5", "65, 180", "-75, -179.99", "84.98, 179.999", "-84.98, 30"})
  void shouldMissNoNeighbourInAnyDirection(double lat, double lon) {
    GeoPosition place = at(lon, lat);
    Set<String> within = IsolationCells.cellsWithin(plotAt(place), REACH_M, 2026);
    for (int azimuth = 0; azimuth < 360; azimuth++) {
      Outline neighbour = plotAt(Fields.from(place, azimuth, REACH_M + 7));
      assertThat(OutlineDistance.between(plotAt(place), neighbour).distanceM())
          .isLessThan(REACH_M + 3);
      if (OutlineDistance.between(plotAt(place), neighbour).distanceM() <= REACH_M) {
        assertThat(within).containsAnyElementsOf(IsolationCells.cellsOf(neighbour, 2026));
      }
    }
  }

  record Pair(Outline crop, Outline source, double reachM) {}

  @Provide
  Arbitrary<Pair> pairs() {
    Arbitrary<Double> lat =
        Arbitraries.oneOf(
            Arbitraries.doubles().between(-84, 84),
            Arbitraries.doubles().between(84, 84.9),
            Arbitraries.doubles().between(-84.9, -84));
    Arbitrary<Double> lon =
        Arbitraries.oneOf(
            Arbitraries.doubles().between(-180, 180),
            Arbitraries.doubles().between(179.9, 180),
            Arbitraries.doubles().between(-180, -179.9));
    Arbitrary<List<Double>> radii =
        Arbitraries.doubles().between(20, 2_000).list().ofMinSize(3).ofMaxSize(7);
    Arbitrary<Double> reach = Arbitraries.of(0.0, 250.0, 1_000.0, 5_000.0, 30_000.0);
    Arbitrary<Double> azimuth = Arbitraries.doubles().between(0, 360);
    Arbitrary<Double> share = Arbitraries.doubles().between(0.5, 1.05);
    return Combinators.combine(lat, lon, radii, radii, reach, azimuth, share)
        .as(
            (y, x, cropRadii, sourceRadii, reachM, direction, ofReach) ->
                pair(at(x, y), cropRadii, sourceRadii, reachM, direction, ofReach));
  }

  /** The source stands so that the gap is about that share of the reach. */
  private static Pair pair(
      GeoPosition place,
      List<Double> cropRadii,
      List<Double> sourceRadii,
      double reachM,
      double azimuthDeg,
      double ofReach) {
    Outline crop = Fields.star(place, azimuthDeg, cropRadii);
    double apartM = cropRadii.get(0) + ofReach * reachM + sourceRadii.get(0);
    GeoPosition there = Fields.from(place, azimuthDeg, apartM);
    return new Pair(crop, Fields.star(there, azimuthDeg + 180, sourceRadii), reachM);
  }

  private static boolean isPolar(Outline outline) {
    return outline.corners().stream()
        .anyMatch(corner -> Math.abs(corner.lat()) > IsolationCells.MAX_LATITUDE_DEG);
  }

  @Property(tries = 2_000)
  void shouldBringTogetherWhateverIsWithinReach(@ForAll("pairs") Pair pair) {
    if (isPolar(pair.crop()) || isPolar(pair.source())) {
      return;
    }
    boolean near = OutlineDistance.between(pair.crop(), pair.source()).distanceM() <= pair.reachM();
    Statistics.label("within reach")
        .collect(near)
        .coverage(seen -> seen.check(true).percentage(share -> share > 40));
    if (near) {
      assertThat(IsolationCells.cellsWithin(pair.crop(), pair.reachM(), 2026))
          .containsAnyElementsOf(IsolationCells.cellsOf(pair.source(), 2026));
      assertThat(IsolationCells.cellsWithin(pair.source(), pair.reachM(), 2026))
          .containsAnyElementsOf(IsolationCells.cellsOf(pair.crop(), 2026));
    }
  }

  /** The grid must also keep far fields apart, or it would save no work. */
  @Property(tries = 500)
  void shouldNotBringTogetherWhatIsFarAway(
      @ForAll("pairs") Pair pair, @ForAll("azimuths") double azimuthDeg) {
    GeoPosition far = Fields.from(pair.crop().corners().get(0), azimuthDeg, 2 * REACH_M + 25_000);
    Outline farPlot = plotAt(far.lat() > 84.9 || far.lat() < -84.9 ? at(far.lon(), 0) : far);
    if (!isPolar(pair.crop())) {
      assertThat(
              Collections.disjoint(
                  IsolationCells.cellsWithin(pair.crop(), REACH_M, 2026),
                  IsolationCells.cellsOf(farPlot, 2026)))
          .isTrue();
    }
  }

  @Provide
  Arbitrary<Double> azimuths() {
    return Arbitraries.doubles().between(0, 360);
  }

  /** Plots every 100 m over 40 km north and over 40 km east of a place. */
  @ParameterizedTest
  @ValueSource(doubles = {-84.8, -60, 0, 35, 52, 65, 75, 84.4})
  void shouldMakeCellsOfAboutFiveKilometres(double lat) {
    double middleOfRow = (Math.floor((lat + 90) / 0.045) + 0.5) * 0.045 - 90;
    GeoPosition place = at(20, middleOfRow);
    double degreesIn100MetresEast =
        Math.toDegrees(100 / (6_378_137 * Math.cos(Math.toRadians(place.lat()))));
    Set<String> northward = new HashSet<>();
    Set<String> eastward = new HashSet<>();
    for (int i = 0; i < 400; i++) {
      northward.addAll(IsolationCells.cellsOf(plotAt(Fields.from(place, 0, 100.0 * i)), 2026));
      GeoPosition east = at(20 + i * degreesIn100MetresEast, place.lat());
      eastward.addAll(IsolationCells.cellsOf(plotAt(east), 2026));
    }
    assertThat(northward.stream().map(cell -> cell.split(":", -1)[2]).distinct().count())
        .isBetween(8L, 10L);
    assertThat(eastward).hasSizeBetween(8, 10);
  }

  @ParameterizedTest
  @ValueSource(doubles = {85.01, 89, 90, -85.01, -90})
  void shouldRefusePolarOutlines(double lat) {
    Outline polar = plotAt(at(20, lat));
    InvalidOutline refusal =
        catchThrowableOfType(
            InvalidOutline.class, () -> IsolationCells.cellsWithin(polar, REACH_M, 2026));
    assertThat(refusal.fault()).isEqualTo(Fault.POLAR);
    assertThat(refusal).hasMessageContaining("-85 to 85 degrees");
    assertThatThrownBy(() -> IsolationCells.cellsOf(polar, 2026))
        .isInstanceOf(InvalidOutline.class);
  }

  @ParameterizedTest
  @ValueSource(doubles = {-1, 50_001, Double.NaN, Double.POSITIVE_INFINITY})
  void shouldRefuseAReachOutOfItsLimits(double reachM) {
    assertThatThrownBy(() -> IsolationCells.cellsWithin(plotAt(at(10, 52)), reachM, 2026))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("outside 0 to 50000 m");
  }
}
