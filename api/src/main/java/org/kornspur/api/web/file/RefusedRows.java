package org.kornspur.api.web.file;

import java.io.IOException;
import java.io.OutputStream;
import org.kornspur.api.command.table.SentTable;
import org.kornspur.api.problem.ProblemLanguage;
import org.kornspur.api.storage.RefusedRowsWorkbook;
import org.kornspur.api.text.Language;
import org.kornspur.api.text.TableTexts;
import org.kornspur.ingest.file.DetectedTable;
import org.kornspur.ingest.file.TableRow;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.intake.ProblemWords;

/** The refused rows of a table that a person sent, in the words of that person. */
final class RefusedRows {

  private RefusedRows() {}

  static void write(SentTable table, DetectedTable form, Language language, OutputStream out)
      throws IOException {
    ProblemWords words = ProblemLanguage.words(language);
    new RefusedRowsWorkbook(
            TableTexts.in(language).reasonColumn(),
            (sheet, problem) -> sentence(sheet, problem, words, language))
        .write(form, table.refused(), out);
  }

  /** What is wrong, with the name of the column, or of the field that has none. */
  static String sentence(
      DetectedTable.Sheet sheet, Problem problem, ProblemWords words, Language language) {
    return TableRow.columnOf(sheet, problem)
        .map(DetectedTable.Column::name)
        .or(() -> TableTemplate.nameOf(sheet.kind(), language, problem.field()))
        .map(name -> name + ": " + words.besideField(problem))
        .orElseGet(() -> words.sentence(problem));
  }
}
