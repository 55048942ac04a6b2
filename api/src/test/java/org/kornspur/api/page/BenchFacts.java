package org.kornspur.api.page;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.equalTo;

import io.restassured.response.Response;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;
import org.kornspur.api.resource.InventedFacts;

/** Treated lots with a sample for each laboratory of the demo. All of it is invented. */
final class BenchFacts {
  private static final Duration LONGEST_WAIT = Duration.ofSeconds(60);

  private BenchFacts() {}

  /** A lot of treated seed whose sample {@code S-<lotId>} is assigned to this laboratory. */
  static void bring(String lotId, String laboratoryId) {
    List<String> facts = new ArrayList<>();
    facts.add(
        InventedFacts.fact(
            "HybridDeclared",
            "bn-hybrid",
            """
            "hybridId": "HYB-BN", "components": [\
            {"componentId": "BN-SX", "kind": "STERILE_SINGLE_CROSS"}, \
            {"componentId": "BN-RP", "kind": "RESTORER_POLLINATOR"}], \
            "crosses": [{"seedComponentId": "HYB-BN", "femaleComponentId": "BN-SX", \
            "pollenComponentId": "BN-RP"}], "pollinatorSharePercent": 10.0, \
            "shareBasis": "MASS", "tolerancePercentPoints": 1.0"""));
    facts.add(
        InventedFacts.fact(
            "LotDeclared",
            "bn-raw-" + lotId,
            """
            "lotId": "%s-RAW", "hybridId": "HYB-BN", "componentId": "BN-SX", \
            "category": "BASIC", "enterpriseId": "ENT-MULT-WEST", "rulebookId": "DE", \
            "cropYear": 2023, "massKg": 1000.0"""
                .formatted(lotId)));
    facts.add(
        InventedFacts.fact(
            "Conditioning",
            "bn-conditioning-" + lotId,
            """
            "inputs": [{"lotId": "%1$s-RAW", "massKg": 1000.0}], \
            "outputs": [{"lotId": "%1$s", "massKg": 960.0}], "screeningsKg": 40.0, \
            "treatment": "invented dressing\""""
                .formatted(lotId)));
    facts.add(
        InventedFacts.fact(
            "Sampling",
            "bn-sampling-" + lotId,
            """
            "sampleId": "S-%1$s", "lotId": "%1$s", "primarySamples": 10, "lotMassKg": 960.0, \
            "submittedSampleG": 1250.0, "samplerAccreditation": "INV-SAMPLER-01", \
            "laboratoryId": "%2$s\""""
                .formatted(lotId, laboratoryId)));
    given()
        .contentType("application/json")
        .body("[" + String.join(",", facts) + "]")
        .post("/api/v1/facts")
        .then()
        .body("refused", equalTo(0))
        .statusCode(200);
    until("/api/v1/lots/" + lotId, answer -> gate(answer, "GERMINATION") != null);
    until("/api/v1/lots/" + lotId, answer -> answer.jsonPath().getBoolean("asOf.complete"));
  }

  /** Waits until a gate of a lot satisfies. */
  static Map<String, Object> gateOf(
      String lotId, String gate, Predicate<Map<String, Object>> isEnough) {
    Response answer =
        until(
            "/api/v1/lots/" + lotId,
            lot -> gate(lot, gate) != null && isEnough.test(gate(lot, gate)));
    return gate(answer, gate);
  }

  /** Facts of one type that name a lot, with what superseded them. */
  static List<Map<String, Object>> ofLot(String lotId, String type, int atLeast) {
    String found = "facts.findAll { it.fact.type == '%s' }".formatted(type);
    return until(
            "/api/v1/lots/" + lotId + "/facts",
            answer -> answer.jsonPath().getList(found).size() >= atLeast)
        .jsonPath()
        .getList(found);
  }

  private static Map<String, Object> gate(Response lot, String gate) {
    return lot.statusCode() == 200
        ? lot.jsonPath().getMap("gates.find { it.gate == '%s' }".formatted(gate))
        : null;
  }

  private static Response until(String path, Predicate<Response> isEnough) {
    Instant end = Instant.now().plus(LONGEST_WAIT);
    Response answer = given().get(path);
    while (!isEnough.test(answer)) {
      assertThat(Instant.now()).as("Still %s: %s", path, answer.asString()).isBefore(end);
      try {
        Thread.sleep(200);
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
        throw new IllegalStateException(e);
      }
      answer = given().get(path);
    }
    return answer;
  }
}
