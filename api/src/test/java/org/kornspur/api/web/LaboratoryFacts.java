package org.kornspur.api.web;

import io.restassured.response.Response;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;
import org.kornspur.api.rest.InventedFacts;

/** Treated lots with a sample for each laboratory of the demo. All of it is invented. */
final class LaboratoryFacts {
  private LaboratoryFacts() {}

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
    PostedFacts.bring(facts);
    PostedFacts.until("/api/v1/lots/" + lotId, answer -> gate(answer, "GERMINATION") != null);
    PostedFacts.until(
        "/api/v1/lots/" + lotId, answer -> answer.jsonPath().getBoolean("asOf.complete"));
  }

  /** Waits until a gate of a lot satisfies. */
  static Map<String, Object> gateOf(
      String lotId, String gate, Predicate<Map<String, Object>> isEnough) {
    Response answer =
        PostedFacts.until(
            "/api/v1/lots/" + lotId,
            lot -> gate(lot, gate) != null && isEnough.test(gate(lot, gate)));
    return gate(answer, gate);
  }

  /** Facts of one type that name a lot, with what superseded them. */
  static List<Map<String, Object>> ofLot(String lotId, String type, int atLeast) {
    String found = "facts.findAll { it.fact.type == '%s' }".formatted(type);
    return PostedFacts.until(
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
}
