package org.kornspur.ingest.file;

import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.intake.Problems;
import org.kornspur.ingest.json.ReadResult;
import org.kornspur.ingest.problem.Given;
import org.kornspur.ingest.problem.TableProblem;
import org.kornspur.ingest.sheet.SheetCell;
import org.kornspur.ingest.sheet.SheetRow;
import org.kornspur.ingest.sheet.SheetRows;
import org.kornspur.ingest.sheet.UnreadableTable;

/**
 * A person's table in a folder, read as {@link FactTable} reads those that are sent; nobody can be
 * asked about it, so a column of no field refuses the file. A row that does not say when it was
 * recorded was so when the file was last changed: read again it is the same fact.
 */
final class TableFile {
  private static final String RECORDED_BY = "kornspur.load";

  private TableFile() {}

  /**
   * Whether a text has the words of people, and not those of the contract alone, that {@link
   * CsvFile} reads.
   */
  static boolean isOfPersons(Path file, String fileName, List<TableWords> languages)
      throws IOException {
    try {
      TableSource source = new TableSource(file, fileName, options(file, languages));
      TableSource.Part part = source.parts().get(0);
      HeaderMatcher people = HeaderMatcher.of(part.kind(), languages);
      HeaderMatcher contract = HeaderMatcher.of(part.kind(), List.of());
      try (SheetRows rows = source.rows(part)) {
        return rows.next().stream()
            .flatMap(header -> header.cells().stream())
            .map(SheetCell::shown)
            .anyMatch(name -> people.path(name).isPresent() && contract.path(name).isEmpty());
      }
    } catch (UnreadableTable none) {
      return false;
    }
  }

  /**
   * Hands each row on.
   *
   * @throws UnreadableTable if no row can be read
   */
  static void read(Path file, String fileName, List<TableWords> languages, FileInputs into)
      throws IOException, UnreadableTable {
    FactTable table = FactTable.open(file, fileName, options(file, languages));
    List<DetectedTable.Sheet> sheets = table.form().sheets();
    Problems problems = new Problems();
    for (DetectedTable.Sheet sheet : sheets) {
      for (DetectedTable.Column column : sheet.unknown()) {
        FieldPathColumn.resolve(sheet.kind(), column.name(), column.position(), problems);
      }
    }
    if (!problems.none()) {
      problems.add("", new Given.UnusableHeader(), new TableProblem.UnusableHeader());
      into.take(
          new FileInput(
              1,
              String.join(";", sheets.get(0).header()).getBytes(StandardCharsets.UTF_8),
              new ReadResult.Refused(problems.list())));
      return;
    }
    List<RefusedRow> refused = new ArrayList<>();
    table.read(
        row -> {
          byte[] original = original(sheets, sheets.get(row.sheet()), row.row());
          List<Problem> wrong =
              into.take(new FileInput(row.row().number(), original, row.result()));
          if (!wrong.isEmpty() && refused.size() < RefusedTables.MOST_ROWS) {
            refused.add(new RefusedRow(row.sheet(), row.row().number(), row.row().cells(), wrong));
          }
        });
    into.takeRefused(table.form(), refused);
  }

  private static TableReadingOptions options(Path file, List<TableWords> languages)
      throws IOException {
    return new TableReadingOptions(
        languages,
        ZoneId.systemDefault(),
        Optional.empty(),
        Map.of(),
        Optional.empty(),
        Optional.empty(),
        RECORDED_BY,
        Files.getLastModifiedTime(file).toInstant(),
        "",
        Optional.empty());
  }

  /** What a person sees in a row, as JSON: its cells by the names of their columns. */
  private static byte[] original(
      List<DetectedTable.Sheet> sheets, DetectedTable.Sheet sheet, SheetRow row) {
    ObjectNode cells = JsonNodeFactory.instance.objectNode();
    if (sheets.size() > 1) {
      cells.put("sheet", sheet.name());
    }
    for (DetectedTable.Column column : sheet.columns()) {
      String shown = row.cell(column.position()).shown();
      if (!shown.isEmpty()) {
        cells.put(column.name(), shown);
      }
    }
    return cells.toString().getBytes(StandardCharsets.UTF_8);
  }
}
