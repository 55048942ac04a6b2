package org.kornspur.ingest.file;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.kornspur.ingest.sheet.SheetRow;
import org.kornspur.ingest.sheet.SheetRows;
import org.kornspur.ingest.sheet.UnreadableTable;
import org.kornspur.ingest.sheet.Workbook;

/** A person's table that holds no facts: the first sheet of a workbook, or a table as text. */
public final class PlainTable {

  private PlainTable() {}

  /**
   * The rows with something in them, the header among them.
   *
   * @param fileName as the person calls it
   * @throws UnreadableTable if it is neither, or too large
   */
  public static List<SheetRow> rows(Path file, String fileName)
      throws IOException, UnreadableTable {
    if (!Workbook.isWorkbook(file)) {
      return read(TextTable.of(file, fileName, cells -> 0).rows());
    }
    try (Workbook workbook = Workbook.open(file, fileName)) {
      return read(workbook.rows(0));
    }
  }

  private static List<SheetRow> read(SheetRows rows) throws IOException, UnreadableTable {
    try (rows) {
      List<SheetRow> read = new ArrayList<>();
      for (Optional<SheetRow> row = rows.next(); row.isPresent(); row = rows.next()) {
        if (!row.get().isEmpty()) {
          read.add(row.get());
        }
      }
      return read;
    }
  }
}
