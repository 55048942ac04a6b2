package org.kornspur.api.export.spreadsheet;

import java.math.BigDecimal;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.kornspur.api.export.spreadsheet.SpreadsheetTable.Cell;
import org.kornspur.api.http.Csv;

/**
 * Writes a table as CSV. Numbers are written as numbers; a minus sign before digits is no formula.
 */
public final class CsvWriter {

  private CsvWriter() {}

  /** The whole table. */
  public static String write(SpreadsheetTable table) {
    return Stream.concat(
            Stream.of(Csv.line(table.header().stream().map(Csv::text))),
            table.rows().stream().map(row -> Csv.line(row.stream().map(CsvWriter::cell))))
        .collect(Collectors.joining());
  }

  private static String cell(Cell cell) {
    if (cell instanceof Cell.Text text) {
      return Csv.text(text.text());
    }
    if (cell instanceof Cell.Number number) {
      return BigDecimal.valueOf(number.number()).stripTrailingZeros().toPlainString();
    }
    if (cell instanceof Cell.Time time) {
      return time.time().toString();
    }
    if (cell instanceof Cell.Day day) {
      return day.day().toString();
    }
    return cell instanceof Cell.Flag flag ? Boolean.toString(flag.flag()) : "";
  }
}
