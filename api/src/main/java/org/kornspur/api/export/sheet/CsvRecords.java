package org.kornspur.api.export.sheet;

import java.math.BigDecimal;
import java.util.List;
import java.util.stream.Collectors;
import org.kornspur.api.export.sheet.RecordsTable.Cell;

/**
 * The table as text, in which no cell can become a formula.
 *
 * <p>Source of the form: RFC 4180. Source of the guard: OWASP, "CSV Injection": a cell that begins
 * with one of {@code = + - @}, tab or carriage return is given an apostrophe in front, and each
 * cell is quoted. Numbers are written as numbers; a minus sign before digits alone is no formula.
 * Line feed and the wide forms of these signs, which some programs read alike, are guarded too.
 */
public final class CsvRecords {

  private static final String BEGINNINGS = "=+-@\t\r\n＝＋－＠";
  private static final String LINE_END = "\r\n";

  private CsvRecords() {}

  /** The whole table. */
  public static String write(RecordsTable table) {
    StringBuilder csv = new StringBuilder();
    csv.append(
        table.header().stream()
            .map(CsvRecords::text)
            .collect(Collectors.joining(",", "", LINE_END)));
    for (List<Cell> row : table.rows()) {
      csv.append(row.stream().map(CsvRecords::cell).collect(Collectors.joining(",", "", LINE_END)));
    }
    return csv.toString();
  }

  private static String cell(Cell cell) {
    if (cell instanceof Cell.Text text) {
      return text(text.text());
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

  private static String text(String text) {
    boolean couldBeFormula = !text.isEmpty() && BEGINNINGS.indexOf(text.charAt(0)) >= 0;
    return '"' + (couldBeFormula ? "'" : "") + text.replace("\"", "\"\"") + '"';
  }
}
