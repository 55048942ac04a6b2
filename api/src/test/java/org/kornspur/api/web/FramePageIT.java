package org.kornspur.api.web;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.both;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.endsWith;
import static org.hamcrest.Matchers.equalTo;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.assertions.PlaywrightAssertions;
import com.microsoft.playwright.options.AriaRole;
import com.microsoft.playwright.options.ColorScheme;
import io.restassured.RestAssured;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.kornspur.api.security.Role;
import org.kornspur.api.security.people.TestPeople;
import org.kornspur.api.text.Language;

/** What stands around every page, in a real browser. */
class FramePageIT extends BrowserTest {
  private static final String QUALITY = TestPeople.of(Role.QUALITY);

  @ParameterizedTest
  @CsvSource({"NARROW, ENGLISH", "NARROW, GERMAN", "WIDE, ENGLISH", "WIDE, GERMAN"})
  void everyPageOfTheFrameIsWithinReachOfAll(Screen screen, Language language) {
    Page page = chromium.signedIn(screen, language, root, QUALITY);
    for (String path : new String[] {"desk", "lots", "nowhere"}) {
      page.navigate(root + path);
      assertThat(page.locator("html").getAttribute("lang")).isEqualTo(language.tag());
      PageCheck.whole(page, path, screen, language);
    }
    page.context().clearCookies();
    page.navigate(root + "lots");
    assertThat(page.url()).contains("/login");
    PageCheck.whole(page, "login-" + screen + "-" + language.tag());
    page.context().close();
  }

  /** A sentence of some 20 words needs the width of the screen; 320 px of it is the least asked. */
  @ParameterizedTest
  @ValueSource(strings = {"lots?state=NOT_FIT", "crops", "quarantine"})
  void theReasonHasTheWidthOfANarrowScreen(String path) {
    Page page = chromium.signedIn(Screen.NARROW, Language.ENGLISH, root, QUALITY);
    page.navigate(root + path);
    for (Locator row : page.locator("tbody tr").all().subList(0, 5)) {
      assertThat(row.locator(".why").boundingBox().width)
          .isGreaterThan(row.boundingBox().width * 0.9)
          .isGreaterThan(Screen.NARROW.width * 0.85);
    }
    PageCheck.whole(page, "list-" + path.replaceAll("\\?.*", "") + "-NARROW-en");
    page.context().close();
  }

  /** Source: WCAG 2.2, 1.4.3 and 1.4.11, which ask for contrast in whatever colours are shown. */
  @ParameterizedTest
  @EnumSource(Screen.class)
  void everyRoomIsReadInTheDark(Screen screen) {
    Page page = chromium.signedIn(screen, Language.ENGLISH, root, QUALITY);
    page.emulateMedia(new Page.EmulateMediaOptions().setColorScheme(ColorScheme.DARK));
    for (String path :
        List.of(
            "desk",
            "lots?state=BAD",
            "lots/L25-S05-P1",
            "crops/C25-S01",
            "trace?q=L24-S05",
            "trace/drill?subject=lot:L24-S05",
            "record",
            "record/conditioning",
            "release",
            "seasons",
            "map/2025?day=2025-06-02",
            "audit",
            "plan/new",
            "quarantine",
            "files",
            "notifications",
            "lots/L26-S11/sign",
            "field-book?cropYear=2025",
            "field-book/crops/C25-S01",
            "field-book/crops/C25-S01/inspection")) {
      assertThat(page.navigate(root + path).status()).as(path).isEqualTo(200);
      PageCheck.contrast(page, "dark-" + path.replaceAll("\\W+", "-") + "-" + screen);
    }
    page.context().close();
  }

  @Test
  void theFirstTabLeadsToTheContent() {
    Page page = chromium.signedIn(Screen.WIDE, Language.ENGLISH, root, QUALITY);
    page.navigate(root + "lots");
    page.keyboard().press("Tab");
    assertThat(page.evaluate("document.activeElement.textContent"))
        .isEqualTo("Skip to the content");
    page.keyboard().press("Enter");
    PlaywrightAssertions.assertThat(page.locator("#content")).isFocused();
    page.context().close();
  }

  @Test
  void theChosenLanguageStays() {
    Page page = chromium.signedIn(Screen.WIDE, Language.ENGLISH, root, QUALITY);
    page.navigate(root + "lots?state=NOT_FIT");
    page.locator(".who summary").click();
    page.getByRole(AriaRole.LINK, new Page.GetByRoleOptions().setName("Deutsch")).click();
    PlaywrightAssertions.assertThat(page.locator("h1")).hasText("Partien");
    assertThat(page.url()).endsWith("/lots?state=NOT_FIT");
    page.navigate(root + "crops");
    assertThat(page.locator("h1").textContent()).isEqualTo("Feldbestände");
    page.context().close();
  }

  /** Source: RFC 9110, section 12.5.1; RFC 9457 for the document. */
  @Test
  void aRefusalIsAPageToABrowserAndADocumentToAProgram() {
    given()
        .header("Authorization", TestPeople.basic(QUALITY))
        .accept("text/html,application/xhtml+xml,*/*;q=0.8")
        .get("/nowhere")
        .then()
        .statusCode(404)
        .contentType(containsString("text/html"))
        .header("Content-Security-Policy", containsString("default-src 'self'"))
        .body(containsString("Nothing is here"));
    given()
        .header("Authorization", TestPeople.basic(QUALITY))
        .accept("text/html,*/*;q=0.8")
        .get("/api/v1/lots/none")
        .then()
        .statusCode(404)
        .contentType(equalTo("application/problem+json"));
  }

  /** The framework escapes text of this status, and so made a page of it unreadable. */
  @Test
  void aPageOnABadRequestIsAPage() {
    given()
        .header("Authorization", TestPeople.basic(QUALITY))
        .accept("text/html")
        .queryParam("subject", "lot:L24-S05")
        .queryParam("lot", "L24-S05")
        .queryParam("kg", "1,250")
        .get("/trace/drill")
        .then()
        .statusCode(400)
        .body(containsString("<main"))
        .body(containsString("Write 1250 or 1.250"));
  }

  /** What cannot be heeded is said in the language of the page, and the list is there. */
  @ParameterizedTest
  @CsvSource({
    "crops, year, abc, 'category, columns, cropYear, holder'",
    "crops, cropYear, abc, 1990",
    "lots, state, BAD, NOT_FIT",
    "desk, category, BAD, PRE_BASIC",
    "quarantine, state, BAD, REPLAYED",
    "quarantine, stat, HELD, page",
    "seasons, year, 2024, hybrid",
    "map/2025, day, 2025-13-01, 2025-06-01",
    "map/2025, at, lot:L25-S01, crop:C25-01",
    "trace, p, L24, q",
    "lots/L26-S11/sign, kind, BAD, ''"
  })
  void aFilterThatCannotBeUsedIsNamedAndThePageIsShown(
      String path, String name, String value, String allowed) {
    for (Language language : Language.values()) {
      given()
          .header("Authorization", TestPeople.basic(QUALITY))
          .header("Accept-Language", language.tag())
          .accept("text/html")
          .queryParam(name, value)
          .get("/" + path)
          .then()
          .statusCode(200)
          .body("html.@lang", equalTo(language.tag()))
          .body(
              "**.find { it.@id == 'ignored' }.ul.li.text()",
              both(containsString(
                      language == Language.GERMAN
                          ? name + " = „" + value + "“"
                          : name + " = '" + value + "'"))
                  .and(containsString(allowed))
                  .and(containsString(language == Language.GERMAN ? "möglich" : "asked for")));
    }
  }

  @Test
  void whatIsLeftOutOfTheAddressNarrowsNothing() {
    Page page = chromium.signedIn(Screen.NARROW, Language.ENGLISH, root, QUALITY);
    page.navigate(root + "lots?state=BAD&id=L25-S0&stat=FIT");
    assertThat(page.locator("#ignored li").count()).isEqualTo(2);
    assertThat(page.locator("tbody th").allTextContents())
        .isNotEmpty()
        .allMatch(id -> id.startsWith("L25-S0"));
    PageCheck.whole(page, "ignored-NARROW-en");
    page.navigate(root + "lots?state=FIT");
    assertThat(page.locator("#ignored").count()).isZero();
    page.context().close();
  }

  /** Source: CWE-601, URL redirection to an untrusted site. */
  @ParameterizedTest
  @CsvSource({
    "//elsewhere.example/, /",
    "https://elsewhere.example/, /",
    "/\\elsewhere.example, /",
    "/lots?page=2, /lots?page=2"
  })
  void aLanguageSwitchLeadsNowhereElse(String back, String led) {
    given()
        .header("Authorization", TestPeople.basic(QUALITY))
        .redirects()
        .follow(false)
        .queryParam("back", back)
        .get("/language/de")
        .then()
        .statusCode(303)
        .header("Location", endsWith(":" + RestAssured.port + led));
  }
}
