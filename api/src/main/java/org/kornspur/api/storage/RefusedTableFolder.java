package org.kornspur.api.storage;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.kornspur.api.problem.ProblemLanguage;
import org.kornspur.api.text.Language;
import org.kornspur.api.text.TableTexts;
import org.kornspur.ingest.file.DetectedTable;
import org.kornspur.ingest.file.RefusedRow;
import org.kornspur.ingest.file.RefusedTables;
import org.kornspur.ingest.file.TableRow;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.intake.ProblemWords;

/**
 * Refused rows of the tables of a loaded folder: a workbook for each table that has some, which can
 * be mended and put into the folder. It is taken away once the table has none.
 *
 * @param folder closed to others
 * @param language of the reasons
 */
public record RefusedTableFolder(Path folder, Language language) implements RefusedTables {

  @Override
  public void take(String name, DetectedTable form, List<RefusedRow> rows) throws IOException {
    Path file = folder.resolve(name.replaceAll("[^\\p{L}\\p{N} ._-]", "_") + ".refused.xlsx");
    if (rows.isEmpty()) {
      Files.deleteIfExists(file);
      return;
    }
    PrivateFolder.make(folder);
    ProblemWords words = ProblemLanguage.words(language);
    try (OutputStream out = Files.newOutputStream(file)) {
      new RefusedRowsWorkbook(
              TableTexts.in(language).reasonColumn(),
              (sheet, problem) -> sentence(sheet, problem, words))
          .write(form, rows, out);
    }
  }

  private static String sentence(DetectedTable.Sheet sheet, Problem problem, ProblemWords words) {
    return TableRow.columnOf(sheet, problem)
        .map(column -> column.name() + ": " + words.besideField(problem))
        .orElseGet(() -> words.sentence(problem));
  }
}
