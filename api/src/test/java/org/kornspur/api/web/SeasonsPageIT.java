package org.kornspur.api.web;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.ColorScheme;
import com.microsoft.playwright.options.Media;
import io.restassured.path.json.JsonPath;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.api.security.Role;
import org.kornspur.api.security.login.AsPerson;
import org.kornspur.api.security.login.Asking;
import org.kornspur.api.security.people.TestPeople;
import org.kornspur.api.text.Language;

/**
 * Seasons, multipliers and laboratories side by side, in a real browser and by the interface; held
 * against the lists of lots and crops, and the files of the demo.
 */
@ExtendWith(AsPerson.class)
class SeasonsPageIT extends BrowserTest {
  private static final String QUALITY = TestPeople.of(Role.QUALITY);
  private static final String LABORATORY = TestPeople.of(Role.LABORATORY);
  private static final Path DEMO = Path.of("..", "demo-events");
  private static final int LEAST_WIDTH = 320;
  private static final List<String> PAGES =
      List.of(
          "seasons",
          "seasons?holder=ENT-MULT-WEST",
          "seasons/multipliers?cropYear=2025",
          "laboratories",
          "laboratories/ENT-LAB-ONE?year=2025");

  @ParameterizedTest
  @CsvSource({"NARROW, GERMAN", "WIDE, ENGLISH", "WIDE, GERMAN"})
  void thePagesAreWithinReachOfAll(Screen screen, Language language) {
    Page page = chromium.signedIn(screen, language, root, QUALITY);
    for (String path : PAGES) {
      String name = path.replaceAll("\\W+", "-");
      page.navigate(root + path);
      PageCheck.whole(page, name, screen, language);
      page.emulateMedia(new Page.EmulateMediaOptions().setColorScheme(ColorScheme.DARK));
      PageCheck.contrast(page, name + "-dark-" + screen + "-" + language.tag());
      page.emulateMedia(
          new Page.EmulateMediaOptions().setColorScheme(ColorScheme.LIGHT).setMedia(Media.PRINT));
      PageCheck.contrast(page, name + "-print-" + screen + "-" + language.tag());
      page.emulateMedia(new Page.EmulateMediaOptions().setMedia(Media.SCREEN));
      if (screen == Screen.NARROW) {
        page.setViewportSize(LEAST_WIDTH, screen.height);
        PageCheck.contrast(page, name + "-320-" + language.tag());
        page.setViewportSize(screen.width, screen.height);
      }
    }
    page.context().close();
  }

  @ParameterizedTest
  @CsvSource({
    "'', lots",
    "'', crops",
    "hybrid=HYB-04, lots",
    "holder=ENT-MULT-EAST, crops",
    "seedId=SC-01, crops"
  })
  void seasonsCountWhatTheListsHold(String narrowed, String kind) {
    JsonPath listed = given().get("/api/v1/" + kind + "?size=1000&" + narrowed).jsonPath();
    assertThat(listed.getInt("total")).isBetween(1, 1000);
    Map<Integer, Integer> all = new TreeMap<>();
    Map<Integer, Integer> fit = new TreeMap<>();
    for (int i = 0; i < listed.getInt("total"); i++) {
      Integer year = listed.get("items[" + i + "].material.cropYear");
      if (year != null) {
        all.merge(year, 1, Integer::sum);
        fit.merge(year, listed.get("items[" + i + "].state").equals("FIT") ? 1 : 0, Integer::sum);
      }
    }

    JsonPath seasons =
        given().get("/api/v1/seasons" + (narrowed.isEmpty() ? "" : "?" + narrowed)).jsonPath();

    List<Integer> years = seasons.getList(kind + ".cropYear");
    assertThat(years).containsExactlyInAnyOrderElementsOf(all.keySet());
    for (int i = 0; i < years.size(); i++) {
      String season = kind + "[" + i + "].";
      int year = years.get(i);
      assertThat(seasons.getInt(season + "all")).isEqualTo(all.get(year));
      assertThat(seasons.getInt(season + "fit")).isEqualTo(fit.get(year));
      assertThat(seasons.getDouble(season + "fitShare.percent"))
          .isCloseTo(100.0 * fit.get(year) / all.get(year), within(0.001));
    }
  }

  @Test
  void thePageOfALotLeadsToTheSeasonsOfItsHybridAndShowsWhatTheInterfaceSays() {
    Page page = chromium.signedIn(Screen.WIDE, Language.ENGLISH, root, QUALITY);
    page.navigate(root + "lots/L25-S05-P1");
    page.locator("a[href='/seasons?hybrid=HYB-04']").click();
    assertThat(page.locator("#f-hybrid")).hasValue("HYB-04");
    JsonPath seasons = given().get("/api/v1/seasons?hybrid=HYB-04").jsonPath();
    assertThat(page.locator("#lots ~ div tbody tr")).hasCount(seasons.getList("lots").size());
    String first = page.locator("#lots ~ div tbody tr").first().textContent();
    assertThat(first).startsWith(seasons.getString("lots[0].cropYear"));
    String share = page.locator("#lots ~ div .share-of span").first().textContent();
    assertThat(share)
        .isEqualTo(
            "%.0f (%.0f to %.0f)"
                .formatted(
                    seasons.getDouble("lots[0].fitShare.percent"),
                    seasons.getDouble("lots[0].fitShare.lowerPercent"),
                    seasons.getDouble("lots[0].fitShare.upperPercent")));
    page.context().close();
  }

  @Test
  void theTableHoldsASeasonARow() {
    JsonPath seasons = given().get("/api/v1/seasons?hybrid=HYB-04").jsonPath();
    List<String> lines =
        given().get("/api/v1/lists/seasons.csv?hybrid=HYB-04").asString().lines().toList();
    assertThat(lines).hasSize(1 + seasons.getList("lots").size() + seasons.getList("crops").size());
    assertThat(lines.get(1)).contains(seasons.getString("lots[0].cropYear"));
    Page page = chromium.signedIn(Screen.WIDE, Language.ENGLISH, root, QUALITY);
    page.navigate(root + "seasons?hybrid=HYB-04");
    assertThat(page.locator(".ways a[download]"))
        .hasAttribute("href", "/api/v1/lists/seasons.xlsx?hybrid=HYB-04");
    page.context().close();
  }

  /** A multiplier has its own line alone, whatever it asks for. */
  @Test
  void aMultiplierSeesItsOwnFiguresAlone() throws Exception {
    JsonPath own = asked(TestPeople.WEST, "/api/v1/seasons/multipliers?cropYear=2025");
    assertThat(own.getList("crops.holder")).containsExactly("ENT-MULT-WEST");
    assertThat(new HashSet<>(own.getList("lots.holder"))).isEqualTo(Set.of("ENT-MULT-WEST"));
    JsonPath others = asked(TestPeople.WEST, "/api/v1/seasons?holder=ENT-MULT-EAST");
    assertThat(others.getList("crops")).isEmpty();
    assertThat(others.getList("lots")).isEmpty();
    assertThat(others.getList("forecasts")).isEmpty();
    JsonPath crops = asked(TestPeople.WEST, "/api/v1/crops?cropYear=2025&size=1000");
    assertThat(own.getInt("crops[0].season.all")).isEqualTo(crops.getInt("total"));
    JsonPath whole = asked(QUALITY, "/api/v1/seasons/multipliers?cropYear=2025");
    assertThat(whole.getList("crops.holder")).contains("ENT-MULT-WEST", "ENT-MULT-EAST");
  }

  @Test
  void aLaboratorySeesItsOwnChartAlone() throws Exception {
    assertThat(asked(LABORATORY, "/api/v1/laboratories").getList("laboratoryId"))
        .containsExactly("ENT-LAB-ONE");
    Asking asking = new Asking(root);
    assertThat(asking.get(LABORATORY, "/api/v1/laboratories/ENT-LAB-TWO/control-chart").status())
        .isEqualTo(404);
    assertThat(asking.get(LABORATORY, "/laboratories/ENT-LAB-TWO").status()).isEqualTo(404);
    Page page = chromium.signedIn(Screen.NARROW, Language.ENGLISH, root, LABORATORY);
    page.navigate(root + "laboratory");
    page.locator("a[href='/laboratories/ENT-LAB-ONE']").click();
    assertThat(page.locator("h1")).containsText("Replicates of");
    assertThat(page.locator("svg.drawing .mark")).not().hasCount(0);
    PageCheck.whole(page, "laboratory-chart-NARROW-en");
    page.context().close();
  }

  /** Ranges read from the files of 2025 by hand of this test, whose replicates are all of 100. */
  @Test
  void theChartHoldsTheRangesOfTheFiles() throws IOException {
    Map<String, Integer> ranges = new TreeMap<>();
    for (String line : Files.readAllLines(DEMO.resolve("2025/GerminationTest.csv"))) {
      String[] cells = line.split(",");
      if (line.contains("ENT-LAB-TWO")) {
        int[] normal =
            Stream.of(line.replaceAll(".*?((?:100/\\d+;?)+).*", "$1").split(";"))
                .mapToInt(one -> Integer.parseInt(one.substring("100/".length())))
                .sorted()
                .toArray();
        ranges.put(cells[0], normal[normal.length - 1] - normal[0]);
      }
    }
    assertThat(ranges).hasSizeGreaterThan(20);
    JsonPath chart =
        given().get("/api/v1/laboratories/ENT-LAB-TWO/control-chart?year=2025").jsonPath();
    List<String> facts = chart.getList("chart.tests.factId");
    assertThat(facts).containsAll(ranges.keySet());
    ranges.forEach(
        (factId, range) ->
            assertThat(
                    chart.getDouble(
                        "chart.tests[%d].rangePercent".formatted(facts.indexOf(factId))))
                .as(factId)
                .isEqualTo(range.doubleValue()));
    assertThat(chart.getBoolean("chart.ownCentre")).isTrue();
    Page page = chromium.signedIn(Screen.WIDE, Language.ENGLISH, root, QUALITY);
    page.navigate(root + "laboratories/ENT-LAB-TWO?year=2025");
    assertThat(page.locator("#chart ~ div.scroll tbody tr")).hasCount(facts.size());
    assertThat(page.locator("svg.drawing .mark")).hasCount(facts.size());
    page.context().close();
  }

  private JsonPath asked(String person, String path) throws IOException, InterruptedException {
    return JsonPath.from(new Asking(root).get(person, path).body());
  }
}
