package org.kornspur.api.storage;

import org.dhatim.fastexcel.Worksheet;
import org.kornspur.ingest.sheet.SheetCell;

/** Writes cells as they were read: texts as text, so that none becomes a formula. */
public final class SheetCells {
  /** Longest text that a spreadsheet takes (ECMA-376); a longer one is left out. */
  private static final int LONGEST = 32_767;

  private static final String TIME = "yyyy-mm-dd hh:mm:ss";
  private static final String DAY = "yyyy-mm-dd";

  private SheetCells() {}

  public static void put(Worksheet sheet, int row, int column, SheetCell cell) {
    if (cell instanceof SheetCell.Text || cell instanceof SheetCell.Unfit) {
      if (cell.shown().length() <= LONGEST) {
        sheet.value(row, column, cell.shown());
      }
    } else if (cell instanceof SheetCell.Number number) {
      sheet.value(row, column, number.number());
    } else if (cell instanceof SheetCell.Flag flag) {
      sheet.value(row, column, flag.flag());
    } else if (cell instanceof SheetCell.Moment moment) {
      boolean isDay = moment.time().toLocalTime().toSecondOfDay() == 0;
      sheet.value(row, column, moment.time());
      sheet.style(row, column).format(isDay ? DAY : TIME).set();
    } else if (cell instanceof SheetCell.Fault fault) {
      sheet.value(row, column, fault.code());
    }
  }
}
