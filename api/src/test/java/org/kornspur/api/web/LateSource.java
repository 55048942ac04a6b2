package org.kornspur.api.web;

import java.util.ArrayList;
import java.util.List;

/**
 * Sixteen crops around a source of rye pollen that is reported after their harvest. All of it is
 * invented; the crops stand so far from each other that none is too near to another.
 */
final class LateSource {
  static final String SOURCE = "NB-LATE";

  private static final double LON = 41;
  private static final double LAT = 60;
  private static final double LON_PER_KM = 1 / 55.8;
  private static final double LAT_PER_KM = 1 / 111.4;

  /** From the middle of the source to each of its sides, and to the middle of the crops there. */
  private static final double SIDE_KM = 1.6;

  private static final double CROP_KM = 1.9;

  /** Along a side. */
  private static final double[] PLACES_KM = {-1.35, -0.45, 0.45, 1.35};

  private static List<String> crops = List.of();

  private LateSource() {}

  /** Brings them once a process; the ids of the crops. */
  static synchronized List<String> bring() {
    if (crops.isEmpty()) {
      List<String> ids = new ArrayList<>();
      List<String> facts = new ArrayList<>();
      for (double along : PLACES_KM) {
        add(along, CROP_KM, ids, facts);
        add(along, -CROP_KM, ids, facts);
        add(CROP_KM, along, ids, facts);
        add(-CROP_KM, along, ids, facts);
      }
      PostedFacts.bring(facts);
      PostedFacts.bring(List.of(source()));
      ids.forEach(
          crop ->
              PostedFacts.until(
                  "/api/v1/lots/" + crop.replace("C-", "L-"),
                  answer -> "NOT_FIT".equals(answer.jsonPath().getString("state"))));
      crops = List.copyOf(ids);
    }
    return crops;
  }

  private static void add(double eastKm, double northKm, List<String> ids, List<String> facts) {
    String crop = "C-LATE-" + (ids.size() + 1);
    String lot = crop.replace("C-", "L-");
    ids.add(crop);
    facts.add(
        fact(
            "FieldCropDeclared",
            crop,
            "2024-10-01",
            """
            "cropId": "%s", "fieldId": "invented", "enterpriseId": "ENT-MULT-WEST", \
            "hybridId": "HYB-01", "role": "POLLINATOR", "seedComponentId": "C-01", \
            "pollenComponentId": "C-01", "cropYear": 2025, "category": "BASIC", \
            "rulebookId": "EU", "outline": %s, "shieldAccepted": null, \
            "floweringFrom": "2025-05-28", "floweringTo": "2025-06-11\"\
            """
                .formatted(crop, square(eastKm, northKm, 0.08))));
    facts.add(
        fact(
            "Harvest",
            lot + "-harvest",
            "2025-08-01",
            "\"cropId\": \"%s\", \"lotId\": \"%s\", \"massKg\": 9000".formatted(crop, lot)));
    facts.add(
        fact(
            "Dispatch",
            lot + "-sold",
            "2025-09-01",
            """
            "lotId": "%s", "massKg": 4000, "customerId": "ENT-CUST-03", "labelNumbers": []\
            """
                .formatted(lot)));
  }

  private static String source() {
    return fact(
        "PollenSourceSeen",
        SOURCE + "-seen",
        "2025-06-05",
        """
        "sourceId": "%s", "kind": "RYE_CROP", "cropYear": 2025, "firstSeenOn": "2025-06-05", \
        "outline": %s\
        """
            .formatted(SOURCE, square(0, 0, SIDE_KM)));
  }

  private static String square(double eastKm, double northKm, double halfKm) {
    return "[%s, %s, %s, %s]"
        .formatted(
            corner(eastKm - halfKm, northKm - halfKm),
            corner(eastKm + halfKm, northKm - halfKm),
            corner(eastKm + halfKm, northKm + halfKm),
            corner(eastKm - halfKm, northKm + halfKm));
  }

  private static String corner(double eastKm, double northKm) {
    return "{\"lon\": %s, \"lat\": %s}"
        .formatted(LON + eastKm * LON_PER_KM, LAT + northKm * LAT_PER_KM);
  }

  private static String fact(String type, String factId, String day, String fields) {
    return """
    {"type": "%s", "header": {"factId": "%s", "recordedBy": "everything", \
    "happenedAt": "%sT08:00:00Z", "recordedAt": "%3$sT09:00:00Z", \
    "sourceDocument": "invented", "correction": null}, %s}\
    """
        .formatted(type, factId, day, fields);
  }
}
