package org.kornspur.api.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.api.query.view.GateView;
import org.kornspur.api.query.view.LimitView;
import org.kornspur.standing.VerdictState;

/**
 * Which values are close to their limit: within a tenth of the room to the best that can be. Common
 * practice, no source.
 */
class ReleaseCautionsTest {

  @ParameterizedTest
  @CsvSource({
    // germination of at least 85 %: 15 percentage points of room
    "AT_LEAST, 85, %, 86.5, true",
    "AT_LEAST, 85, %, 86.6, false",
    // purity of at least 98 %: 2 percentage points of room
    "AT_LEAST, 98, %, 98.2, true",
    "AT_LEAST, 98, %, 98.3, false",
    "AT_MOST, 15, %, 13.5, true",
    "AT_MOST, 15, %, 13.4, false",
    // counts: the limit itself, and one less from ten on
    "AT_MOST, 4, bodies, 4, true",
    "AT_MOST, 4, bodies, 3, false",
    "AT_MOST, 10, seeds, 9, true",
    "AT_MOST, 10, seeds, 8, false",
    // none is allowed and none was found: there is nothing better
    "AT_MOST, 0, seeds, 0, false",
    // as much as is asked for is the usual size of a sample
    "AT_LEAST, 400, seeds, 400, false",
    "AT_LEAST, 1000, g, 1000, false",
    "AT_LEAST, 0.98, plants/plant, 0.981, true",
    "AT_LEAST, 0.98, plants/plant, 0.99, false",
  })
  void aValueIsCloseWithinATenthOfTheRoom(
      String sense, double limit, String unit, double value, boolean isClose) {
    assertThat(ReleaseCautions.isClose(gate(VerdictState.MET, sense, limit, unit, value)))
        .isEqualTo(isClose);
  }

  @ParameterizedTest
  @CsvSource({"NOT_MET", "OWED"})
  void whatIsNotMetIsNotMerelyClose(VerdictState state) {
    assertThat(ReleaseCautions.isClose(gate(state, "AT_MOST", 4, "bodies", 4))).isFalse();
  }

  private static GateView gate(
      VerdictState state, String sense, double limit, String unit, double value) {
    double margin = sense.equals("AT_LEAST") ? value - limit : limit - value;
    return new GateView(
        "GATE",
        "",
        "",
        state,
        value,
        unit,
        margin,
        null,
        new LimitView(
            "QUANTITY",
            sense,
            limit,
            unit,
            "EU",
            "edition",
            "section",
            LocalDate.EPOCH,
            true,
            "source",
            "wording"),
        null,
        List.of(),
        "",
        "",
        List.of(),
        List.of(),
        List.of());
  }
}
