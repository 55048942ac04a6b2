package org.kornspur.processors.ground;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.kornspur.processors.ground.Fields.at;
import static org.kornspur.processors.ground.Fields.ring;

import java.util.ArrayList;
import java.util.List;
import net.sf.geographiclib.Geodesic;
import net.sf.geographiclib.GeodesicData;
import net.sf.geographiclib.GeodesicLine;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.contract.GeoPoint;
import org.kornspur.processors.ground.InvalidOutline.Fault;

class OutlineTest {
  private static final GeoPosition HOME = at(10.5, 52.2);
  private static final List<GeoPosition> SQUARE = ring(HOME, 0, 0, 400, 0, 400, 400, 0, 400);

  private static InvalidOutline refused(List<GeoPosition> corners) {
    return catchThrowableOfType(InvalidOutline.class, () -> Outline.ofPositions(corners));
  }

  private static InvalidOutline refusedHoles(List<List<GeoPosition>> holes) {
    return catchThrowableOfType(InvalidOutline.class, () -> Outline.ofPositions(SQUARE, holes));
  }

  @Test
  void shouldTakeCornersAsTheContractCarriesThem() {
    Outline outline =
        Outline.of(
            List.of(
                new GeoPoint(10.0, 52.0), new GeoPoint(10.01, 52.0), new GeoPoint(10.0, 52.01)));
    assertThat(outline.corners()).containsExactly(at(10.0, 52.0), at(10.01, 52.0), at(10.0, 52.01));
    assertThat(outline.holes()).isEmpty();
  }

  @Test
  void shouldTakeARingThatIsClosedAlready() {
    List<GeoPosition> closed = new ArrayList<>(SQUARE);
    closed.add(SQUARE.get(0));
    assertThat(Outline.ofPositions(closed)).isEqualTo(Outline.ofPositions(SQUARE));
  }

  @Test
  void shouldTakeEitherDirection() {
    List<GeoPosition> reversed =
        List.of(SQUARE.get(3), SQUARE.get(2), SQUARE.get(1), SQUARE.get(0));
    assertThat(Area.hectares(Outline.ofPositions(reversed)))
        .isEqualTo(Area.hectares(Outline.ofPositions(SQUARE)));
  }

  @Test
  void shouldKeepItsOwnCopyOfTheCorners() {
    List<GeoPosition> given = new ArrayList<>(SQUARE);
    Outline outline = Outline.ofPositions(given);
    given.clear();
    assertThat(outline.corners()).hasSize(4);
  }

  @Test
  void shouldLieAcrossThe180thMeridian() {
    Outline across =
        Outline.ofPositions(
            List.of(at(179.99, 65), at(-179.99, 65), at(-179.99, 65.01), at(179.99, 65.01)));
    assertThat(Area.hectares(across)).isBetween(100.0, 110.0);
    assertThat(across.bounds().west()).isBetween(179.98, 179.99);
    assertThat(across.bounds().east()).isBetween(180.01, 180.02);
  }

  @Test
  void shouldCloseARingWhoseEndsAreWrittenOnBothSidesOfThe180thMeridian() {
    Outline outline =
        Outline.ofPositions(
            List.of(at(180, 65), at(-179.99, 65), at(-179.99, 65.01), at(-180, 65)));
    assertThat(outline.corners()).hasSize(3);
  }

  /** A geodesic between corners on one parallel runs poleward of it. */
  @ParameterizedTest
  @CsvSource({"84.9, 5000", "84.5, 30000", "65, 40000", "-75, 40000", "0, 5000"})
  void shouldHoldEveryPlaceOnItsEdgesInItsBounds(double lat, double lengthM) {
    GeoPosition a = at(179.95, lat);
    double lonDeg = Math.toDegrees(lengthM / (6_378_137 * Math.cos(Math.toRadians(lat))));
    GeoPosition b = at(Math.IEEEremainder(179.95 + lonDeg, 360), lat);
    GeoPosition equatorward = Fields.from(a, lat < 0 ? 0 : 180, 500);
    Bounds bounds = Outline.ofPositions(List.of(a, b, equatorward)).bounds();
    GeodesicLine edge = Geodesic.WGS84.InverseLine(a.lat(), a.lon(), b.lat(), b.lon());
    for (int i = 0; i <= 1_000; i++) {
      GeodesicData place = edge.Position(edge.Distance() * i / 1_000);
      double lon = place.lon2 < 0 ? place.lon2 + 360 : place.lon2;
      assertThat(place.lat2).isBetween(bounds.south(), bounds.north());
      assertThat(lon).isBetween(bounds.west(), bounds.east());
    }
  }

  @Test
  void shouldRefuseTwoCorners() {
    InvalidOutline refusal = refused(SQUARE.subList(0, 2));
    assertThat(refusal.fault()).isEqualTo(Fault.TOO_FEW_CORNERS);
    assertThat(refusal).hasMessageContaining("has 2 corners").hasMessageContaining("at least 3");
    assertThat(refused(List.of()).fault()).isEqualTo(Fault.TOO_FEW_CORNERS);
    assertThat(refused(List.of(SQUARE.get(0), SQUARE.get(1), SQUARE.get(0))).fault())
        .isEqualTo(Fault.TOO_FEW_CORNERS);
  }

  @ParameterizedTest
  @CsvSource({"NaN, 52", "10, NaN", "Infinity, 52", "10, -Infinity"})
  void shouldRefuseWhatIsNoNumber(double lon, double lat) {
    InvalidOutline refusal = refused(List.of(SQUARE.get(0), at(lon, lat), SQUARE.get(2)));
    assertThat(refusal.fault()).isEqualTo(Fault.NOT_A_NUMBER);
    assertThat(refusal).hasMessageContaining("Corner 2 of the outline");
    assertThat(refusal.place()).isEmpty();
  }

  @ParameterizedTest
  @CsvSource({"180.0001, 52", "-181, 52", "10, 90.0001", "10, -91", "360, 52"})
  void shouldRefuseDegreesOutOfRange(double lon, double lat) {
    InvalidOutline refusal = refused(List.of(SQUARE.get(0), SQUARE.get(1), at(lon, lat)));
    assertThat(refusal.fault()).isEqualTo(Fault.OUT_OF_RANGE);
    assertThat(refusal)
        .hasMessageContaining("Corner 3 of the outline")
        .hasMessageContaining("longitude " + lon)
        .hasMessageContaining("latitude " + lat);
  }

  @Test
  void shouldRefuseABowTieAndSayWhichEdgesCrossWhere() {
    InvalidOutline refusal = refused(ring(HOME, 0, 0, 400, 400, 400, 0, 0, 400));
    assertThat(refusal.fault()).isEqualTo(Fault.CROSSING);
    assertThat(refusal)
        .hasMessageContaining("dge 1-2 of the outline")
        .hasMessageContaining("dge 3-4 of the outline");
    GeoPosition crossing = Fields.offset(HOME, 200, 200);
    assertThat(GeodesicOracle.distanceM(refusal.place().orElseThrow(), crossing)).isLessThan(0.01);
  }

  @Test
  void shouldRefuseABowTieAcrossThe180thMeridian() {
    InvalidOutline refusal = refused(ring(at(180, 65), -200, 0, 200, 400, 200, 0, -200, 400));
    assertThat(refusal.fault()).isEqualTo(Fault.CROSSING);
  }

  @Test
  void shouldRefuseARingThatComesBackToOneOfItsCorners() {
    InvalidOutline refusal =
        refused(ring(HOME, 0, 0, 400, 0, 200, 200, 400, 400, 0, 400, 200, 200));
    assertThat(refusal.fault()).isEqualTo(Fault.CROSSING);
    assertThat(
            GeodesicOracle.distanceM(refusal.place().orElseThrow(), Fields.offset(HOME, 200, 200)))
        .isLessThan(0.01);
  }

  @Test
  void shouldRefuseASpikeAndSayAtWhichCorner() {
    InvalidOutline outward = refused(ring(HOME, 0, 0, 400, 0, 900, 0, 400, 0, 400, 400, 0, 400));
    assertThat(outward.fault()).isEqualTo(Fault.SPIKE);
    assertThat(outward).hasMessageContaining("spike at corner 3");
    InvalidOutline folded = refused(ring(HOME, 0, 0, 400, 0, 150, 0.001, 0, 400));
    assertThat(folded.fault()).isEqualTo(Fault.SPIKE);
    assertThat(folded).hasMessageContaining("spike at corner 2");
  }

  @Test
  void shouldRefuseCornersOnOneLine() {
    assertThat(refused(ring(HOME, 0, 0, 100, 0, 300, 0)).fault()).isEqualTo(Fault.SPIKE);
  }

  @Test
  void shouldAcceptACornerInTheMiddleOfAStraightEdge() {
    assertThat(Outline.ofPositions(ring(HOME, 0, 0, 100, 0, 300, 0, 300, 200)).corners())
        .hasSize(4);
  }

  @Test
  void shouldRefuseACornerGivenTwice() {
    InvalidOutline refusal = refused(ring(HOME, 0, 0, 400, 0, 400, 400, 400, 400.005, 0, 400));
    assertThat(refusal.fault()).isEqualTo(Fault.REPEATED_CORNER);
    assertThat(refusal).hasMessageContaining("Corners 3 and 4 of the outline are the same place");
    assertThat(refused(ring(HOME, 0, 0, 0, 0, 400, 400, 0, 400)).fault())
        .isEqualTo(Fault.REPEATED_CORNER);
  }

  @Test
  void shouldRefuseExchangedLongitudeAndLatitudeInOneCorner() {
    InvalidOutline refusal = refused(List.of(SQUARE.get(0), SQUARE.get(1), at(52.2, 10.5)));
    assertThat(refusal.fault()).isEqualTo(Fault.TOO_LARGE);
    assertThat(refusal).hasMessageContaining("Corner 3").hasMessageContaining("50 km at most");
  }

  @Test
  void shouldRefuseHolesThatLieWrong() {
    assertThat(refusedHoles(List.of(ring(HOME, 500, 0, 600, 0, 600, 90))).fault())
        .isEqualTo(Fault.HOLE_MISPLACED);
    assertThat(refusedHoles(List.of(ring(HOME, 300, 100, 600, 100, 300, 190))).fault())
        .isEqualTo(Fault.CROSSING);
    assertThat(
            refusedHoles(
                    List.of(
                        ring(HOME, 50, 50, 350, 50, 350, 350, 50, 350),
                        ring(HOME, 100, 100, 200, 100, 200, 200)))
                .fault())
        .isEqualTo(Fault.HOLE_MISPLACED);
    InvalidOutline bowTie = refusedHoles(List.of(ring(HOME, 50, 50, 90, 90, 90, 50, 50, 90)));
    assertThat(bowTie.fault()).isEqualTo(Fault.CROSSING);
    assertThat(bowTie).hasMessageContaining("of the hole 1");
    assertThat(refusedHoles(List.of(ring(HOME, 50, 50, 90, 90)))).hasMessageContaining("hole 1");
  }
}
