package org.kornspur.api.export.geojson;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.apache.avro.specific.SpecificRecord;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kornspur.api.export.DemoEntries;
import org.kornspur.api.text.TableTexts;
import org.kornspur.contract.FactHeader;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.GeoPoint;
import org.kornspur.contract.PollenSourceSeen;
import org.kornspur.ingest.contract.Fingerprint;
import org.kornspur.ingest.file.FactTable;
import org.kornspur.ingest.file.TableReadingOptions;
import org.kornspur.ingest.file.TableRow;
import org.kornspur.ingest.json.ReadResult;
import org.kornspur.processors.dossier.Entry;
import org.kornspur.processors.ground.FloweringWindow;
import org.kornspur.processors.ground.IsolationZone;
import org.kornspur.processors.ground.Outline;
import org.locationtech.jts.algorithm.Orientation;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.io.geojson.GeoJsonReader;

/**
 * Features as a reader of another make takes them (JTS, jts-io-common), held against the rules of
 * RFC 7946, and read back into facts.
 */
class GroundFeaturesTest {
  private static final GroundFeatures.Required REQUIRED =
      new GroundFeatures.Required(1000, "EU", "Annex I");

  @TempDir Path folder;

  @Test
  void whatGoesOutComesInAsTheSameFacts() throws Exception {
    List<SpecificRecord> facts = demoFacts();
    assertThat(facts).hasSizeGreaterThan(20).hasAtLeastOneElementOfType(PollenSourceSeen.class);

    assertThat(read(collection(facts)))
        .containsExactlyInAnyOrderElementsOf(facts.stream().map(Fingerprint::of).toList());
  }

  /** Corners on record may run either way, and may repeat the first as the last. */
  @Test
  void cornersComeBackInTheirOrder() throws Exception {
    FieldCropDeclared crop = firstCrop();
    List<GeoPoint> reversed = new ArrayList<>(crop.getOutline());
    Collections.reverse(reversed);
    List<GeoPoint> closed = new ArrayList<>(reversed);
    closed.add(closed.get(0));
    FieldCropDeclared other =
        FieldCropDeclared.newBuilder(crop)
            .setHeader(withId(crop, "other"))
            .setOutline(reversed)
            .build();
    FieldCropDeclared third =
        FieldCropDeclared.newBuilder(crop)
            .setHeader(withId(crop, "third"))
            .setOutline(closed)
            .build();
    List<SpecificRecord> facts = List.of(crop, other, third);

    assertThat(read(collection(facts)))
        .containsExactlyInAnyOrderElementsOf(facts.stream().map(Fingerprint::of).toList());
  }

  @Test
  void aReaderOfAnotherMakeTakesItByTheRulesOfTheStandard() throws Exception {
    ObjectNode collection = collection(demoFacts());
    FieldCropDeclared crop = firstCrop();
    ((ArrayNode) collection.get("features"))
        .add(
            GroundFeatures.isolationZone(
                crop, IsolationZone.around(Outline.of(crop.getOutline()), 1000), REQUIRED));

    // section 4: no other coordinate system; section 3.3: type and features
    assertThat(collection.has("crs")).isFalse();
    assertThat(collection.get("type").asText()).isEqualTo("FeatureCollection");
    for (JsonNode feature : collection.get("features")) {
      // section 3.2: type, geometry and properties
      assertThat(feature.get("type").asText()).isEqualTo("Feature");
      assertThat(feature.get("properties").isObject()).isTrue();
      Geometry read = new GeoJsonReader().read(feature.get("geometry").toString());
      // section 3.1.6: linear rings, the outer counterclockwise, holes clockwise
      assertThat(read).isInstanceOf(Polygon.class);
      Polygon polygon = (Polygon) read;
      assertThat(polygon.isValid()).isTrue();
      assertThat(Orientation.isCCW(polygon.getExteriorRing().getCoordinates())).isTrue();
      for (int hole = 0; hole < polygon.getNumInteriorRing(); hole++) {
        assertThat(Orientation.isCCW(polygon.getInteriorRingN(hole).getCoordinates())).isFalse();
      }
      // section 4: longitude first, both in degrees
      assertThat(polygon.getEnvelopeInternal().getMaxX()).isBetween(-180.0, 180.0);
      assertThat(polygon.getEnvelopeInternal().getMaxY()).isBetween(-90.0, 90.0);
    }
  }

  @Test
  void aZoneHasTheDistanceAndHoldsItsField() throws Exception {
    FieldCropDeclared crop = firstCrop();
    ObjectNode zone =
        GroundFeatures.isolationZone(
            crop, IsolationZone.around(Outline.of(crop.getOutline()), 1000), REQUIRED);
    GeoJsonReader reader = new GeoJsonReader();

    Geometry outer = reader.read(zone.get("geometry").toString());
    Geometry inner =
        reader.read(
            GroundFeatures.fieldCrop(crop, Optional.empty(), FloweringWindow.unknown())
                .get("geometry")
                .toString());

    assertThat(outer.contains(inner)).isTrue();
    // a degree of latitude is 111.2 km to within a part in a hundred
    assertThat(outer.getEnvelopeInternal().getMaxY() - inner.getEnvelopeInternal().getMaxY())
        .isCloseTo(1 / 111.2, within(0.0001));
    assertThat(zone.get("properties").get("requiredDistanceM").asDouble()).isEqualTo(1000);
    assertThat(zone.get("properties").get("requiredBy").asText()).isEqualTo("EU, Annex I");
  }

  @Test
  void whatWasJudgedStandsBesideTheFact() {
    JsonNode properties =
        GroundFeatures.fieldCrop(
                firstCrop(),
                Optional.of("FIT"),
                FloweringWindow.known(
                    Optional.of(LocalDate.of(2026, 5, 20)), Optional.of(LocalDate.of(2026, 6, 3))))
            .get("properties");

    assertThat(properties.get("feature").asText()).isEqualTo("FIELD_CROP");
    assertThat(properties.get("standing").asText()).isEqualTo("FIT");
    assertThat(properties.get("flowersFrom").asText()).isEqualTo("2026-05-20");
    assertThat(properties.get("flowersTo").asText()).isEqualTo("2026-06-03");
  }

  private static FactHeader withId(FieldCropDeclared crop, String id) {
    return FactHeader.newBuilder(crop.getHeader()).setFactId(id).build();
  }

  private static ObjectNode collection(List<SpecificRecord> facts) {
    return GroundFeatures.collection(
        facts.stream()
            .map(
                fact ->
                    fact instanceof FieldCropDeclared crop
                        ? GroundFeatures.fieldCrop(
                            crop, Optional.of("FIT"), FloweringWindow.flowering(crop))
                        : GroundFeatures.pollenSource((PollenSourceSeen) fact))
            .toList());
  }

  private static List<SpecificRecord> demoFacts() {
    return DemoEntries.all().stream()
        .<SpecificRecord>map(Entry::fact)
        .filter(fact -> fact instanceof FieldCropDeclared || fact instanceof PollenSourceSeen)
        .toList();
  }

  private static FieldCropDeclared firstCrop() {
    return demoFacts().stream()
        .filter(FieldCropDeclared.class::isInstance)
        .map(FieldCropDeclared.class::cast)
        .findFirst()
        .orElseThrow();
  }

  private List<String> read(ObjectNode collection) throws Exception {
    Path file = Files.writeString(folder.resolve("fields.geojson"), collection.toString());
    FactTable table =
        FactTable.open(
            file,
            "fields.geojson",
            new TableReadingOptions(
                TableTexts.all(),
                ZoneOffset.UTC,
                Optional.empty(),
                Map.of(),
                Optional.empty(),
                Optional.empty(),
                "somebody else",
                Instant.parse("2026-11-29T12:00:00Z"),
                "",
                Optional.empty()));
    assertThat(table.form().sheets()).allSatisfy(sheet -> assertThat(sheet.unknown()).isEmpty());
    List<TableRow> rows = new ArrayList<>();
    table.read(rows::add);
    assertThat(rows).allSatisfy(row -> assertThat(row.problems()).isEmpty());
    return rows.stream()
        .map(row -> Fingerprint.of(((ReadResult.Fact) row.result()).fact()))
        .toList();
  }
}
