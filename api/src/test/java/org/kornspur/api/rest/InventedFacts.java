package org.kornspur.api.rest;

import java.util.List;

/** Facts of an invented enterprise, as JSON. Every id and name is made up. */
public final class InventedFacts {

  private InventedFacts() {}

  public static String fact(String type, String factId, String fields) {
    return fact(type, factId, "null", fields);
  }

  static String correction(String type, String factId, String supersedes, String fields) {
    return fact(
        type,
        factId,
        "{\"supersedes\": \"%s\", \"reason\": \"typing error\"}".formatted(supersedes),
        fields);
  }

  private static String fact(String type, String factId, String correction, String fields) {
    return """
        {"type": "%s", "header": {"factId": "%s", "recordedBy": "p-01", \
        "happenedAt": "2024-05-02T10:00:00Z", "recordedAt": "2024-05-02T11:00:00Z", \
        "sourceDocument": "invented", "correction": %s}, %s}"""
        .formatted(type, factId, correction, fields);
  }

  public static String lot(String factId, String lotId, String componentId, double massKg) {
    return fact(
        "LotDeclared",
        factId,
        """
        "lotId": "%s", "hybridId": "HYB-T", "componentId": "%s", "category": "BASIC", \
        "enterpriseId": "ENT-1", "rulebookId": "EU", "cropYear": 2023, "massKg": %s"""
            .formatted(lotId, componentId, massKg));
  }

  static String moisture(String factId, String lotId, double percent) {
    return fact(
        "MoistureTest",
        factId,
        """
        "lotId": "%s", "sampleId": "S-1", "moisturePercent": %s, "laboratoryId": "LAB-1\""""
            .formatted(lotId, percent));
  }

  /** From two declared lots through a technical mixture, a crop and a split to a customer. */
  static List<String> fromLineToCustomer() {
    return List.of(
        fact(
            "HybridDeclared",
            "w-hybrid",
            """
            "hybridId": "HYB-T", "components": [\
            {"componentId": "SX", "kind": "STERILE_SINGLE_CROSS"}, \
            {"componentId": "RP", "kind": "RESTORER_POLLINATOR"}], \
            "crosses": [{"seedComponentId": "HYB-T", "femaleComponentId": "SX", \
            "pollenComponentId": "RP"}], "pollinatorSharePercent": 10.0, "shareBasis": "MASS", \
            "tolerancePercentPoints": 1.0"""),
        lot("w-female", "W-SX", "SX", 1000),
        lot("w-pollen", "W-RP", "RP", 200),
        fact(
            "Blend",
            "w-blend",
            """
            "blendLotId": "W-MIX", "hybridId": "HYB-T", \
            "females": [{"lotId": "W-SX", "massKg": 900.0}], \
            "pollinators": [{"lotId": "W-RP", "massKg": 100.0}], \
            "targetPollinatorSharePercent": 10.0"""),
        fact(
            "FieldCropDeclared",
            "w-crop",
            """
            "cropId": "W-CROP", "fieldId": "Long Acre", "enterpriseId": "ENT-1", \
            "hybridId": "HYB-T", "role": "F1_MIXTURE", "seedComponentId": "HYB-T", \
            "pollenComponentId": "RP", "cropYear": 2024, "category": "CERTIFIED", \
            "rulebookId": "EU", "outline": [{"lon": 11.0, "lat": 52.0}, \
            {"lon": 11.01, "lat": 52.0}, {"lon": 11.01, "lat": 52.005}]"""),
        fact(
            "Sowing",
            "w-sowing",
            """
            "cropId": "W-CROP", "sown": [{"lotId": "W-MIX", "massKg": 600.0}], "areaHa": 10.0"""),
        fact(
            "Harvest",
            "w-harvest",
            """
            "cropId": "W-CROP", "lotId": "W-F1", "massKg": 40000.0"""),
        fact(
            "Conditioning",
            "w-conditioning",
            """
            "inputs": [{"lotId": "W-F1", "massKg": 40000.0}], \
            "outputs": [{"lotId": "W-F1-C", "massKg": 38000.0}], "screeningsKg": 2000.0, \
            "treatment": "invented dressing\""""),
        fact(
            "LotSplit",
            "w-split",
            """
            "fromLotId": "W-F1-C", "parts": [{"lotId": "W-F1-C/1", "massKg": 20000.0}]"""),
        fact(
            "Dispatch",
            "w-dispatch",
            """
            "lotId": "W-F1-C/1", "customerId": "CUST-1", "massKg": 5000.0, \
            "labelNumbers": ["L-000001"]"""));
  }
}
