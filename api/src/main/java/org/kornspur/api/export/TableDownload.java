package org.kornspur.api.export;

import jakarta.ws.rs.core.Response;
import java.nio.charset.StandardCharsets;
import org.kornspur.api.export.spreadsheet.CsvWriter;
import org.kornspur.api.export.spreadsheet.SpreadsheetTable;
import org.kornspur.api.export.spreadsheet.XlsxWriter;
import org.kornspur.api.http.Attachment;

/** A table as a file. */
final class TableDownload {
  static final String CSV = "text/csv;charset=UTF-8";
  static final String XLSX = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";

  private TableDownload() {}

  /** As {@code name.csv}. */
  static Response csv(String name, SpreadsheetTable table) {
    return Attachment.of(
        name + ".csv", (Object) CsvWriter.write(table).getBytes(StandardCharsets.UTF_8));
  }

  /** As {@code name.xlsx}. */
  static Response xlsx(String name, SpreadsheetTable table) {
    return Attachment.of(name + ".xlsx", out -> XlsxWriter.write(table, out));
  }
}
