package org.kornspur.api.export.geojson;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.PollenSourceSeen;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.file.GeoJsonFields;
import org.kornspur.ingest.json.AvroJson;
import org.kornspur.processors.ground.FloweringWindow;
import org.kornspur.processors.ground.GeoPosition;
import org.kornspur.processors.ground.IsolationZone;

/**
 * Features of GeoJSON (RFC 7946). A fact has a property for each of its fields, named as the
 * columns of a table are, so that {@link org.kornspur.ingest.file.FactTable} reads the same fact
 * from it; what was calculated beside it has names of its own ({@link GeoJsonFields}).
 */
public final class GroundFeatures {
  public static final String MEDIA_TYPE = "application/geo+json";

  /** A centimetre on the ground. */
  private static final double PLACES = 1e7;

  private static final JsonNodeFactory NODES = JsonNodeFactory.instance;

  /** The distance that a crop must keep, metres, and where that stands. */
  public record Required(double distanceM, String rulebookId, String section) {}

  private GroundFeatures() {}

  public static ObjectNode collection(Collection<ObjectNode> features) {
    ObjectNode collection = NODES.objectNode();
    collection.put("type", "FeatureCollection");
    collection.putArray("features").addAll(features);
    return collection;
  }

  /**
   * A field crop.
   *
   * @param standing as it is judged; empty where it is not yet
   * @param flowering the days that count, as declared and as seen
   */
  public static ObjectNode fieldCrop(
      FieldCropDeclared crop, Optional<String> standing, FloweringWindow flowering) {
    ObjectNode feature = fact(crop, GeoJsonFields.FIELD_CROP);
    ObjectNode properties = (ObjectNode) feature.get("properties");
    standing.ifPresent(state -> properties.put(GeoJsonFields.STANDING, state));
    putDay(properties, GeoJsonFields.FLOWERS_FROM, flowering.from());
    putDay(properties, GeoJsonFields.FLOWERS_TO, flowering.to());
    return feature;
  }

  private static void putDay(ObjectNode properties, String name, Optional<LocalDate> day) {
    day.ifPresent(known -> properties.put(name, known.toString()));
  }

  public static ObjectNode pollenSource(PollenSourceSeen source) {
    return fact(source, GeoJsonFields.POLLEN_SOURCE);
  }

  /** The ground on which no foreign rye may flower with a crop. */
  public static ObjectNode isolationZone(
      FieldCropDeclared crop, IsolationZone zone, Required required) {
    ObjectNode feature = NODES.objectNode();
    feature.put("type", "Feature");
    ArrayNode rings = polygon(feature);
    rings.add(ring(rounded(zone.shell()), true));
    zone.holes().forEach(hole -> rings.add(ring(rounded(hole), false)));
    feature
        .putObject("properties")
        .put(GeoJsonFields.FEATURE, GeoJsonFields.ISOLATION_ZONE)
        .put("cropId", crop.getCropId())
        .put("fieldId", crop.getFieldId())
        .put("cropYear", crop.getCropYear())
        .put("category", crop.getCategory().name())
        .put(GeoJsonFields.DISTANCE, required.distanceM())
        .put(GeoJsonFields.DISTANCE_SOURCE, required.rulebookId() + ", " + required.section());
    return feature;
  }

  private static List<GeoPosition> rounded(List<GeoPosition> ring) {
    return ring.stream()
        .map(
            place ->
                new GeoPosition(
                    Math.rint(place.lon() * PLACES) / PLACES,
                    Math.rint(place.lat() * PLACES) / PLACES))
        .toList();
  }

  private static ObjectNode fact(SpecificRecord fact, String kind) {
    ObjectNode json = AvroJson.write(fact);
    List<GeoPosition> corners = new ArrayList<>();
    json.remove(GeoJsonFields.OUTLINE)
        .forEach(
            corner ->
                corners.add(
                    new GeoPosition(
                        corner.get("lon").doubleValue(), corner.get("lat").doubleValue())));
    boolean isClosed = corners.get(0).equals(corners.get(corners.size() - 1));
    List<GeoPosition> ring = isClosed ? corners.subList(0, corners.size() - 1) : corners;
    ObjectNode feature = NODES.objectNode();
    feature.put("type", "Feature");
    feature.put("id", FactType.idOf(fact));
    polygon(feature).add(ring(ring, true));
    ObjectNode properties = feature.putObject("properties");
    properties.put(GeoJsonFields.FEATURE, kind);
    json.remove("type");
    put(properties, "", json.remove("header"));
    put(properties, "", json);
    if (!isCounterclockwise(ring)) {
      properties.put(GeoJsonFields.CLOCKWISE, true);
    }
    if (isClosed) {
      properties.put(GeoJsonFields.CLOSED, true);
    }
    return feature;
  }

  /** Fields of a record within are named behind it, as {@code correction.reason}. */
  private static void put(ObjectNode properties, String before, JsonNode json) {
    json.properties()
        .forEach(
            field -> {
              if (field.getValue().isObject()) {
                put(properties, before + field.getKey() + ".", field.getValue());
              } else if (!field.getValue().isNull()) {
                properties.set(before + field.getKey(), field.getValue());
              }
            });
  }

  private static ArrayNode polygon(ObjectNode feature) {
    return feature.putObject("geometry").put("type", "Polygon").putArray("coordinates");
  }

  /** A closed ring; outer rings run counterclockwise and holes clockwise (section 3.1.6). */
  private static ArrayNode ring(List<GeoPosition> corners, boolean isOuter) {
    List<GeoPosition> ring = new ArrayList<>(corners);
    if (isCounterclockwise(corners) != isOuter) {
      Collections.reverse(ring.subList(1, ring.size()));
    }
    ring.add(ring.get(0));
    ArrayNode positions = NODES.arrayNode();
    ring.forEach(place -> positions.addArray().add(place.lon()).add(place.lat()));
    return positions;
  }

  private static boolean isCounterclockwise(List<GeoPosition> ring) {
    double twiceArea = 0;
    GeoPosition first = ring.get(0);
    for (int at = 1; at + 1 < ring.size(); at++) {
      GeoPosition here = ring.get(at);
      GeoPosition next = ring.get(at + 1);
      twiceArea +=
          eastOf(first, here) * (next.lat() - first.lat())
              - eastOf(first, next) * (here.lat() - first.lat());
    }
    return twiceArea >= 0;
  }

  /** Degrees, across the 180th meridian too. */
  private static double eastOf(GeoPosition first, GeoPosition other) {
    return Math.IEEEremainder(other.lon() - first.lon(), 360);
  }
}
