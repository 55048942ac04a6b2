package org.kornspur.ingest.sheet;

import java.util.List;

/**
 * A row that holds something.
 *
 * @param number from 1, as the spreadsheet shows it
 * @param cells from the first column on; what lies behind the last is empty
 */
public record SheetRow(int number, List<SheetCell> cells) {
  private static final SheetCell EMPTY = new SheetCell.Empty();

  public SheetRow {
    cells = List.copyOf(cells);
  }

  /** The cell in a column, from 0. */
  public SheetCell cell(int column) {
    return column < cells.size() ? cells.get(column) : EMPTY;
  }

  /** Whether nothing stands in it. */
  public boolean isEmpty() {
    return cells.stream().allMatch(SheetCell.Empty.class::isInstance);
  }
}
