package org.kornspur.api.storage;

import java.io.IOException;
import java.io.OutputStream;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.function.BiFunction;
import java.util.stream.Collectors;
import org.dhatim.fastexcel.Workbook;
import org.dhatim.fastexcel.Worksheet;
import org.kornspur.ingest.file.DetectedTable;
import org.kornspur.ingest.file.RefusedRow;
import org.kornspur.ingest.file.TableRow;
import org.kornspur.ingest.intake.Problem;

/**
 * The rows of a table that were refused, as they stood, with the reasons behind each and the cells
 * that are to be mended marked: to be mended and sent again as it is.
 *
 * @param reasonColumn name of the column with the reasons
 * @param sentence what is wrong, in words
 */
public record RefusedRowsWorkbook(
    String reasonColumn, BiFunction<DetectedTable.Sheet, Problem, String> sentence) {
  private static final String MARKED = "FFE0B2";
  private static final double WIDTH_OF_REASON = 80;

  public void write(DetectedTable form, List<RefusedRow> refused, OutputStream out)
      throws IOException {
    try (Workbook workbook = new Workbook(out, "Kornspur", "1.0")) {
      Set<String> sheetNames = new HashSet<>();
      for (int number = 0; number < form.sheets().size(); number++) {
        int at = number;
        List<RefusedRow> rows = refused.stream().filter(row -> row.sheet() == at).toList();
        if (!rows.isEmpty()) {
          DetectedTable.Sheet sheet = form.sheets().get(at);
          // when it is sent again, its name says what its rows are
          String name = sheet.kind().contractName();
          write(workbook.newWorksheet(sheetNames.add(name) ? name : name + " " + at), sheet, rows);
        }
      }
    }
  }

  private void write(Worksheet into, DetectedTable.Sheet sheet, List<RefusedRow> rows)
      throws IOException {
    int reason = sheet.header().size();
    for (int column = 0; column < reason; column++) {
      into.value(0, column, sheet.header().get(column));
      into.style(0, column).bold().set();
    }
    into.value(0, reason, reasonColumn);
    into.style(0, reason).bold().set();
    into.width(reason, WIDTH_OF_REASON);
    for (int at = 0; at < rows.size(); at++) {
      RefusedRow row = rows.get(at);
      Set<Integer> marked =
          row.problems().stream()
              .flatMap(problem -> TableRow.columnOf(sheet, problem).stream())
              .map(DetectedTable.Column::position)
              .collect(Collectors.toSet());
      for (int column = 0; column < Math.min(reason, row.cells().size()); column++) {
        SheetCells.put(into, at + 1, column, row.cells().get(column));
        if (marked.contains(column)) {
          into.style(at + 1, column).fillColor(MARKED).set();
        }
      }
      into.value(
          at + 1,
          reason,
          row.problems().stream()
              .map(problem -> sentence.apply(sheet, problem))
              .collect(Collectors.joining(" · ")));
      into.style(at + 1, reason).wrapText(true).set();
    }
    into.freezePane(0, 1);
    into.finish();
  }
}
