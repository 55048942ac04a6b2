package org.kornspur.ingest.file;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.kornspur.contract.GeoPoint;
import org.kornspur.contract.PollenSourceKind;
import org.kornspur.contract.PollenSourceSeen;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.json.ReadResult;
import org.kornspur.ingest.problem.OutlineProblem;
import org.kornspur.ingest.sheet.UnreadableTable;

class GeoJsonTableTest {
  private static final String RING = "[[10.1,52.3],[10.2,52.3],[10.2,52.4],[10.1,52.3]]";
  private static final String SEEN =
      """
      "sourceId": "%s", "kind": "RYE_CROP", "cropYear": 2026, "firstSeenOn": "2026-05-01", \
      "happenedAt": "2026-05-03T08:00:00Z", "sourceDocument": "note"\
      """;

  @TempDir Path folder;

  @Test
  void aFeatureIsAFactWithItsPropertiesAsFields() throws Exception {
    PollenSourceSeen fact =
        (PollenSourceSeen) onlyFact(collection(source("P-1", polygon(RING))), Optional.empty());

    assertThat(fact.getSourceId()).isEqualTo("P-1");
    assertThat(fact.getKind()).isEqualTo(PollenSourceKind.RYE_CROP);
    assertThat(fact.getOutline())
        .containsExactly(
            new GeoPoint(10.1, 52.3), new GeoPoint(10.2, 52.3), new GeoPoint(10.2, 52.4));
  }

  @Test
  void aMultiPolygonOfOneAndHeightsAreTaken() throws Exception {
    String geometry =
        "{\"type\":\"MultiPolygon\",\"coordinates\":[[[[10.1,52.3,80],[10.2,52.3,81],[10.2,52.4,80],[10.1,52.3,80]]]]}";

    assertThat(
            ((PollenSourceSeen) onlyFact(collection(source("P-1", geometry)), Optional.empty()))
                .getOutline())
        .hasSize(3);
  }

  @Test
  void whatIsNotSaidInTheFileIsChosen() throws Exception {
    String feature = feature(SEEN.formatted("P-1") + ", \"fid\": 7", polygon(RING));
    FactTable table =
        open("map.geojson", collection(feature), Optional.of(FactType.POLLEN_SOURCE_SEEN));

    assertThat(table.form().sheets().get(0).unknown())
        .extracting(DetectedTable.Column::name)
        .containsExactly("fid");
    assertThat(
            catchThrowableOfType(
                    UnreadableTable.class,
                    () -> open("map.geojson", collection(feature), Optional.empty()))
                .problem()
                .reason()
                .code())
        .isEqualTo("workbook-problem.no-kind-of-fact");
  }

  @Test
  void zonesAndWhatWasCalculatedArePassedOver() throws Exception {
    String zone = feature("\"feature\": \"ISOLATION_ZONE\", \"cropId\": \"C-1\"", polygon(RING));
    String seen =
        feature(
            "\"feature\": \"POLLEN_SOURCE\", \"standing\": \"FIT\", " + SEEN.formatted("P-1"),
            polygon(RING));
    FactTable table = open("out.geojson", collection(zone, seen), Optional.empty());

    List<TableRow> rows = rows(table);
    assertThat(rows).hasSize(1);
    assertThat(rows.get(0).row().number()).isEqualTo(2);
    assertThat(rows.get(0).problems()).isEmpty();
    assertThat(table.form().sheets().get(0).unknown()).isEmpty();
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "open-ring | {\"type\":\"Polygon\",\"coordinates\":[[[10,52],[10.1,52],[10.1,52.1],[10,52.1]]]}",
        "open-ring | {\"type\":\"Polygon\",\"coordinates\":[[[10,52],[10.1,52],[10,52]]]}",
        "no-degrees | {\"type\":\"Polygon\",\"coordinates\":[[[612345,5791234],[612400,5791234],[612400,5791300],[612345,5791234]]]}",
        "hole | {\"type\":\"Polygon\",\"coordinates\":[[[10,52],[10.1,52],[10.1,52.1],[10,52]],[[10.05,52.01],[10.06,52.02],[10.06,52.01],[10.05,52.01]]]}",
        "several-areas | {\"type\":\"MultiPolygon\",\"coordinates\":[[[[10,52],[10.1,52],[10.1,52.1],[10,52]]],[[[11,52],[11.1,52],[11.1,52.1],[11,52]]]]}",
        "no-polygon | {\"type\":\"Point\",\"coordinates\":[10,52]}",
        "no-polygon | {\"type\":\"Polygon\",\"coordinates\":[[[\"10\",52],[10.1,52],[10.1,52.1],[10,52]]]}",
        "no-polygon | null",
      })
  void aGeometryThatIsNoOutlineIsRefusedWithTheNumberOfItsFeature(String why, String geometry)
      throws Exception {
    List<TableRow> rows =
        rows(
            open(
                "map.geojson",
                collection(source("P-1", polygon(RING)), source("P-2", geometry)),
                Optional.empty()));

    assertThat(rows.get(0).problems()).isEmpty();
    assertThat(rows.get(1).row().number()).isEqualTo(2);
    assertThat(rows.get(1).problems())
        .singleElement()
        .satisfies(one -> assertThat(one.field()).isEqualTo("outline"))
        .satisfies(one -> assertThat(one.reason().code()).isEqualTo("geo-json-problem." + why));
  }

  @Test
  void sidesThatCrossAreRefused() throws Exception {
    String bowTie = "[[10.1,52.3],[10.2,52.4],[10.2,52.3],[10.1,52.4],[10.1,52.3]]";

    assertThat(
            rows(open("map.geojson", collection(source("P-1", polygon(bowTie))), Optional.empty()))
                .get(0)
                .problems())
        .extracting(Problem::reason)
        .containsExactly(new OutlineProblem.SidesMeet().coded());
  }

  @Test
  void latitudeBeforeLongitudeIsFoundByTheOtherFields() throws Exception {
    String swapped = "[[52.3,10.1],[52.3,10.2],[52.4,10.2],[52.3,10.1]]";
    String file =
        collection(
            source("P-1", polygon(RING)),
            source("P-2", polygon(swapped)),
            source("P-3", polygon(RING.replace("10.", "11."))));

    assertThat(rows(open("map.geojson", file, Optional.empty())))
        .extracting(row -> row.problems().isEmpty())
        .containsExactly(true, false, true);
  }

  @Test
  void aWholeFileWithLatitudeFirstIsFoundByWhereTheSiteIs() throws Exception {
    String swapped = "[[52.3,10.1],[52.3,10.2],[52.4,10.2],[52.3,10.1]]";
    String file = collection(source("P-1", polygon(swapped)));

    assertThat(rows(open("map.geojson", file, Optional.empty())).get(0).problems()).isEmpty();
    FactTable table =
        FactTable.open(
            written("map.geojson", file),
            "map.geojson",
            options(Optional.empty(), Optional.of(new GeoPoint(9.0, 51.0))));
    assertThat(rows(table).get(0).problems())
        .singleElement()
        .satisfies(
            one -> assertThat(one.reason().code()).isEqualTo("geo-json-problem.axes-exchanged"));
  }

  /** The first is how a map program names metres of a projection, the second the same degrees. */
  @ParameterizedTest
  @CsvSource({
    "urn:ogc:def:crs:EPSG::25832, false",
    "urn:ogc:def:crs:OGC:1.3:CRS84, true",
    "EPSG:4326, true"
  })
  void anotherCoordinateSystemIsRefused(String crs, boolean isTaken) throws Exception {
    String file =
        collection(source("P-1", polygon(RING)))
            .replaceFirst(
                "\\{", "{\"crs\":{\"type\":\"name\",\"properties\":{\"name\":\"" + crs + "\"}},");
    UnreadableTable refused =
        catchThrowableOfType(
            UnreadableTable.class, () -> open("map.geojson", file, Optional.empty()));

    if (isTaken) {
      assertThat(refused).isNull();
    } else {
      assertThat(refused.problem().reason().code()).isEqualTo("geo-json-problem.other-coordinates");
    }
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "{",
        "{}",
        "{\"type\":\"Feature\",\"features\":[]}",
        "{\"type\":\"FeatureCollection\",\"features\":{}}",
        "{\"type\":\"FeatureCollection\",\"features\":[{\"type\":",
        "{\"type\":\"FeatureCollection\",\"features\":[1],\"features\":[]}"
      })
  void whatIsNoCollectionIsRefused(String text) {
    assertThat(
            catchThrowableOfType(
                    UnreadableTable.class,
                    () -> open("map.geojson", text, Optional.of(FactType.POLLEN_SOURCE_SEEN)))
                .problem()
                .reason()
                .code())
        .isEqualTo("geo-json-problem.no-collection");
  }

  private static String source(String id, String geometry) {
    return feature("\"feature\": \"POLLEN_SOURCE\", " + SEEN.formatted(id), geometry);
  }

  private static String polygon(String ring) {
    return "{\"type\":\"Polygon\",\"coordinates\":[" + ring + "]}";
  }

  private static String feature(String properties, String geometry) {
    return "{\"type\":\"Feature\",\"properties\":{"
        + properties
        + "},\"geometry\":"
        + geometry
        + "}";
  }

  private static String collection(String... features) {
    return "{\"type\":\"FeatureCollection\",\"features\":[" + String.join(",", features) + "]}";
  }

  private Object onlyFact(String file, Optional<FactType> kind) throws Exception {
    List<TableRow> rows = rows(open("map.geojson", file, kind));
    assertThat(rows).hasSize(1);
    assertThat(rows.get(0).problems()).isEmpty();
    return ((ReadResult.Fact) rows.get(0).result()).fact();
  }

  private FactTable open(String name, String text, Optional<FactType> kind)
      throws IOException, UnreadableTable {
    return FactTable.open(written(name, text), name, options(kind, Optional.empty()));
  }

  private Path written(String name, String text) throws IOException {
    return Files.writeString(folder.resolve(name), text);
  }

  private static List<TableRow> rows(FactTable table) throws Exception {
    List<TableRow> rows = new ArrayList<>();
    table.read(rows::add);
    return rows;
  }

  private static TableReadingOptions options(Optional<FactType> kind, Optional<GeoPoint> near) {
    return new TableReadingOptions(
        List.of(),
        ZoneOffset.UTC,
        kind,
        Map.of(),
        Optional.empty(),
        Optional.empty(),
        "p-1",
        Instant.parse("2026-11-29T12:00:00Z"),
        "E-1",
        near);
  }
}
