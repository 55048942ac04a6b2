package org.kornspur.api.export;

import java.util.List;
import java.util.Optional;
import org.kornspur.api.export.spreadsheet.SpreadsheetTable;
import org.kornspur.api.export.spreadsheet.SpreadsheetTable.Cell;
import org.kornspur.api.query.view.MaterialView;
import org.kornspur.api.query.view.StandingLineView;
import org.kornspur.api.text.DomainTerms;
import org.kornspur.api.text.FieldLabels;
import org.kornspur.api.text.PageTexts;
import org.kornspur.contract.LotDeclared;

/** A list of crops or lots as a table, one row each, in the words of the page that shows it. */
record StandingsTable(PageTexts texts, DomainTerms terms, FieldLabels labels) {
  SpreadsheetTable of(List<StandingLineView> lines) {
    return new SpreadsheetTable(
        List.of(
            texts.of("idColumn"),
            texts.of("state"),
            texts.of("why"),
            label("hybridId"),
            label("componentId"),
            label("category"),
            label("cropYear"),
            texts.of("holder"),
            texts.of("left") + ", kg",
            texts.of("judged")),
        lines.stream().map(this::row).toList());
  }

  private String label(String field) {
    return labels.of(LotDeclared.getClassSchema(), field);
  }

  private List<Cell> row(StandingLineView line) {
    Optional<MaterialView> material = Optional.ofNullable(line.material());
    return List.of(
        new Cell.Text(line.id()),
        new Cell.Text(terms.state(line.state())),
        text(line.reason()),
        text(material.map(MaterialView::hybridId).orElse(null)),
        text(material.map(MaterialView::seedId).orElse(null)),
        text(material.map(seed -> terms.category(seed.category())).orElse(null)),
        material.<Cell>map(seed -> new Cell.Number(seed.cropYear())).orElseGet(Cell.Empty::new),
        text(line.holder()),
        new Cell.Number(line.leftKg()),
        new Cell.Time(line.changedAt()));
  }

  private static Cell text(String text) {
    return text == null || text.isEmpty() ? new Cell.Empty() : new Cell.Text(text);
  }
}
