package org.kornspur.api.export;

import jakarta.ws.rs.core.Response;
import java.nio.charset.StandardCharsets;
import org.kornspur.api.export.spreadsheet.CsvRecords;
import org.kornspur.api.export.spreadsheet.RecordsTable;
import org.kornspur.api.export.spreadsheet.XlsxRecords;
import org.kornspur.api.http.Attachment;

/** A table as a file. */
final class TableAnswer {
  static final String CSV = "text/csv;charset=UTF-8";
  static final String XLSX = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";

  private TableAnswer() {}

  /** As {@code name.csv}. */
  static Response csv(String name, RecordsTable table) {
    return Attachment.of(
        name + ".csv", (Object) CsvRecords.write(table).getBytes(StandardCharsets.UTF_8));
  }

  /** As {@code name.xlsx}. */
  static Response xlsx(String name, RecordsTable table) {
    return Attachment.of(name + ".xlsx", out -> XlsxRecords.write(table, out));
  }
}
