package org.kornspur.ingest.file;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.kornspur.contract.GeoPoint;
import org.kornspur.ingest.problem.GeoJsonProblem;
import org.kornspur.ingest.problem.Given;
import org.kornspur.ingest.sheet.SheetCell;
import org.kornspur.ingest.statement.Value.Amount;

/**
 * The geometry of a feature as an outline. Where it can be one, its corners are those of the ring
 * without the last, which repeats the first; a height is left out.
 *
 * @param corners empty where something is wrong
 */
record GeoJsonOutline(JsonNode geometry, List<GeoPoint> corners, Optional<Fault> fault) {
  private static final int LEAST_POSITIONS = 4;

  /**
   * Farther than this from all other fields of a site a field does not lie: common practice, no
   * source.
   */
  private static final double FARTHEST_KM = 1_000;

  private static final double KM_OF_A_DEGREE = 111.2;
  private static final int SHOWN_CHARACTERS = 1_000;

  record Fault(Given given, GeoJsonProblem why) {}

  static GeoJsonOutline of(JsonNode geometry) {
    JsonNode rings = geometry.path("coordinates");
    String type = geometry.path("type").asText();
    if (type.equals("MultiPolygon") && rings.size() > 1) {
      return faulty(geometry, new Given.ListOf(rings.size()), new GeoJsonProblem.SeveralAreas());
    }
    JsonNode polygon = type.equals("MultiPolygon") ? rings.path(0) : rings;
    boolean isPolygon = type.equals("MultiPolygon") || type.equals("Polygon");
    if (!isPolygon || polygon.isEmpty() || !polygon.path(0).isArray()) {
      Given given = type.isEmpty() ? new Given.Absent() : Given.text(type, false);
      return faulty(geometry, given, new GeoJsonProblem.NoPolygon());
    } else if (polygon.size() > 1) {
      return faulty(geometry, new Given.ListOf(polygon.size()), new GeoJsonProblem.Hole());
    }
    return ofRing(geometry, polygon.path(0));
  }

  private static GeoJsonOutline ofRing(JsonNode geometry, JsonNode ring) {
    List<GeoPoint> corners = new ArrayList<>();
    for (JsonNode position : ring) {
      if (!position.path(0).isNumber() || !position.path(1).isNumber()) {
        return faulty(
            geometry, Given.text(position.toString(), false), new GeoJsonProblem.NoPolygon());
      }
      GeoPoint corner =
          new GeoPoint(position.path(0).doubleValue(), position.path(1).doubleValue());
      if (!(Math.abs(corner.getLon()) <= 180 && Math.abs(corner.getLat()) <= 90)) {
        return faulty(geometry, at(corner), new GeoJsonProblem.NoDegrees());
      }
      corners.add(corner);
    }
    int last = corners.size() - 1;
    if (corners.size() < LEAST_POSITIONS || !corners.get(0).equals(corners.get(last))) {
      return faulty(geometry, new Given.Corners(corners.size()), new GeoJsonProblem.OpenRing());
    }
    return new GeoJsonOutline(geometry, List.copyOf(corners.subList(0, last)), Optional.empty());
  }

  private static GeoJsonOutline faulty(JsonNode geometry, Given given, GeoJsonProblem why) {
    return new GeoJsonOutline(geometry, List.of(), Optional.of(new Fault(given, why)));
  }

  private static Given at(GeoPoint corner) {
    return new Given.CornerAt(
        new Amount(corner.getLon(), "deg"), new Amount(corner.getLat(), "deg"));
  }

  /** Where it lies; empty where something is wrong. */
  Optional<GeoPoint> place() {
    return corners.stream().findFirst();
  }

  /**
   * The cell of the outline, its corners as they are on record.
   *
   * @param middle where the other fields lie
   */
  SheetCell cell(JsonNode properties, Optional<GeoPoint> middle) {
    Optional<Fault> wrong = fault.or(() -> middle.flatMap(this::exchanged));
    if (wrong.isPresent()) {
      String text = geometry.toString();
      return new SheetCell.Unfit(
          text.substring(0, Math.min(text.length(), SHOWN_CHARACTERS)),
          wrong.get().given(),
          wrong.get().why());
    }
    List<GeoPoint> recorded = new ArrayList<>(corners);
    if (properties.path(GeoJsonFields.CLOCKWISE).asBoolean()) {
      Collections.reverse(recorded.subList(1, recorded.size()));
    }
    if (properties.path(GeoJsonFields.CLOSED).asBoolean()) {
      recorded.add(recorded.get(0));
    }
    return new SheetCell.Text(
        recorded.stream()
            .map(corner -> corner.getLon() + " " + corner.getLat())
            .collect(Collectors.joining(";")));
  }

  /** Far from the others as it stands, and near them with longitude and latitude exchanged. */
  private Optional<Fault> exchanged(GeoPoint middle) {
    GeoPoint first = corners.get(0);
    double km = roughKm(first.getLon(), first.getLat(), middle);
    return km > FARTHEST_KM && roughKm(first.getLat(), first.getLon(), middle) < FARTHEST_KM
        ? Optional.of(new Fault(at(first), new GeoJsonProblem.AxesExchanged((int) Math.round(km))))
        : Optional.empty();
  }

  /** On a sphere; it only tells near from far. */
  private static double roughKm(double lon, double lat, GeoPoint other) {
    double east = Math.abs(lon - other.getLon());
    double across =
        Math.min(east, 360 - east) * Math.cos(Math.toRadians((lat + other.getLat()) / 2));
    return KM_OF_A_DEGREE * Math.hypot(across, lat - other.getLat());
  }
}
