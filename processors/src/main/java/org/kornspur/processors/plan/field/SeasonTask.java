package org.kornspur.processors.plan.field;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.kornspur.processors.ground.GeoPosition;

/**
 * Which crops of one season are to find fields.
 *
 * @param year of harvest
 * @param wanted crops with the hectares that are wanted of them, without those that are declared
 * @param fields on which they may be grown
 * @param known rye on record, and what a plan puts on fields in other years
 * @param pinned what a person decided; it stays, and what speaks against it is told
 * @param mostHa hectares that growers can grow beside what they declared, by enterprise; no limit
 *     for others
 * @param store from where the way to a field is counted
 */
public record SeasonTask(
    int year,
    List<Wanted> wanted,
    List<KnownField> fields,
    List<RyeStand> known,
    List<Placement> pinned,
    Map<String, Double> mostHa,
    Optional<GeoPosition> store) {

  /** Hectares of one crop. */
  public record Wanted(PlannedCrop crop, double areaHa) {}
}
