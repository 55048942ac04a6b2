package org.kornspur.ingest.sheet;

import java.io.IOException;
import java.util.Optional;

/** The rows of one sheet, in order; rows in which nothing stands are passed over. */
public interface SheetRows extends AutoCloseable {

  /** Most rows of a sheet. */
  int MOST_ROWS = 200_000;

  /** Most columns of a sheet; the widest form of the contract has some forty. */
  int MOST_COLUMNS = 2_000;

  /** Longest text of a cell (ECMA-376, limits of the application). */
  int LONGEST_CELL = 32_767;

  /**
   * The next row, or nothing at the end.
   *
   * @throws UnreadableTable if there is no going on
   */
  Optional<SheetRow> next() throws IOException, UnreadableTable;

  @Override
  void close() throws IOException;
}
