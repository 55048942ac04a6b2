package org.kornspur.processors.ground;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.kornspur.processors.ground.Fields.at;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Places seen from a field, held against what is measured between outlines. */
class SightedPlaceTest {
  private static final Outline FIELD =
      Outline.ofPositions(Fields.ring(at(10.5, 52.2), 0, 0, 400, 0, 400, 200, 0, 200));

  /** Across a straight side the way is the shortest one. */
  @ParameterizedTest
  @CsvSource({"0, 300", "90, 318.7", "180, 25", "270, 1500", "360, 300"})
  void metresAreCountedFromTheEdge(double bearingDeg, double distanceM) {
    SightedPlace seen = SightedPlace.beyondEdge(FIELD, bearingDeg, distanceM);
    Outline spot = Outline.ofPositions(seen.square(1));
    assertThat(OutlineDistance.between(FIELD, spot).distanceM() + 0.5)
        .isCloseTo(distanceM, within(0.01));
  }

  /** Over a corner it is as long as was said, and no source lies nearer than it is drawn. */
  @Test
  void overACornerTheBearingIsKept() {
    SightedPlace seen = SightedPlace.beyondEdge(FIELD, 45, 300);
    GeoPosition middle = FieldDrawing.middleOf(FIELD);
    double fromMiddleM = LocalPlane.distanceM(middle, seen.place());
    assertThat(fromMiddleM).isCloseTo(300 + 100 * Math.sqrt(2), within(0.1));
  }

  @Test
  void theSquareIsAsWideAsWasSaid() {
    List<GeoPosition> corners = new SightedPlace(at(14.6, 52.6)).square(20);
    for (int i = 0; i < 4; i++) {
      assertThat(LocalPlane.distanceM(corners.get(i), corners.get((i + 1) % 4)))
          .isCloseTo(20, within(0.001));
    }
    assertThat(Area.hectares(Outline.ofPositions(corners))).isCloseTo(0.04, within(1e-5));
  }
}
