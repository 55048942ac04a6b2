package org.kornspur.api.export.spreadsheet;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.kornspur.api.export.spreadsheet.SpreadsheetTable.Cell;
import org.kornspur.api.query.plan.PlanView;

/** The seasons of a plan as a table: one row a seed and harvest, hybrids with their demand. */
public final class PlanTable {
  private static final List<String> HEADER =
      List.of(
          "seed",
          "generation",
          "harvest",
          "needed (kg)",
          "available (kg)",
          "short (kg)",
          "area (ha)",
          "wanted (kg)",
          "met (kg)",
          "chance met",
          "why short");

  private PlanTable() {}

  /** The table of a plan. */
  public static SpreadsheetTable of(PlanView plan) {
    Map<List<Object>, PlanView.DemandView> demands = new HashMap<>();
    plan.demands().forEach(one -> demands.put(List.of(one.hybridId(), one.year()), one));
    return new SpreadsheetTable(
        HEADER,
        plan.seasons().stream()
            .map(one -> row(one, demands.get(List.of(one.seedId(), one.year()))))
            .toList());
  }

  private static List<Cell> row(PlanView.SeasonView season, PlanView.DemandView demand) {
    List<Cell> cells =
        new ArrayList<>(
            List.of(
                new Cell.Text(season.seedId()),
                new Cell.Text(season.generation().name()),
                new Cell.Number(season.year()),
                new Cell.Number(season.neededKg()),
                new Cell.Number(season.availableKg()),
                new Cell.Number(season.shortKg()),
                new Cell.Number(season.areaHa())));
    if (demand == null) {
      for (int i = cells.size(); i < HEADER.size(); i++) {
        cells.add(new Cell.Empty());
      }
    } else {
      cells.add(new Cell.Number(demand.wantedKg()));
      cells.add(new Cell.Number(demand.metKg()));
      cells.add(new Cell.Number(demand.chanceMet()));
      cells.add(
          new Cell.Text(
              String.join(" ", demand.reasons().stream().map(PlanView.Reason::sentence).toList())));
    }
    return cells;
  }
}
