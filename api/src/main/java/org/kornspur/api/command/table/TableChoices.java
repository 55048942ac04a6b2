package org.kornspur.api.command.table;

import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.file.DayOrder;
import org.kornspur.ingest.file.DecimalMark;

/**
 * What a person said of a table that does not tell it itself.
 *
 * @param kind what its rows are
 * @param columns paths of columns whose names are of no field, by name; an empty path leaves one
 *     out
 */
public record TableChoices(
    Optional<FactType> kind,
    Optional<DecimalMark> decimalMark,
    Optional<DayOrder> dayOrder,
    Map<String, String> columns) {

  /** Nothing was said. */
  public static final TableChoices NONE =
      new TableChoices(Optional.empty(), Optional.empty(), Optional.empty(), Map.of());

  /** The same with these columns. */
  TableChoices with(Map<String, String> others) {
    Map<String, String> all = new HashMap<>(others);
    all.putAll(columns);
    return new TableChoices(kind, decimalMark, dayOrder, all);
  }
}
