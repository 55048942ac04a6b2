package org.kornspur.api.web;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Download;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.time.LocalDate;
import java.util.List;
import org.apache.poi.ss.usermodel.CellStyle;
import org.apache.poi.xssf.usermodel.XSSFRow;
import org.apache.poi.xssf.usermodel.XSSFSheet;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
import org.junit.jupiter.api.Test;
import org.kornspur.api.security.Role;
import org.kornspur.api.security.people.TestPeople;
import org.kornspur.api.text.Language;

/** Spreadsheets with the faults that people make, sent in a real browser. */
class FilesIT extends EmptySiteTest {
  private static final String CSV = "text/csv";

  /** An old German spreadsheet: semicolons, Windows-1252, decimal commas, local dates. */
  private static final byte[] HARVESTS =
      """
      Bestand;Partie;Masse, kg;Tag und Uhrzeit;Beleg
      FT-C-1;FT-L-1;6.890,5;3.8.2026 14:30;Zettel für Größe 1
      FT-C-1;FT-L-2;1200;4.8.2026;Zettel 2
      FT-C-1;FT-L-3;12O0;5.8.2026;Zettel 3
      FT-C-1;FT L 4;1300;31.2.2026;Zettel 4
      """
          .getBytes(Charset.forName("windows-1252"));

  @Test
  void aTableIsSentMendedAndSentAgain() throws Exception {
    Page page = signedIn(Screen.WIDE, Language.GERMAN);
    PageCheck.whole(page, "files-WIDE-de");

    send(page, "Ernte 2026.csv", CSV, HARVESTS);

    assertThat(page.locator("#count-NEW")).hasText("Wird erfasst: 2");
    assertThat(page.locator("#count-REFUSED")).hasText("Abgelehnt: 2");
    assertThat(page.locator("#told")).containsText("windows-1252");
    assertThat(page.locator("#told")).containsText("Dezimalkomma");
    assertThat(page.locator("tr.REFUSED").first()).containsText("Masse, kg");
    assertThat(page.locator("tr.REFUSED").first()).containsText("12O0");
    assertThat(page.locator("tr.REFUSED").first()).containsText("Nur Ziffern schreiben");
    assertThat(page.locator("tr.REFUSED").last()).containsText("FT L 4");
    PageCheck.whole(page, "files-looked-at-WIDE-de");
    given().get("/api/v1/lots/FT-L-1").then().statusCode(404);

    page.locator("#record button").click();
    assertThat(page.locator("#recorded")).isVisible();
    assertThat(page.locator("#count-RECORDED")).hasText("Erfasst: 2");
    PostedFacts.until("/api/v1/lots/FT-L-1", answer -> answer.statusCode() == 200);

    byte[] mended = mended(download(page));
    send(page, "berichtigt.xlsx", XLSX, mended);
    assertThat(page.locator("#count-NEW")).hasText("Wird erfasst: 2");
    page.locator("#record button").click();
    assertThat(page.locator("#count-RECORDED")).hasText("Erfasst: 2");
    PostedFacts.until("/api/v1/lots/FT-L-4", answer -> answer.statusCode() == 200);

    send(page, "berichtigt.xlsx", XLSX, mended);
    assertThat(page.locator("#count-THERE")).hasText("Schon da: 2");
    assertThat(page.locator("#record")).hasCount(0);
    send(page, "Ernte 2026.csv", CSV, HARVESTS);
    assertThat(page.locator("#count-THERE")).hasText("Schon da: 2");
    assertThat(page.locator("#count-REFUSED")).hasText("Abgelehnt: 2");
  }

  @Test
  void aColumnThatIsNotKnownIsMappedByHand() throws Exception {
    Page page = signedIn(Screen.NARROW, Language.ENGLISH);

    send(page, "weights.xlsx", XLSX, harvestWithUnknownColumn());

    assertThat(page.locator("#unknown")).containsText("Net weight");
    assertThat(page.locator("#record")).hasCount(0);
    PageCheck.whole(page, "files-unknown-NARROW-en");
    page.getByLabel("Net weight").selectOption("massKg");
    page.locator("#unknown button").click();

    assertThat(page.locator("#count-NEW")).hasText("Will be recorded: 1");
    PageCheck.whole(page, "files-mapped-NARROW-en");
    page.locator("#record button").click();
    assertThat(page.locator("#count-RECORDED")).hasText("Recorded: 1");

    send(page, "weights.xlsx", XLSX, harvestWithUnknownColumn());
    assertThat(page.locator("#told")).containsText("said before: Net weight");
    assertThat(page.locator("#count-THERE")).hasText("There already: 1");
  }

  @Test
  void aListLeavesAsItIsFilteredAndASeasonAsTheLoaderTakesIt() {
    PostedFacts.bring(
        List.of(
            """
            {"type":"LotDeclared","header":{"factId":"ft-out-1","recordedBy":"p-1",
             "happenedAt":"2025-08-01T10:00:00Z","recordedAt":"2025-08-01T10:00:00Z",
             "sourceDocument":"note"},"lotId":"FT-OUT-1","hybridId":"FT-HYB","componentId":"FT-A",
             "category":"BASIC","enterpriseId":"FT-E","rulebookId":"EU","cropYear":1995,
             "massKg":450.5}\
            """));
    PostedFacts.until("/api/v1/lots/FT-OUT-1", answer -> answer.statusCode() == 200);
    Page page = signedIn(Screen.WIDE, Language.ENGLISH);
    page.navigate(root + "lots?id=FT-OUT&hybrid=");

    String csv = text(page, "CSV");

    assertThat(csv.lines()).hasSize(2);
    assertThat(csv).contains("Hybrid", "FT-OUT-1", "FT-HYB", "basic seed", "1995", "450.5");
    assertThat(text(page, "XLSX")).startsWith("PK");
    page.navigate(root + "seasons");
    assertThat(page.locator("a[href='/api/v1/lists/season-1995.zip']")).hasCount(1);
    given().get("/api/v1/lists/season-1995.zip").then().statusCode(200);
    given().get("/api/v1/lists/season-last.zip").then().statusCode(400);
    given().get("/api/v1/lists/lots.csv?state=GOOD").then().statusCode(400);
  }

  private static String text(Page page, String link) {
    Download download =
        page.waitForDownload(
            () ->
                page.getByRole(
                        AriaRole.LINK, new Page.GetByRoleOptions().setName(link).setExact(true))
                    .click());
    try {
      return new String(Files.readAllBytes(download.path()), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private Page signedIn(Screen screen, Language language) {
    Page page = BrowserTest.chromium.signedIn(screen, language, root, TestPeople.of(Role.QUALITY));
    page.navigate(root + "files");
    return page;
  }

  private static byte[] download(Page page) throws IOException {
    Download download = page.waitForDownload(() -> page.locator("#refused").click());
    return Files.readAllBytes(download.path());
  }

  /** As the person mends it in a spreadsheet program; the reason stays beside each row. */
  private static byte[] mended(byte[] refused) throws IOException {
    try (XSSFWorkbook book = new XSSFWorkbook(new ByteArrayInputStream(refused))) {
      XSSFSheet sheet = book.getSheetAt(0);
      assertThat(sheet.getRow(0).getCell(5).getStringCellValue()).isEqualTo("Was falsch ist");
      assertThat(sheet.getRow(1).getCell(5).getStringCellValue()).contains("12O0");
      assertThat(sheet.getLastRowNum()).isEqualTo(2);
      sheet.getRow(1).getCell(2).setCellValue(1200);
      sheet.getRow(2).getCell(1).setCellValue("FT-L-4");
      sheet.getRow(2).getCell(3).setCellValue("30.8.2026");
      return bytes(book);
    }
  }

  private static byte[] harvestWithUnknownColumn() throws IOException {
    try (XSSFWorkbook book = new XSSFWorkbook()) {
      CellStyle day = book.createCellStyle();
      day.setDataFormat((short) 14);
      XSSFSheet sheet = book.createSheet("Harvest");
      XSSFRow header = sheet.createRow(0);
      XSSFRow row = sheet.createRow(1);
      String[] names = {"lot", "CROP", "Net weight", "Day and time"};
      for (int at = 0; at < names.length; at++) {
        header.createCell(at).setCellValue(names[at]);
      }
      row.createCell(0).setCellValue("FT-L-9");
      row.createCell(1).setCellValue("FT-C-2");
      row.createCell(2).setCellValue(812.5);
      row.createCell(3).setCellValue(LocalDate.of(2026, 8, 9));
      row.getCell(3).setCellStyle(day);
      return bytes(book);
    }
  }

  private static byte[] bytes(XSSFWorkbook book) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    book.write(out);
    return out.toByteArray();
  }
}
