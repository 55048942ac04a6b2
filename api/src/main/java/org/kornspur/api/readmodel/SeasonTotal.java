package org.kornspur.api.readmodel;

import java.util.List;
import java.util.SortedMap;
import org.kornspur.ingest.contract.Subject;

/**
 * The crops or the lots of one season.
 *
 * @param year year of harvest
 * @param owed those that wait for evidence, or whose state this version does not know
 * @param leftKg seed in store, kilograms; 0 for crops
 * @param givenOutKg seed that left its lots, kilograms; 0 for crops
 * @param causes gates that are not met, own and inherited, by name, each with the number of crops
 *     or lots that are not fit for it; one may be so for several
 */
public record SeasonTotal(
    int year,
    int fit,
    int owed,
    int notFit,
    double leftKg,
    double givenOutKg,
    SortedMap<String, Integer> causes) {

  /**
   * The season of each multiplier, by id.
   *
   * @param rows of one kind and one season
   */
  public static SortedMap<String, SeasonTotal> byHolder(
      Subject.Kind kind, List<StandingIndexRow> rows) {
    return SeasonTotals.byHolder(kind, rows);
  }

  /** Number of crops or lots. */
  public int all() {
    return fit + owed + notFit;
  }
}
