package org.kornspur.api.web;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;

import io.restassured.path.json.JsonPath;
import io.restassured.response.Response;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.kornspur.api.rest.InventedFacts;

/** Crops for the field book, declared by nobody else. All of it is invented. */
final class FieldBookFacts {
  /** Basic seed of a sterile female; its limits are by area and by shedding plants. */
  static final String FEMALE = "FB-26-A";

  /** The same on another field, so that each screen counts a crop that nobody counted before. */
  static final String FEMALE_TOO = "FB-26-E";

  /** Certified seed of a sown mixture; its off-types are limited by area. */
  static final String MIXTURE = "FB-26-B";

  /** The same under the American book, which limits off-types by plants. */
  static final String BY_PLANTS = "FB-26-C";

  /** A crop of somebody else. */
  static final String OF_ANOTHER = "FB-26-D";

  static final String SEED = "FB-25-SEED";

  /** They stay on the one machine of the process. */
  private static boolean brought;

  private FieldBookFacts() {}

  static void bring() {
    List<String> facts =
        List.of(
            InventedFacts.fact(
                "HybridDeclared",
                "fb-hybrid",
                """
                "hybridId": "HYB-FB", "components": [\
                {"componentId": "FB-SX", "kind": "STERILE_SINGLE_CROSS"}, \
                {"componentId": "FB-RP", "kind": "RESTORER_POLLINATOR"}], \
                "crosses": [{"seedComponentId": "HYB-FB", "femaleComponentId": "FB-SX", \
                "pollenComponentId": "FB-RP"}], "pollinatorSharePercent": 10.0, \
                "shareBasis": "MASS", "tolerancePercentPoints": 1.0\
                """),
            crop(
                FEMALE, "Mill Field", "ENT-MULT-WEST", "STERILE_FEMALE", "FB-SX", "BASIC", "EU", 0),
            crop(
                FEMALE_TOO,
                "Low Meadow",
                "ENT-MULT-WEST",
                "STERILE_FEMALE",
                "FB-SX",
                "BASIC",
                "EU",
                4),
            crop(
                MIXTURE,
                "Long Acre",
                "ENT-MULT-WEST",
                "F1_MIXTURE",
                "HYB-FB",
                "CERTIFIED",
                "EU",
                1),
            crop(
                BY_PLANTS,
                "Hill Top",
                "ENT-MULT-WEST",
                "F1_MIXTURE",
                "HYB-FB",
                "CERTIFIED",
                "US",
                2),
            crop(
                OF_ANOTHER,
                "Far End",
                "ENT-MULT-EAST",
                "F1_MIXTURE",
                "HYB-FB",
                "CERTIFIED",
                "EU",
                3),
            InventedFacts.fact(
                    "LotDeclared",
                    "fb-seed",
                    """
                    "lotId": "%s", "hybridId": "HYB-FB", "componentId": "FB-SX", \
                    "category": "BASIC", "enterpriseId": "ENT-MULT-WEST", "rulebookId": "EU", \
                    "cropYear": 2025, "massKg": 900.0\
                    """
                        .formatted(SEED))
                // a lot is declared after its harvest
                .replace("2024-05-02", "2025-09-02"));
    if (!brought) {
      PostedFacts.bring(facts);
      brought = true;
    }
    for (String crop : List.of(FEMALE, FEMALE_TOO, MIXTURE, BY_PLANTS, OF_ANOTHER)) {
      PostedFacts.until("/api/v1/crops/" + crop, FieldBookFacts::isComplete);
    }
    PostedFacts.until("/api/v1/lots/" + SEED, FieldBookFacts::isComplete);
  }

  private static boolean isComplete(Response answer) {
    return answer.statusCode() == 200 && answer.jsonPath().getBoolean("asOf.complete");
  }

  /** Facts of one type that name a crop, once one of them satisfies. */
  static List<Map<String, Object>> ofCrop(String cropId, String type) {
    Response answer = given().get("/api/v1/crops/" + cropId + "/facts");
    JsonPath json = answer.jsonPath();
    return json.getList("facts.findAll { it.fact.type == '%s' }.fact".formatted(type));
  }

  /** Waits for the one fact that came in since; fails where it is not exactly one. */
  static Map<String, Object> added(String cropId, String type, List<Map<String, Object>> before) {
    PostedFacts.until(
        "/api/v1/crops/" + cropId + "/facts",
        answer -> answer.statusCode() == 200 && ofCrop(cropId, type).size() > before.size());
    List<Map<String, Object>> facts = new ArrayList<>(ofCrop(cropId, type));
    facts.removeAll(before);
    assertThat(facts).hasSize(1);
    return facts.get(0);
  }

  /** Declares a crop that nobody visited yet, and waits until it is judged. */
  static void flowering(String cropId, LocalDate from, LocalDate to) {
    PostedFacts.bring(
        List.of(
            crop(
                    cropId,
                    "Now In Flower",
                    "ENT-MULT-WEST",
                    "F1_MIXTURE",
                    "HYB-FB",
                    "CERTIFIED",
                    "EU",
                    9)
                .replace("2024-05-02", LocalDate.now().minusDays(30).toString())
                .replace("2026-05-28", from.toString())
                .replace("2026-06-11", to.toString())
                .replace("\"cropYear\": 2026", "\"cropYear\": " + to.getYear())));
    PostedFacts.until("/api/v1/crops/" + cropId, FieldBookFacts::isComplete);
  }

  private static String crop(
      String cropId,
      String field,
      String enterpriseId,
      String role,
      String seed,
      String category,
      String rulebook,
      int place) {
    double lon = 4 + place * 0.1;
    return InventedFacts.fact(
        "FieldCropDeclared",
        "fb-crop-" + cropId,
        """
        "cropId": "%s", "fieldId": "%s", "enterpriseId": "%s", "hybridId": "HYB-FB", \
        "role": "%s", "seedComponentId": "%s", "pollenComponentId": "FB-RP", "cropYear": 2026, \
        "category": "%s", "rulebookId": "%s", "floweringFrom": "2026-05-28", \
        "floweringTo": "2026-06-11", "outline": [{"lon": %s, "lat": 50.0}, \
        {"lon": %s, "lat": 50.0}, {"lon": %s, "lat": 50.005}]\
        """
            .formatted(
                cropId,
                field,
                enterpriseId,
                role,
                seed,
                category,
                rulebook,
                lon,
                lon + 0.01,
                lon + 0.01));
  }
}
