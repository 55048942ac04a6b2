package org.kornspur.api.export;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;
import static org.kornspur.api.Waiting.until;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import io.restassured.RestAssured;
import io.restassured.config.HeaderConfig;
import io.restassured.specification.RequestSpecification;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.kornspur.api.DemoMachine;
import org.kornspur.api.security.Role;
import org.kornspur.api.security.login.AsPerson;
import org.kornspur.api.security.people.TestPeople;
import org.kornspur.api.web.DemoLoaded;
import org.kornspur.api.web.PostedFacts;

/** The fields of the demo as GeoJSON: who sees which, and the file sent in again. */
@ExtendWith(DemoMachine.class)
@ExtendWith(AsPerson.class)
class GeoJsonIT {
  private static final String FIELDS = "/api/v1/lists/fields-2025.geojson";
  private static final Pattern COUNT = Pattern.compile("id=\"count-(\\w+)\"");

  @BeforeEach
  void waitForTheDemo() throws Exception {
    DemoLoaded.await();
    until(() -> given().get(FIELDS).statusCode() == 200);
  }

  @Test
  void aYearHoldsItsCropsTheirZonesAndTheSourcesAround() throws Exception {
    JsonNode collection =
        read(
            given()
                .get(FIELDS)
                .then()
                .statusCode(200)
                .contentType("application/geo+json")
                .extract()
                .asString());

    List<JsonNode> crops = features(collection, "FIELD_CROP").toList();
    assertThat(crops)
        .hasSizeGreaterThan(5)
        .allSatisfy(
            crop -> {
              assertThat(crop.at("/properties/cropYear").asInt()).isEqualTo(2025);
              assertThat(crop.at("/properties/standing").asText()).isNotEmpty();
              assertThat(crop.at("/properties/category").asText()).isNotEmpty();
            });
    assertThat(crops.size())
        .isEqualTo(given().get("/api/v1/crops?cropYear=2025&size=1").<Integer>path("total"));
    assertThat(features(collection, "ISOLATION_ZONE"))
        .isNotEmpty()
        .allSatisfy(
            zone ->
                assertThat(zone.at("/properties/requiredDistanceM").asDouble())
                    .isBetween(50.0, 2000.0));
    assertThat(features(collection, "POLLEN_SOURCE"))
        .isNotEmpty()
        .allSatisfy(source -> assertThat(source.at("/properties/kind").asText()).isNotEmpty());
    assertThat(given().get("/api/v1/lists/fields-last.geojson").statusCode()).isEqualTo(400);
  }

  @Test
  void aSourceOutOfReachOfEveryCropIsThereForWhoSeesAll() throws Exception {
    PostedFacts.bring(
        List.of(
            """
            {"type":"PollenSourceSeen","header":{"factId":"gj-far","recordedBy":"p-1",
             "happenedAt":"2025-05-30T10:00:00Z","recordedAt":"2025-05-30T10:00:00Z",
             "sourceDocument":"note"},"sourceId":"GJ-FAR","kind":"RYE_CROP","cropYear":2025,
             "outline":[{"lon":20.0,"lat":55.0},{"lon":20.01,"lat":55.0},{"lon":20.0,"lat":55.01}],
             "firstSeenOn":"2025-05-30"}\
            """));
    until(() -> sources(given().get(FIELDS).asString()).contains("GJ-FAR"));

    assertThat(sources(as(TestPeople.WEST).get(FIELDS).asString())).doesNotContain("GJ-FAR");
    assertThat(sources(given().get("/api/v1/lists/fields-2026.geojson").asString()))
        .doesNotContain("GJ-FAR");
  }

  private static List<String> sources(String collection) throws Exception {
    return features(read(collection), "POLLEN_SOURCE")
        .map(source -> source.at("/properties/sourceId").asText())
        .toList();
  }

  @Test
  void whatWasDownloadedAndIsSentInAgainIsThereAlready() throws Exception {
    String file = given().get(FIELDS).asString();
    JsonNode collection = read(file);
    long facts =
        features(collection, "FIELD_CROP").count() + features(collection, "POLLEN_SOURCE").count();

    String address =
        as(TestPeople.of(Role.QUALITY))
            .redirects()
            .follow(false)
            .multiPart("file", "fields-2025.geojson", file.getBytes(StandardCharsets.UTF_8))
            .post("/files")
            .then()
            .statusCode(303)
            .extract()
            .header("Location");
    until(() -> !page(address).contains("id=\"working\""));

    String page = page(address);
    List<String> fates = new ArrayList<>();
    Matcher count = COUNT.matcher(page);
    while (count.find()) {
      fates.add(count.group(1));
    }
    assertThat(fates).containsExactly("THERE");
    assertThat(page).contains("There already: " + facts);
  }

  @Test
  void aGrowerGetsOwnCropsAlone() throws Exception {
    JsonNode all = read(given().get(FIELDS).asString());
    JsonNode own = read(as(TestPeople.WEST).get(FIELDS).asString());

    assertThat(features(own, "FIELD_CROP"))
        .isNotEmpty()
        .allSatisfy(
            crop ->
                assertThat(crop.at("/properties/enterpriseId").asText())
                    .isEqualTo("ENT-MULT-WEST"));
    assertThat(features(own, "FIELD_CROP").count()).isLessThan(features(all, "FIELD_CROP").count());
    assertThat(ids(own, "ISOLATION_ZONE")).isSubsetOf(ids(own, "FIELD_CROP"));
    String others =
        ids(all, "FIELD_CROP").stream()
            .filter(id -> !ids(own, "FIELD_CROP").contains(id))
            .findFirst()
            .orElseThrow();
    as(TestPeople.WEST).get("/api/v1/crops/" + others + "/ground.geojson").then().statusCode(404);
  }

  @Test
  void aCropComesWithTheGroundAroundIt() throws Exception {
    JsonNode year = read(given().get(FIELDS).asString());
    String crop = ids(year, "ISOLATION_ZONE").get(0);

    JsonNode ground =
        read(
            given()
                .get("/api/v1/crops/" + crop + "/ground.geojson")
                .then()
                .statusCode(200)
                .contentType("application/geo+json")
                .extract()
                .asString());

    assertThat(ids(ground, "FIELD_CROP")).contains(crop);
    assertThat(ids(ground, "ISOLATION_ZONE")).containsExactly(crop);
  }

  private static Stream<JsonNode> features(JsonNode collection, String kind) {
    List<JsonNode> features = new ArrayList<>();
    collection.get("features").forEach(features::add);
    return features.stream()
        .filter(feature -> feature.at("/properties/feature").asText().equals(kind));
  }

  private static List<String> ids(JsonNode collection, String kind) {
    return features(collection, kind)
        .map(feature -> feature.at("/properties/cropId").asText())
        .toList();
  }

  private static JsonNode read(String json) throws Exception {
    return new ObjectMapper().readTree(json);
  }

  private static RequestSpecification as(String personId) {
    return given()
        .config(
            RestAssured.config()
                .headerConfig(
                    HeaderConfig.headerConfig().overwriteHeadersWithName("Authorization")))
        .header("Authorization", TestPeople.basic(personId));
  }

  private static String page(String address) {
    return as(TestPeople.of(Role.QUALITY)).header("Accept-Language", "en").get(address).asString();
  }
}
