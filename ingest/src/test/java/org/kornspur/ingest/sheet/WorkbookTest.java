package org.kornspur.ingest.sheet;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.math.BigDecimal;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.function.Consumer;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.apache.poi.ss.usermodel.CellStyle;
import org.apache.poi.xssf.streaming.SXSSFWorkbook;
import org.apache.poi.xssf.usermodel.XSSFRichTextString;
import org.apache.poi.xssf.usermodel.XSSFSheet;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.ingest.problem.WorkbookProblem;

/** Workbooks are written by Apache POI, an implementation of others, or by hand where hostile. */
class WorkbookTest {
  @TempDir Path folder;

  @Test
  void everyKindOfCellIsRead() throws Exception {
    Path file =
        written(
            book -> {
              XSSFSheet sheet = book.createSheet("Ernte");
              CellStyle day = book.createCellStyle();
              day.setDataFormat(book.createDataFormat().getFormat("dd\\.mm\\.yyyy"));
              CellStyle kilograms = book.createCellStyle();
              kilograms.setDataFormat(book.createDataFormat().getFormat("#,##0.0 \"dry kg\""));
              var row = sheet.createRow(4);
              row.createCell(1).setCellValue("  Roggen ");
              row.createCell(2).setCellValue(8.4000000000000004);
              row.getCell(2).setCellStyle(kilograms);
              row.createCell(3).setCellValue(LocalDate.of(2026, 4, 3));
              row.getCell(3).setCellStyle(day);
              row.createCell(4).setCellValue(LocalDateTime.of(2026, 4, 3, 14, 30));
              row.getCell(4).setCellStyle(day);
              row.createCell(5).setCellValue(true);
              row.createCell(6).setCellFormula("1+1");
              row.createCell(7).setCellErrorValue((byte) 0x17);
              row.createCell(8).setCellValue(new XSSFRichTextString("from runs"));
              row.createCell(9).setCellValue(2026);
            });

    SheetRow row = rows(file, 0).get(0);

    assertThat(row.number()).isEqualTo(5);
    assertThat(row.cells())
        .containsExactly(
            new SheetCell.Empty(),
            new SheetCell.Text("Roggen"),
            new SheetCell.Number(new BigDecimal("8.4")),
            new SheetCell.Moment(LocalDateTime.of(2026, 4, 3, 0, 0)),
            new SheetCell.Moment(LocalDateTime.of(2026, 4, 3, 14, 30)),
            new SheetCell.Flag(true),
            new SheetCell.Formula(),
            new SheetCell.Fault("#REF!"),
            new SheetCell.Text("from runs"),
            new SheetCell.Number(new BigDecimal("2026")));
  }

  @Test
  void datesFrom1904AreRead() throws Exception {
    Path file =
        written(
            book -> {
              book.getCTWorkbook().addNewWorkbookPr().setDate1904(true);
              CellStyle day = book.createCellStyle();
              day.setDataFormat((short) 14);
              var cell = book.createSheet("S").createRow(0).createCell(0);
              // day 46,115 from 1900, 1,462 days fewer from 1904 (ECMA-376-1, 18.17.4.1)
              cell.setCellValue(46_115 - 1_462);
              cell.setCellStyle(day);
            });

    assertThat(rows(file, 0).get(0).cell(0).shown()).isEqualTo("2026-04-03");
  }

  @ParameterizedTest
  @CsvSource({
    "14, , true",
    "2, , false",
    "49, , false",
    "164, yyyy-mm-dd, true",
    "164, [$-407]d. mmmm yyyy;@, true",
    "164, General, false",
    "164, 0.00\" dry\", false",
    "164, [Red]0.0, false",
    "164, 0\\d, false",
    "164, [h]:mm, true"
  })
  void aFormatOfDatesIsToldFromOneOfNumbers(int format, String code, boolean isDate) {
    // ECMA-376-1, 18.8.30 (formats 14 to 22 are dates) and 18.8.31 (codes, quotes, brackets)
    assertThat(CellStyles.isDate(format, code)).isEqualTo(isDate);
  }

  @Test
  void manyRowsAreReadOneByOne() throws Exception {
    Path file = folder.resolve("long.xlsx");
    try (OutputStream out = Files.newOutputStream(file);
        SXSSFWorkbook book = new SXSSFWorkbook(50)) {
      var sheet = book.createSheet("S");
      for (int row = 0; row < 3_000; row++) {
        var made = sheet.createRow(row);
        for (int cell = 0; cell < 8; cell++) {
          made.createCell(cell).setCellValue("cell " + row + " of " + cell);
        }
      }
      book.write(out);
    }
    int count = 0;
    try (Workbook book = Workbook.open(file, "long.xlsx");
        SheetRows rows = book.rows(0)) {
      while (rows.next().isPresent()) {
        count++;
      }
    }
    assertThat(count).isEqualTo(3_000);
  }

  @Test
  void whatIsNoWorkbookOrMoreThanOneIsRefused() throws Exception {
    assertThat(refusal(bytes("PK\u0003\u0004 and nothing else")))
        .isEqualTo(new WorkbookProblem.Damaged().coded());
    assertThat(refusal(zip("mimetype", "application/vnd.oasis.opendocument.spreadsheet")))
        .isEqualTo(new WorkbookProblem.NoTable().coded());
    byte[] old = {(byte) 0xD0, (byte) 0xCF, 0x11, (byte) 0xE0, 1, 2, 3, 4};
    assertThat(refusal(old)).isEqualTo(new WorkbookProblem.OldOrLocked().coded());
    assertThat(refusal(sheet("", "xl/externalLinks/externalLink1.xml", "<externalLink/>")))
        .isEqualTo(new WorkbookProblem.ExternalLinks().coded());
    assertThat(refusal(sheet("", "xl/vbaProject.bin", "x")))
        .isEqualTo(new WorkbookProblem.Macros().coded());
  }

  @Test
  void aCellFarOutIsRefusedBeforeItCostsAnything() throws Exception {
    assertThat(refusal(sheet("<row r=\"1\"><c r=\"ZZZZZZ1\"><v>1</v></c></row>")))
        .isEqualTo(new WorkbookProblem.TooManyColumns(SheetRows.MOST_COLUMNS).coded());
    String many = "<c><v>1</v></c>".repeat(100_000);
    assertThat(refusal(sheet("<row r=\"1\">" + many + "</row>")))
        .isEqualTo(new WorkbookProblem.TooManyColumns(SheetRows.MOST_COLUMNS).coded());
  }

  @Test
  void whatUnpacksToMoreThanMemoryHoldsIsRefused() throws Exception {
    byte[] bomb = sheet(" ".repeat(3_000_000));
    assertThat(bomb.length).isLessThan(20_000);
    Path file = Files.write(folder.resolve("bomb.xlsx"), bomb);
    UnreadableTable refused =
        catchThrowableOfType(
            UnreadableTable.class,
            () -> {
              try (Workbook book = Workbook.open(file, "bomb.xlsx", 2);
                  SheetRows rows = book.rows(0)) {
                assertThat(rows.next()).isEmpty();
              }
            });
    assertThat(refused.problem().reason())
        .isEqualTo(new WorkbookProblem.TooMuchUnpacked(2).coded());
  }

  @Test
  void aTextLongerThanACellMayHoldIsRefused() throws Exception {
    String text = "x".repeat(SheetRows.LONGEST_CELL + 1);
    assertThat(
            refusal(sheet("", "xl/sharedStrings.xml", "<sst><si><t>" + text + "</t></si></sst>")))
        .isEqualTo(new WorkbookProblem.CellTooLong(SheetRows.LONGEST_CELL).coded());
    assertThat(refusal(sheet("<row><c t=\"inlineStr\"><is><t>" + text + "</t></is></c></row>")))
        .isEqualTo(new WorkbookProblem.CellTooLong(SheetRows.LONGEST_CELL).coded());
  }

  @Test
  void entitiesAreNeitherFetchedNorUnfolded() throws Exception {
    Path secret = Files.writeString(folder.resolve("secret.txt"), "secret");
    String type =
        "<!DOCTYPE w [<!ENTITY a SYSTEM \"" + secret.toUri() + "\"><!ENTITY b \"bbbbbbbb\">]>";
    for (String entity : List.of("&a;", "&b;")) {
      byte[] hostile =
          zip(
              type
                  + "<worksheet><sheetData><row><c t=\"inlineStr\"><is><t>"
                  + entity
                  + "</t></is></c></row></sheetData></worksheet>");
      Path file = Files.write(folder.resolve("entities.xlsx"), hostile);
      assertThat(readOrRefused(file)).doesNotContain("secret", "bbbb");
    }
  }

  @Test
  void whateverIsChangedInAWorkbookItIsReadOrRefused() throws Exception {
    Path file =
        written(
            book -> {
              XSSFSheet sheet = book.createSheet("S");
              for (int row = 0; row < 5; row++) {
                sheet.createRow(row).createCell(0).setCellValue("text " + row);
                sheet.getRow(row).createCell(1).setCellValue(row / 3.0);
              }
            });
    byte[] good = Files.readAllBytes(file);
    Random random = new Random(20261129);
    int refused = 0;
    for (int round = 0; round < 400; round++) {
      byte[] changed = good.clone();
      for (int change = 0; change < 1 + round % 8; change++) {
        changed[random.nextInt(changed.length)] = (byte) random.nextInt(256);
      }
      Path hostile = Files.write(folder.resolve("changed.xlsx"), changed);
      try {
        if (Workbook.isWorkbook(hostile)) {
          rows(hostile, 0);
        }
      } catch (UnreadableTable told) {
        refused++;
      }
    }
    assertThat(refused).isBetween(50, 400);
  }

  private static String readOrRefused(Path file) throws IOException {
    try {
      return rows(file, 0).toString();
    } catch (UnreadableTable refused) {
      return refused.getMessage();
    }
  }

  private Path written(Consumer<XSSFWorkbook> with) throws IOException {
    Path file = folder.resolve("written.xlsx");
    try (XSSFWorkbook book = new XSSFWorkbook();
        OutputStream out = Files.newOutputStream(file)) {
      with.accept(book);
      book.write(out);
    }
    return file;
  }

  private static List<SheetRow> rows(Path file, int sheet) throws IOException, UnreadableTable {
    List<SheetRow> all = new ArrayList<>();
    try (Workbook book = Workbook.open(file, file.getFileName().toString())) {
      if (book.sheets().isEmpty()) {
        return all;
      }
      SheetRows rows = book.rows(sheet);
      for (Optional<SheetRow> row = rows.next(); row.isPresent(); row = rows.next()) {
        all.add(row.get());
      }
    }
    return all;
  }

  private Object refusal(byte[] workbook) throws IOException {
    Path file = Files.write(folder.resolve("hostile.xlsx"), workbook);
    UnreadableTable refused = catchThrowableOfType(UnreadableTable.class, () -> rows(file, 0));
    assertThat(refused).isNotNull();
    return refused.problem().reason();
  }

  private static byte[] bytes(String text) {
    return text.getBytes(UTF_8);
  }

  private static byte[] sheet(String rows, String... more) throws IOException {
    return zip("<worksheet><sheetData>" + rows + "</sheetData></worksheet>", more);
  }

  private static byte[] zip(String sheet, String... more) throws IOException {
    ByteArrayOutputStream packed = new ByteArrayOutputStream();
    try (ZipOutputStream zip = new ZipOutputStream(packed)) {
      if (!sheet.equals("mimetype")) {
        writeFrame(zip);
        write(zip, "xl/worksheets/sheet1.xml", sheet);
      } else {
        write(zip, sheet, more[0]);
        return finished(zip, packed);
      }
      for (int part = 0; part < more.length; part += 2) {
        write(zip, more[part], more[part + 1]);
      }
    }
    return packed.toByteArray();
  }

  private static byte[] finished(ZipOutputStream zip, ByteArrayOutputStream packed)
      throws IOException {
    zip.finish();
    return packed.toByteArray();
  }

  private static void writeFrame(ZipOutputStream zip) throws IOException {
    write(
        zip,
        "xl/workbook.xml",
        "<workbook xmlns:r=\"http://schemas.openxmlformats.org/officeDocument/2006/relationships\">"
            + "<sheets><sheet name=\"S\" r:id=\"r1\"/></sheets></workbook>");
    write(
        zip,
        "xl/_rels/workbook.xml.rels",
        "<Relationships><Relationship Id=\"r1\" Target=\"worksheets/sheet1.xml\"/></Relationships>");
  }

  private static void write(ZipOutputStream zip, String part, String text) throws IOException {
    zip.putNextEntry(new ZipEntry(part));
    zip.write(text.getBytes(UTF_8));
    zip.closeEntry();
  }
}
