package org.kornspur.ingest.file;

import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.Set;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.json.JsonText;
import org.kornspur.ingest.problem.GeoJsonProblem;
import org.kornspur.ingest.problem.Given;
import org.kornspur.ingest.sheet.UnreadableTable;

/** The features of a GeoJSON file (RFC 7946), one after the other as they are asked for. */
final class GeoJsonFeatures implements AutoCloseable {
  /** Names of WGS84 in files of the form before RFC 7946. */
  private static final Set<String> WGS84 =
      Set.of("urn:ogc:def:crs:OGC:1.3:CRS84", "urn:ogc:def:crs:OGC::CRS84", "EPSG:4326");

  private final JsonParser json;
  private final String fileName;
  private boolean isCollection;
  private boolean inFeatures;
  private boolean hadFeatures;
  private int number;

  /**
   * @param number from 1
   */
  record Feature(int number, JsonNode geometry, JsonNode properties) {}

  private GeoJsonFeatures(JsonParser json, String fileName) {
    this.json = json;
    this.fileName = fileName;
  }

  static GeoJsonFeatures open(Path file, String fileName) throws IOException, UnreadableTable {
    GeoJsonFeatures features =
        new GeoJsonFeatures(JsonText.parser(Files.newInputStream(file)), fileName);
    if (features.token() != JsonToken.START_OBJECT) {
      features.close();
      throw features.noCollection();
    }
    return features;
  }

  /**
   * The next feature, or nothing at the end.
   *
   * @throws UnreadableTable if the file is no collection of features, or in other coordinates
   */
  Optional<Feature> next() throws IOException, UnreadableTable {
    while (true) {
      JsonToken token = token();
      if (inFeatures && token != JsonToken.END_ARRAY) {
        JsonNode feature = value();
        number++;
        return Optional.of(
            new Feature(number, feature.path("geometry"), feature.path("properties")));
      } else if (inFeatures) {
        inFeatures = false;
      } else if (token == JsonToken.FIELD_NAME) {
        member(json.currentName());
      } else if (!isCollection || !hadFeatures) {
        throw noCollection();
      } else {
        return Optional.empty();
      }
    }
  }

  private void member(String name) throws IOException, UnreadableTable {
    JsonToken first = token();
    switch (name) {
      case "features" -> {
        if (first != JsonToken.START_ARRAY) {
          throw noCollection();
        }
        inFeatures = true;
        hadFeatures = true;
      }
      case "type" -> isCollection = value().asText().equals("FeatureCollection");
      case "crs" -> {
        JsonNode crs = value();
        String named = crs.path("properties").path("name").asText(crs.toString());
        if (!crs.isNull() && !WGS84.contains(named)) {
          throw new UnreadableTable(
              Given.text(named, false), new GeoJsonProblem.OtherCoordinates());
        }
      }
      default -> value();
    }
  }

  private JsonToken token() throws IOException, UnreadableTable {
    try {
      return json.nextToken();
    } catch (JsonProcessingException fault) {
      throw notJson(fault);
    }
  }

  private JsonNode value() throws IOException, UnreadableTable {
    try {
      return json.readValueAsTree();
    } catch (JsonProcessingException fault) {
      throw notJson(fault);
    }
  }

  private UnreadableTable notJson(JsonProcessingException fault) {
    return new UnreadableTable(
        new Given.NotJson(
            Optional.ofNullable(fault.getLocation()).map(place -> place.getLineNr()),
            Optional.ofNullable(fault.getLocation()).map(place -> place.getColumnNr()),
            Problem.described(fault.getOriginalMessage())),
        new GeoJsonProblem.NoCollection());
  }

  private UnreadableTable noCollection() {
    return new UnreadableTable(
        new Given.SentFile(Problem.described(fileName)), new GeoJsonProblem.NoCollection());
  }

  @Override
  public void close() throws IOException {
    json.close();
  }
}
