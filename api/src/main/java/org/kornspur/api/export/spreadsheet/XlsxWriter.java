package org.kornspur.api.export.spreadsheet;

import java.io.IOException;
import java.io.OutputStream;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.util.List;
import org.dhatim.fastexcel.Workbook;
import org.dhatim.fastexcel.Worksheet;
import org.kornspur.api.export.spreadsheet.SpreadsheetTable.Cell;

/**
 * Writes a table as an Office Open XML workbook: frozen header, filters, dates as dates, numbers as
 * numbers, and text as text only, so that no cell is ever a formula.
 */
public final class XlsxWriter {

  private static final String TIME_FORMAT = "yyyy-mm-dd hh:mm:ss";
  private static final String DAY_FORMAT = "yyyy-mm-dd";
  private static final int TIME_WIDTH = 20;

  /** Longest text that a cell may hold (ECMA-376, limits of the application). */
  private static final int LONGEST_TEXT = 32_767;

  private XlsxWriter() {}

  /**
   * Writes the workbook.
   *
   * @throws IOException if the reader goes away
   */
  public static void write(SpreadsheetTable table, OutputStream out) throws IOException {
    try (Workbook workbook = new Workbook(out, "Kornspur", "1.0")) {
      Worksheet sheet = workbook.newWorksheet("Records");
      for (int column = 0; column < table.header().size(); column++) {
        sheet.value(0, column, table.header().get(column));
        sheet.style(0, column).bold().set();
      }
      for (int row = 0; row < table.rows().size(); row++) {
        List<Cell> cells = table.rows().get(row);
        for (int column = 0; column < cells.size(); column++) {
          put(sheet, row + 1, column, cells.get(column));
        }
      }
      sheet.freezePane(0, 1);
      sheet.setAutoFilter(0, 0, table.rows().size(), table.header().size() - 1);
      sheet.width(0, TIME_WIDTH);
      sheet.width(1, TIME_WIDTH);
      sheet.finish();
    }
  }

  private static void put(Worksheet sheet, int row, int column, Cell cell) {
    if (cell instanceof Cell.Text text) {
      String whole = text.text();
      sheet.value(
          row, column, whole.length() > LONGEST_TEXT ? whole.substring(0, LONGEST_TEXT) : whole);
    } else if (cell instanceof Cell.Number number) {
      sheet.value(row, column, number.number());
    } else if (cell instanceof Cell.Flag flag) {
      sheet.value(row, column, flag.flag());
    } else if (cell instanceof Cell.Time time) {
      sheet.value(row, column, LocalDateTime.ofInstant(time.time(), ZoneOffset.UTC));
      sheet.style(row, column).format(TIME_FORMAT).set();
    } else if (cell instanceof Cell.Day day) {
      sheet.value(row, column, day.day());
      sheet.style(row, column).format(DAY_FORMAT).set();
    }
  }
}
