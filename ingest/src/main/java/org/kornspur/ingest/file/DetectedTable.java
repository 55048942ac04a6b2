package org.kornspur.ingest.file;

import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import org.kornspur.ingest.contract.FactType;

/**
 * What was detected of the form of a table from its content.
 *
 * @param encoding of a text; empty of a workbook
 * @param delimiter of a text; empty of a workbook
 * @param decimalMark of the numbers that are text; empty where they have none, or both
 * @param dayOrder of dates with slashes; empty where there are none, or they do not tell
 * @param zone of times that have none
 * @param sheets the sheets that hold facts
 * @param sheetsLeftOut names of sheets that nothing says the kind of
 */
public record DetectedTable(
    Optional<String> encoding,
    Optional<Character> delimiter,
    Optional<DecimalMark> decimalMark,
    Optional<DayOrder> dayOrder,
    ZoneId zone,
    List<Sheet> sheets,
    List<String> sheetsLeftOut) {

  /**
   * One sheet.
   *
   * @param name empty of a text
   * @param header as it stands
   */
  public record Sheet(String name, FactType kind, List<String> header, List<Column> columns) {

    /** The columns that are of no field, though something stands in them. */
    public List<Column> unknown() {
      return columns.stream()
          .filter(column -> column.path().isEmpty() && !column.leftOut() && column.used())
          .toList();
    }
  }

  /**
   * A column with a name.
   *
   * @param position from 0
   * @param path of the field that it is; empty where it is none
   * @param leftOut whether a person said that it is not to be read
   * @param used whether something stands under the name
   */
  public record Column(
      int position, String name, Optional<String> path, boolean leftOut, boolean used) {}
}
