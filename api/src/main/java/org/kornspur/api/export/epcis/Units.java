package org.kornspur.api.export.epcis;

import java.util.Map;
import java.util.Optional;

/**
 * Units of the contract as the common codes that EPCIS demands.
 *
 * <p>Source: UN/ECE Recommendation 20, "Codes for Units of Measure Used in International Trade";
 * the codes KGM, GRM, P1, HAR, MTK, H87, DD, ANN from memory.
 */
final class Units {

  static final String KILOGRAM = "KGM";
  static final String GRAM = "GRM";
  static final String PERCENT = "P1";
  static final String PIECE = "H87";

  private static final Map<String, String> CODES =
      Map.ofEntries(
          Map.entry("kg", KILOGRAM),
          Map.entry("g", GRAM),
          Map.entry("%", PERCENT),
          Map.entry("percentage points", PERCENT),
          Map.entry("ha", "HAR"),
          Map.entry("m2", "MTK"),
          Map.entry("deg", "DD"),
          Map.entry("year", "ANN"),
          Map.entry("plants", PIECE),
          Map.entry("seeds", PIECE),
          Map.entry("seedlings", PIECE),
          Map.entry("kernels", PIECE),
          Map.entry("ears", PIECE),
          Map.entry("bodies", PIECE),
          Map.entry("samples", PIECE),
          Map.entry("containers", PIECE));

  private Units() {}

  /** The code of a unit; empty for ordinals and scales, which have none. */
  static Optional<String> codeOf(String unit) {
    return Optional.ofNullable(CODES.get(unit));
  }
}
