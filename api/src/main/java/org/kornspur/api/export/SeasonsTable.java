package org.kornspur.api.export;

import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.kornspur.api.export.spreadsheet.SpreadsheetTable;
import org.kornspur.api.export.spreadsheet.SpreadsheetTable.Cell;
import org.kornspur.api.query.season.SeasonView;
import org.kornspur.api.query.season.SeasonsView;
import org.kornspur.api.text.DomainTerms;
import org.kornspur.api.text.PageTexts;
import org.kornspur.processors.verdict.Fitness;

/**
 * Seasons as a table, one row each, lots before crops, in the words of the page that shows them.
 *
 * @param texts of the page of seasons
 * @param lists of the lists of lots
 */
record SeasonsTable(PageTexts texts, PageTexts lists, DomainTerms terms) {

  SpreadsheetTable of(SeasonsView seasons) {
    return new SpreadsheetTable(
        List.of(
            texts.of("kind"),
            texts.of("season"),
            terms.stateNamed(Fitness.NOT_FIT.name()),
            terms.stateNamed(Fitness.EVIDENCE_OWED.name()),
            terms.stateNamed(Fitness.FIT.name()),
            texts.of("all"),
            texts.of("fitShare"),
            texts.of("fitFrom"),
            texts.of("fitTo"),
            texts.of("causes"),
            lists.of("left") + ", kg",
            texts.of("givenOut") + ", kg"),
        Stream.concat(
                seasons.lots().stream().map(season -> row(texts.of("lots"), season)),
                seasons.crops().stream().map(season -> row(texts.of("crops"), season)))
            .toList());
  }

  private List<Cell> row(String kind, SeasonView season) {
    return List.of(
        new Cell.Text(kind),
        new Cell.Number(season.cropYear()),
        new Cell.Number(season.notFit()),
        new Cell.Number(season.owed()),
        new Cell.Number(season.fit()),
        new Cell.Number(season.all()),
        new Cell.Number(season.fitShare().percent()),
        new Cell.Number(season.fitShare().lowerPercent()),
        new Cell.Number(season.fitShare().upperPercent()),
        season.causes().isEmpty() ? new Cell.Empty() : new Cell.Text(causes(season)),
        new Cell.Number(season.leftKg()),
        new Cell.Number(season.givenOutKg()));
  }

  private String causes(SeasonView season) {
    return season.causes().stream()
        .map(cause -> terms.gate(cause.gate()) + " " + cause.count())
        .collect(Collectors.joining(", "));
  }
}
