package org.kornspur.ingest.file;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.json.ReadResult;
import org.kornspur.ingest.sheet.SheetRow;

/**
 * A row of a table, read.
 *
 * @param sheet its place among the sheets that hold facts, from 0
 * @param result the fact that it is, or all that is wrong with it
 * @param said paths of the fields that it says itself; the others were filled in
 */
public record TableRow(int sheet, SheetRow row, ReadResult result, Set<String> said) {

  /**
   * Whether a fact that was recorded before with the id of this row says the same, but for what was
   * filled in.
   *
   * @param fact the fact of this row
   */
  public boolean saysTheSameAs(SpecificRecord recorded, SpecificRecord fact) {
    return RowIds.contentOf(recorded, said).equals(RowIds.contentOf(fact, said));
  }

  /** What is wrong; empty where nothing is. */
  public List<Problem> problems() {
    return result instanceof ReadResult.Refused refused ? refused.problems() : List.of();
  }

  /** The column that a problem is about, where it is about one. */
  public static Optional<DetectedTable.Column> columnOf(
      DetectedTable.Sheet sheet, Problem problem) {
    return sheet.columns().stream()
        .filter(column -> column.path().filter(problem.field()::equals).isPresent())
        .findFirst();
  }
}
