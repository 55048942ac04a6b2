package org.kornspur.api.export.spreadsheet;

import java.util.List;
import java.util.stream.IntStream;
import org.kornspur.api.export.spreadsheet.SpreadsheetTable.Cell;
import org.kornspur.api.query.plan.PlanComparison;
import org.kornspur.api.query.plan.PlanView;

/** Plans side by side as a table: one row a plan and demand. */
public final class PlanComparisonTable {
  private static final List<String> HEADER =
      List.of(
          "plan",
          "version",
          "name",
          "hybrid",
          "harvest",
          "wanted (kg)",
          "met (kg)",
          "short (kg)",
          "chance met");

  private PlanComparisonTable() {}

  /** The table of plans side by side. */
  public static SpreadsheetTable of(PlanComparison comparison) {
    return new SpreadsheetTable(
        HEADER,
        IntStream.range(0, comparison.plans().size())
            .boxed()
            .flatMap(
                at ->
                    comparison.demands().stream()
                        .filter(row -> row.cells().get(at).wantedKg() > 0)
                        .map(row -> row(comparison.plans().get(at).head(), row, at)))
            .toList());
  }

  private static List<Cell> row(PlanView.Head head, PlanComparison.Row row, int at) {
    PlanComparison.Cell cell = row.cells().get(at);
    return List.of(
        new Cell.Text(head.planId()),
        new Cell.Number(head.version()),
        new Cell.Text(head.name()),
        new Cell.Text(row.hybridId()),
        new Cell.Number(row.year()),
        new Cell.Number(cell.wantedKg()),
        new Cell.Number(cell.metKg()),
        new Cell.Number(cell.shortKg()),
        new Cell.Number(cell.chanceMet()));
  }
}
