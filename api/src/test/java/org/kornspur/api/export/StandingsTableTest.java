package org.kornspur.api.export;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.StringReader;
import java.time.Instant;
import java.util.List;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.Test;
import org.kornspur.api.export.spreadsheet.CsvWriter;
import org.kornspur.api.query.view.MaterialView;
import org.kornspur.api.query.view.StandingLineView;
import org.kornspur.api.text.DomainTerms;
import org.kornspur.api.text.FieldLabels;
import org.kornspur.api.text.Language;
import org.kornspur.api.text.PageTexts;
import org.kornspur.standing.ReleaseStep;
import org.kornspur.standing.StandingState;

class StandingsTableTest {

  @Test
  void aLineIsWrittenAsThePageShowsItWithEveryDigit() throws Exception {
    StandingLineView lot =
        new StandingLineView(
            "lot:L-1",
            "L-1",
            "lot",
            StandingState.NOT_FIT,
            ReleaseStep.NONE,
            "=Keimfähigkeit, zu niedrig",
            new MaterialView("HYB-01", "SC-01", "COMPONENT", "BASIC", 2026, "EU"),
            "EU",
            List.of("GERMINATION"),
            List.of(),
            "E-1",
            1200.5,
            0,
            1200.125,
            Instant.parse("2026-04-03T12:30:00Z"),
            "/api/v1/lots/L-1");
    StandingLineView unknown =
        new StandingLineView(
            "lot:L-2",
            "L-2",
            "lot",
            StandingState.EVIDENCE_OWED,
            ReleaseStep.NONE,
            "",
            null,
            null,
            List.of(),
            List.of(),
            null,
            0,
            0,
            0,
            Instant.parse("2026-04-03T12:30:00Z"),
            "/api/v1/lots/L-2");

    List<CSVRecord> read =
        CSVFormat.RFC4180
            .parse(
                new StringReader(
                    CsvWriter.write(
                        new StandingsTable(
                                PageTexts.in(Language.GERMAN, "standings"),
                                DomainTerms.in(Language.GERMAN),
                                FieldLabels.in(Language.GERMAN))
                            .of(List.of(lot, unknown)))))
            .getRecords();

    assertThat(read.get(0).toList()).contains("Hybride", "Kategorie", "Erntejahr");
    // a text that could be a formula is no formula (OWASP, CSV Injection)
    assertThat(read.get(1).toList())
        .contains(
            "L-1", "'=Keimfähigkeit, zu niedrig", "HYB-01", "Basissaatgut", "2026", "1200.125")
        .contains("2026-04-03T12:30:00Z");
    assertThat(read.get(2).toList()).hasSameSizeAs(read.get(0).toList()).contains("L-2", "0");
  }
}
