package org.kornspur.api.web.map;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;
import net.sf.geographiclib.Geodesic;
import net.sf.geographiclib.GeodesicData;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.api.web.field.SvgPath.Point;
import org.kornspur.api.web.map.SeasonMapData.Conflict;
import org.kornspur.api.web.map.SeasonMapData.Flowering;
import org.kornspur.api.web.map.SeasonMapData.Place;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.Report.Neighbour;
import org.kornspur.processors.ground.FloweringWindow;
import org.kornspur.processors.ground.GeoPosition;
import org.kornspur.processors.ground.Outline;
import org.kornspur.processors.ground.OutlineDistance;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.standing.StandingState;

/** What is drawn, held against GeographicLib, which knows no map. */
class SeasonDrawingTest {
  private static final double LAT = 52.7;
  private static final double LON = 14.8;

  /** Council Directive 66/402/EEC, Annex I: 500 m for the mixture of hybrid rye. */
  private static final Limit ASKED =
      new Limit(
          Quantity.ISOLATION_DISTANCE,
          Limit.Sense.AT_LEAST,
          500,
          "m",
          null,
          "EU",
          "1",
          "",
          "",
          LocalDate.of(1995, 7, 1),
          Optional.empty(),
          true,
          "",
          Optional.empty());

  /** A square field whose south-western corner lies so far from the middle of the season. */
  private static Place field(String id, double eastM, double northM, double sideM) {
    return field(
        id,
        eastM,
        northM,
        sideM,
        new FloweringWindow(
            Optional.of(LocalDate.of(2025, 5, 28)), Optional.of(LocalDate.of(2025, 6, 11))));
  }

  private static Place field(
      String id, double eastM, double northM, double sideM, FloweringWindow flowers) {
    return new Place(
        Subject.crop(id),
        Optional.of(id),
        Optional.of(StandingState.FIT),
        Optional.empty(),
        Outline.ofPositions(
            List.of(
                at(eastM, northM),
                at(eastM + sideM, northM),
                at(eastM + sideM, northM + sideM),
                at(eastM, northM + sideM))),
        flowers,
        Optional.of(ASKED));
  }

  private static GeoPosition at(double eastM, double northM) {
    GeodesicData end =
        Geodesic.WGS84.Direct(
            LAT, LON, Math.toDegrees(Math.atan2(eastM, northM)), Math.hypot(eastM, northM));
    return new GeoPosition(end.lon2, end.lat2);
  }

  private static SeasonMapData ground(Place... places) {
    return new SeasonMapData(2025, List.of(places), List.of(), List.of(), List.of());
  }

  /** In a season 20 km wide the middles of fields lie where they lie, to 0.2 % of the way. */
  @Test
  void fieldsLieWhereTheyLie() {
    SeasonMapData ground =
        ground(
            field("W", -10_000, -4_000, 300), field("E", 9_700, 3_700, 300), field("M", 0, 0, 300));
    SeasonDrawing drawing = SeasonDrawing.of(ground, Optional.empty()).orElseThrow();
    Point west = middle(drawing, "W");
    Point east = middle(drawing, "E");
    double drawnM = Math.hypot(east.x() - west.x(), east.y() - west.y());
    assertThat(drawnM).isCloseTo(Math.hypot(19_700, 7_700), within(42.0));
    assertThat(east.y()).isLessThan(west.y());
  }

  private static Point middle(SeasonDrawing drawing, String id) {
    return drawing.figures().stream()
        .filter(figure -> figure.place().subject().id().equals(id))
        .findFirst()
        .orElseThrow()
        .middle();
  }

  /** A line between crop and source is as long as it says, within the bound of the map. */
  @ParameterizedTest
  @CsvSource({"318.7, 0", "318.7, 9000", "80, -9000"})
  void aConflictIsDrawnAtItsLength(double apartM, double northM) {
    Place crop = field("C", 0, northM, 300);
    Place other = field("D", 300 + apartM, northM, 300);
    OutlineDistance found = OutlineDistance.between(crop.outline(), other.outline());
    Conflict conflict = conflict(crop, other, found);
    SeasonMapData ground =
        new SeasonMapData(
            2025,
            List.of(crop, other, field("S", 0, -10_000, 300), field("N", 0, 10_000, 300)),
            List.of(conflict, conflict(other, crop, found)),
            List.of(),
            List.of());
    SeasonDrawing drawing = SeasonDrawing.of(ground, Optional.empty()).orElseThrow();
    assertThat(drawing.lines()).as("one line for both").hasSize(1);
    assertThat(drawing.lines().get(0).distanceM()).isCloseTo(apartM, within(0.1));
    assertThat(length(drawing.lines().get(0).path())).isCloseTo(apartM, within(apartM / 400 + 0.2));
  }

  private static Conflict conflict(Place crop, Place other, OutlineDistance found) {
    return new Conflict(
        crop.subject(),
        new Neighbour(
            other.subject(),
            found.distanceM(),
            9,
            found.onFirst(),
            found.onSecond(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            "f",
            Optional.empty(),
            Optional.empty()),
        true,
        ASKED,
        true,
        true);
  }

  private static double length(String path) {
    double[] numbers =
        Pattern.compile("-?[\\d.]+")
            .matcher(path)
            .results()
            .mapToDouble(found -> Double.parseDouble(found.group()))
            .toArray();
    return Math.hypot(numbers[2] - numbers[0], numbers[3] - numbers[1]);
  }

  /** Its corners lie at the distance that is asked for, on the ellipsoid. */
  @Test
  void theZoneIsAsWideAsIsAskedFor() {
    Place crop = field("C", 0, 0, 300);
    SeasonDrawing drawing = SeasonDrawing.of(ground(crop), Optional.empty()).orElseThrow();
    String zone = drawing.figures().get(0).zone();
    double x = 0;
    double y = 0;
    double[] least = {1e9, 1e9};
    double[] most = {-1e9, -1e9};
    for (String step : zone.replace("z", "").substring(1).split("l")) {
      x += Double.parseDouble(step.split(" ")[0]);
      y += Double.parseDouble(step.split(" ")[1]);
      least = new double[] {Math.min(least[0], x), Math.min(least[1], y)};
      most = new double[] {Math.max(most[0], x), Math.max(most[1], y)};
    }
    assertThat(most[0] - least[0]).isCloseTo(1300, within(2.0));
    assertThat(most[1] - least[1]).isCloseTo(1300, within(2.0));
  }

  @Test
  void whatIsShownFromNearHoldsTheZone() {
    Place near = field("C", 0, 0, 300);
    SeasonMapData ground = ground(near, field("D", 20_000, 0, 300));
    SeasonDrawing drawing = SeasonDrawing.of(ground, Optional.of(near)).orElseThrow();
    assertThat(drawing.whole().width()).isGreaterThan(20_000);
    assertThat(drawing.shown().width()).isBetween(1300.0, 2000.0);
    assertThat(drawing.bar().length() * drawing.unit())
        .isCloseTo(drawing.bar().metres(), within(drawing.bar().metres() / 100.0));
  }

  /** Unknown days leave it in flower, as the gate of isolation has it; known ones end that. */
  @ParameterizedTest
  @CsvSource({
    "2025-05-27, 2025-05-28, 2025-06-11, NOT_IN_FLOWER",
    "2025-05-28, 2025-05-28, 2025-06-11, IN_FLOWER",
    "2025-06-11, 2025-05-28, 2025-06-11, IN_FLOWER",
    "2025-06-12, 2025-05-28, 2025-06-11, NOT_IN_FLOWER",
    "2025-06-01, , 2025-06-11, ASSUMED",
    "2025-06-12, , 2025-06-11, NOT_IN_FLOWER",
    "2025-06-01, , , ASSUMED"
  })
  void flowersOnADay(LocalDate day, LocalDate from, LocalDate to, Flowering expected) {
    Place place =
        field(
            "C",
            0,
            0,
            300,
            FloweringWindow.known(Optional.ofNullable(from), Optional.ofNullable(to)));
    assertThat(place.on(day)).isEqualTo(expected);
  }

  /** Names do not stand on marks or on each other. */
  @Test
  void namesHaveRoomOrAreLeftOut() {
    SeasonMapData ground =
        ground(
            field("C25-A", 0, 0, 100), field("C25-B", 200, 0, 100), field("C25-C", 30_000, 0, 100));
    SeasonDrawing far = SeasonDrawing.of(ground, Optional.empty()).orElseThrow();
    assertThat(far.figures().stream().filter(SeasonDrawing.Figure::labelled))
        .extracting(figure -> figure.place().subject().id())
        .contains("C25-C")
        .doesNotContain("C25-B");
  }

  /** A site with thousands of fields still gets a page that a browser draws. */
  @Test
  void aLargeSeasonStaysSmall() {
    List<Place> places = new ArrayList<>();
    for (int at = 0; at < 500; at++) {
      places.add(field("C25-" + at, (at % 25) * 2_000.0, (at / 25) * 2_000.0, 300));
    }
    SeasonDrawing drawing =
        SeasonDrawing.of(
                new SeasonMapData(2025, places, List.of(), List.of(), List.of()), Optional.empty())
            .orElseThrow();
    int letters =
        drawing.figures().stream()
            .mapToInt(figure -> figure.zone().length() + figure.outline().length())
            .sum();
    assertThat(letters / places.size()).isLessThan(700);
  }
}
