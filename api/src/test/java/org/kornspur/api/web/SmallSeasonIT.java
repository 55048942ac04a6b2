package org.kornspur.api.web;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Download;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import io.restassured.path.json.JsonPath;
import java.io.IOException;
import java.math.BigDecimal;
import java.math.MathContext;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.kornspur.api.security.Role;
import org.kornspur.api.security.people.TestPeople;
import org.kornspur.api.text.Language;
import org.kornspur.api.web.record.ContractForm;

/**
 * A whole small season, entered by forms alone on a desk in English and on a phone in German, and
 * by five spreadsheets with faults: the same facts, so the same standings. What was typed and
 * pressed for each kind of fact is left in {@code target/checks/small-season.md}.
 */
class SmallSeasonIT extends EmptySiteTest {
  private static final SmallSeason DESK = new SmallSeason("SD", 3);
  private static final SmallSeason PHONE = new SmallSeason("SP", 5);
  private static final SmallSeason SHEETS = new SmallSeason("SH", 7);

  @Test
  void byFormsAndBySpreadsheetsASeasonComesToTheSame() throws IOException {
    byForms(DESK, Screen.WIDE, Language.ENGLISH);
    byForms(PHONE, Screen.NARROW, Language.GERMAN);
    bySpreadsheets();

    List<Object> desk = standings(DESK);
    assertThat(desk).isEqualTo(standings(PHONE)).isEqualTo(standings(SHEETS));
  }

  private void byForms(SmallSeason season, Screen screen, Language language) throws IOException {
    Page page = BrowserTest.chromium.signedIn(screen, language, root, TestPeople.of(Role.QUALITY));
    Map<String, String> table = new LinkedHashMap<>();
    for (SmallSeason.Paper paper : season.papers()) {
      String path = new ContractForm(paper.type()).path();
      page.navigate(root + "record");
      page.locator(".kinds a[href='/record/" + path + "']").click();
      page.waitForURL("**/record/" + path);
      Hands hands = new Hands(page);
      paper.values().forEach((name, value) -> enter(page, hands, name, value));
      hands.type("header.happenedAt", paper.day() + "T12:00");
      hands.type("header.sourceDocument", paper.document());
      hands.check();
      hands.record();
      table.putIfAbsent(
          path,
          "| %s | %d | %d | %.0f |"
              .formatted(path, hands.fields(), hands.presses() + 2, hands.seconds(2)));
    }
    Path file = Path.of("target", "checks", "small-season.md");
    Files.createDirectories(file.getParent());
    Files.write(
        file,
        Stream.concat(
                Stream.of(
                    "| Form | fields | clicks from any page | seconds by the keystroke model |",
                    "|---|---|---|---|"),
                table.values().stream())
            .toList());
  }

  private static void enter(Page page, Hands hands, String name, String value) {
    Locator field = page.locator("[name='" + name + "']");
    if (field.count() == 0) {
      hands.press("more:" + name.substring(0, name.indexOf('[')));
      assertThat(field).isVisible();
    }
    boolean comma =
        "DECIMAL".equals(field.getAttribute("data-kind"))
            && "de".equals(page.locator("html").getAttribute("lang"));
    hands.type(name, comma ? value.replace('.', ',') : value);
  }

  private void bySpreadsheets() throws IOException {
    Page page =
        BrowserTest.chromium.signedIn(
            Screen.WIDE, Language.GERMAN, root, TestPeople.of(Role.QUALITY));
    for (SeasonSheets.Table table : new SeasonSheets(SHEETS).tables()) {
      send(page, table.name(), table.mime(), table.content());
      if (!table.leftOut().isEmpty()) {
        page.getByLabel(table.leftOut()).first().selectOption("-");
        page.locator("#unknown button").click();
      }
      int wrong = table.faults().size();
      assertThat(page.locator("#count-NEW")).hasText("Wird erfasst: " + (table.rows() - wrong));
      assertThat(page.locator("#count-REFUSED")).hasText("Abgelehnt: " + wrong);
      record(page, table.rows() - wrong);

      Download refused = page.waitForDownload(() -> page.locator("#refused").click());
      byte[] mended = SeasonSheets.mended(Files.readAllBytes(refused.path()), table);
      send(page, "berichtigt " + table.name() + ".xlsx", XLSX, mended);
      assertThat(page.locator("#count-NEW")).hasText("Wird erfasst: " + wrong);
      record(page, wrong);
    }
  }

  private static void record(Page page, int rows) {
    page.locator("#record button").click();
    assertThat(page.locator("#count-RECORDED")).hasText("Erfasst: " + rows);
  }

  /** What is said of the crop and the lots, but for ids of facts, which differ with the way. */
  private static List<Object> standings(SmallSeason season) {
    Stream<String> paths =
        Stream.concat(
            Stream.of("/api/v1/crops/" + season.crop()),
            season.lots().stream().map(lot -> "/api/v1/lots/" + lot));
    return paths
        .map(
            path -> {
              JsonPath answer =
                  PostedFacts.until(
                          path,
                          got ->
                              got.statusCode() == 200
                                  && "FIT".equals(got.jsonPath().getString("state")))
                      .jsonPath();
              return (Object)
                  List.of(
                      number(answer.get("heldKg")),
                      number(answer.get("leftKg")),
                      answer.<Map<String, Object>>getList("gates").stream()
                          .map(SmallSeasonIT::verdict)
                          .toList());
            })
        .toList();
  }

  private static List<Object> verdict(Map<String, Object> gate) {
    return List.of(
        gate.get("gate"),
        gate.get("state"),
        number(gate.get("value")),
        String.valueOf(gate.get("unit")),
        number(gate.get("margin")),
        String.valueOf(gate.get("limit")));
  }

  /** Areas of equal fields at other longitudes differ in the last digits. */
  private static Object number(Object value) {
    return Optional.ofNullable(value)
        .map(Object::toString)
        .map(BigDecimal::new)
        .<Object>map(
            number -> number.round(new MathContext(6)).stripTrailingZeros().toPlainString())
        .orElse("none");
  }
}
