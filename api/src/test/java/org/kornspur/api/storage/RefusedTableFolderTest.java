package org.kornspur.api.storage;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import org.apache.avro.specific.SpecificRecord;
import org.apache.poi.xssf.usermodel.XSSFSheet;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kornspur.api.text.Language;
import org.kornspur.api.text.TableTexts;
import org.kornspur.contract.FactHeader;
import org.kornspur.contract.Harvest;
import org.kornspur.contract.QuarantineEntry;
import org.kornspur.ingest.file.FolderLoader;
import org.kornspur.ingest.file.LoadProgress;
import org.kornspur.ingest.file.LoadReport;
import org.kornspur.ingest.intake.FactSink;

/** A German table in a folder, its refused row given back, mended, and loaded. */
class RefusedTableFolderTest {
  private static final String ROWS =
      """
      C-1;L-1;1200,5;3.8.2024;Zettel 1
      C-1;L-2;viel;3.8.2024;Zettel 2
      """;

  @TempDir Path temporary;

  private final List<SpecificRecord> facts = new ArrayList<>();

  @Test
  void aRefusedRowComesBackWithItsReasonAndCanBeMendedThere() throws Exception {
    Path folder = Files.createDirectory(temporary.resolve("in"));
    Files.writeString(folder.resolve("Harvest 2024.csv"), header() + "\n" + ROWS);

    LoadReport report = load(folder);

    assertThat(report.summary()).contains("1 accepted, 1 refused");
    Path back = temporary.resolve("back").resolve("Harvest 2024.csv.refused.xlsx");
    try (InputStream in = Files.newInputStream(back);
        XSSFWorkbook book = new XSSFWorkbook(in)) {
      XSSFSheet sheet = book.getSheetAt(0);
      assertThat(sheet.getSheetName()).isEqualTo("Harvest");
      assertThat(sheet.getLastRowNum()).isEqualTo(1);
      assertThat(sheet.getRow(1).getCell(2).getStringCellValue()).isEqualTo("viel");
      assertThat(sheet.getRow(1).getCell(5).getStringCellValue()).contains("Zahl", "viel");
      sheet.getRow(1).getCell(2).setCellValue(900.25);
      try (OutputStream out = Files.newOutputStream(folder.resolve("Harvest mended.xlsx"))) {
        book.write(out);
      }
    }
    facts.clear();
    load(folder);

    assertThat(facts)
        .extracting(fact -> ((Harvest) fact).getLotId() + " " + ((Harvest) fact).getMassKg())
        .containsExactlyInAnyOrder("L-1 1200.5", "L-2 900.25");
  }

  /** The names that the forms have. */
  private static String header() {
    TableTexts german = TableTexts.in(Language.GERMAN);
    return String.join(
        ";",
        german.field(Harvest.getClassSchema(), "cropId"),
        german.field(Harvest.getClassSchema(), "lotId"),
        german.field(Harvest.getClassSchema(), "massKg"),
        german.field(FactHeader.getClassSchema(), "happenedAt"),
        german.field(FactHeader.getClassSchema(), "sourceDocument"));
  }

  private LoadReport load(Path folder) throws IOException {
    return FolderLoader.load(
        folder,
        TableTexts.all(),
        new RefusedTableFolder(temporary.resolve("back"), Language.GERMAN),
        Clock.systemUTC(),
        new FactSink() {
          @Override
          public void accept(SpecificRecord fact) {
            facts.add(fact);
          }

          @Override
          public void refuse(QuarantineEntry entry) {}
        },
        LoadProgress.SILENT);
  }
}
