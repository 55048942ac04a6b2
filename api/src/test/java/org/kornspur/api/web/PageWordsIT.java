package org.kornspur.api.web;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Page;
import io.restassured.http.ContentType;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.kornspur.api.security.Role;
import org.kornspur.api.security.login.AsPerson;
import org.kornspur.api.security.people.TestPeople;
import org.kornspur.api.text.Language;

/**
 * How many words each page of the invented enterprise shows before anything is opened, in each
 * language, to the first of these people who may see it. The table is kept in {@code
 * target/checks/page-words.md}.
 */
@ExtendWith(AsPerson.class)
class PageWordsIT extends BrowserTest {
  private static final Path TABLE = Path.of("target", "checks", "page-words.md");

  /**
   * A reader at 250 words a minute needs a minute for so many; common practice, no source. Most
   * have less than 100.
   */
  private static final int MOST_WORDS = 250;

  /** Today has a card for each of 20 causes at most, and as many as the tests before left. */
  private static final int MOST_WORDS_TODAY = 750;

  private static final List<String> PEOPLE =
      List.of(
          TestPeople.of(Role.QUALITY),
          TestPeople.of(Role.AUDITOR),
          TestPeople.WEST,
          TestPeople.of(Role.INSPECTOR),
          TestPeople.of(Role.LABORATORY),
          TestPeople.of(Role.ADMINISTRATOR));

  private static final List<String> PATHS =
      List.of(
          "desk",
          "release",
          "lots",
          "lots/L25-S01",
          "lots/L25-S05-P1",
          "lots/L26-S11",
          "lots/L26-S11/sign",
          "crops",
          "crops/C25-S01",
          "crops/C25-03",
          "map/2025",
          "map/2026",
          "record",
          "record/conditioning",
          "record/field-crop-declared",
          "record/field-inspection",
          "files",
          "quarantine",
          "field-book",
          "field-book/crops/C25-S01",
          "field-book/crops/C25-S01/inspection",
          "seasons",
          "seasons/multipliers",
          "laboratories",
          "laboratories/ENT-LAB-ONE",
          "plan",
          "plan/new",
          "trace",
          "trace?q=L25-S01",
          "trace/drill?subject=lot:L25-S01",
          "audit",
          "audit?sample=20&seed=1",
          "audit/proof",
          "search?q=S01",
          "notifications",
          "laboratory",
          "laboratory/germination",
          "laboratory/lots/L23-01/samples/S-L23-01",
          "laboratory/lots/L23-01/samples/S-L23-01/germination",
          "people",
          "people/new",
          "people/person/auditor",
          "people/journal",
          "people/confirm",
          "site",
          "first-steps");

  /**
   * Words with two letters side by side: in rows of tables, time lines and drawings, which are
   * data, and in all else, the frame too. What stands in a closed disclosure, only for screen
   * readers or in a list of choices is not seen.
   */
  private static final String COUNT =
      """
      () => {
        const words = { text: 0, rows: 0 };
        const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
        while (walk.nextNode()) {
          const around = walk.currentNode.parentElement;
          const unseen = around.closest('.unseen, .skip, option, script, style, textarea, title')
              || !around.checkVisibility({ visibilityProperty: true });
          if (!unseen) {
            words[around.closest('tbody, svg, .timeline, pre') ? 'rows' : 'text'] +=
                walk.currentNode.textContent.split(/\\s+/)
                    .filter(word => /\\p{L}{2}/u.test(word)).length;
          }
        }
        return words;
      }
      """;

  /** What one page shows in one language. */
  private record Words(int text, int rows) {}

  @Test
  void noPageShowsMoreThanAPersonReads() throws IOException {
    Map<String, Map<Language, Words>> counted = new TreeMap<>();
    List<String> paths = Stream.concat(PATHS.stream(), ofOneEntryAndOnePlan()).toList();
    for (Language language : Language.values()) {
      for (String person : PEOPLE) {
        BrowserContext visitor = chromium.loggedIn(Screen.WIDE, language, root, person);
        Page page = visitor.newPage();
        for (String path : paths) {
          Map<Language, Words> ofPage =
              counted.computeIfAbsent(
                  path.replaceAll("[0-9a-f-]{20,}", "…"), named -> new TreeMap<>());
          if (!ofPage.containsKey(language) && page.navigate(root + path).status() == 200) {
            ofPage.put(language, words(page));
          }
        }
        visitor.close();
      }
    }
    write(counted);
    assertThat(counted).hasSize(paths.size());
    assertThat(counted)
        .allSatisfy(
            (page, words) -> {
              int most = page.equals("desk") ? MOST_WORDS_TODAY : MOST_WORDS;
              assertThat(words.values())
                  .as(page)
                  .hasSize(Language.values().length)
                  .allSatisfy(of -> assertThat(of.text).isLessThanOrEqualTo(most));
            });
  }

  private static Words words(Page page) {
    Map<?, ?> counted = (Map<?, ?>) page.evaluate(COUNT);
    return new Words(
        ((Number) counted.get("text")).intValue(), ((Number) counted.get("rows")).intValue());
  }

  private static Stream<String> ofOneEntryAndOnePlan() {
    String refused = given().get("/api/v1/quarantine").jsonPath().getString("items[0].entryId");
    String plan =
        given()
            .contentType(ContentType.JSON)
            .body(
                """
                {"name": "Counted", "reason": "to count its words", "question": {
                  "firstYear": 2026, "lastYear": 2029, "demands": [
                    {"hybridId": "HYB-04", "year": 2027, "expectedTonnes": 900},
                    {"hybridId": "HYB-04", "year": 2028, "expectedTonnes": 900}]}}
                """)
            .post("/api/v1/plans")
            .jsonPath()
            .getString("head.planId");
    return Stream.of(
        "quarantine/" + refused,
        "plan/" + plan,
        "plan/" + plan + "/fields",
        "plan/" + plan + "/flow",
        "plan/comparison?plan=" + plan);
  }

  private static void write(Map<String, Map<Language, Words>> counted) throws IOException {
    List<String> lines = new ArrayList<>();
    lines.add("| page | words, en | words, de | in rows, en | in rows, de |");
    lines.add("|---|---|---|---|---|");
    counted.forEach(
        (what, by) -> {
          Words english = by.get(Language.ENGLISH);
          Words german = by.get(Language.GERMAN);
          lines.add(
              "| %s | %d | %d | %d | %d |"
                  .formatted(what, english.text, german.text, english.rows, german.rows));
        });
    Files.createDirectories(TABLE.getParent());
    Files.write(TABLE, lines);
  }
}
