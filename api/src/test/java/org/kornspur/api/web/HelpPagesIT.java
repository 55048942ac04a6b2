package org.kornspur.api.web;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.not;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.assertions.PlaywrightAssertions;
import com.microsoft.playwright.options.ColorScheme;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.kornspur.api.security.Role;
import org.kornspur.api.security.people.TestPeople;
import org.kornspur.api.text.Language;
import org.kornspur.api.web.help.HelpTopic;

/** The manual in a real browser, for somebody who did not log in. */
class HelpPagesIT extends BrowserTest {
  private static final List<String> RULES = List.of("/help/rules", "/help/rules?book=US-TX");

  @ParameterizedTest
  @CsvSource({"NARROW, ENGLISH", "NARROW, GERMAN", "WIDE, ENGLISH", "WIDE, GERMAN"})
  void everyPageIsReadableByAllWithoutALogIn(Screen screen, Language language) {
    Page page = chromium.visitor(screen, language).newPage();
    List<String> addresses =
        Stream.of(
                Stream.of("/help", "/help?q=2", "/help?q=none-such"),
                Stream.of(HelpTopic.values()).map(HelpTopic::href),
                RULES.stream())
            .flatMap(all -> all)
            .toList();
    for (String address : addresses) {
      assertThat(page.navigate(root + address.substring(1)).status()).as(address).isEqualTo(200);
      assertThat(page.locator("html").getAttribute("lang")).isEqualTo(language.tag());
      assertThat(page.locator("h1").count()).as(address).isOne();
      assertThat(page.locator(".rooms [aria-current]").textContent())
          .isEqualTo(language == Language.ENGLISH ? "Help" : "Hilfe");
      assertThat((Boolean) page.evaluate("[...document.images].every(i => i.naturalWidth > 0)"))
          .as("pictures of %s", address)
          .isTrue();
      PageCheck.whole(page, address.substring(1).replaceAll("\\W+", "-"), screen, language);
    }
    page.context().close();
  }

  @ParameterizedTest
  @EnumSource(Screen.class)
  void itIsReadInTheDark(Screen screen) {
    Page page = chromium.visitor(screen, Language.ENGLISH).newPage();
    page.emulateMedia(new Page.EmulateMediaOptions().setColorScheme(ColorScheme.DARK));
    for (String address : List.of("help?q=ergot", "help/gates", "help/rules?book=DE")) {
      page.navigate(root + address);
      PageCheck.whole(page, "dark-" + address.replaceAll("\\W+", "-") + "-" + screen);
    }
    page.context().close();
  }

  @Test
  void everyPageLeadsToTheHelpAndItsLinksLeadOn() {
    Page page = chromium.signedIn(Screen.WIDE, Language.ENGLISH, root, TestPeople.of(Role.QUALITY));
    for (String path : List.of("desk", "lots", "lots/L25-S05-P1", "seasons", "nowhere")) {
      page.navigate(root + path);
      assertThat(page.locator(".rooms a[href='/help']").count()).as(path).isOne();
    }
    page.locator(".rooms a[href='/help']").click();
    page.locator(".topics a[href='/help/gates']").click();
    PlaywrightAssertions.assertThat(page.locator("h1")).hasText("What each gate asks");
    page.locator("article a[href='/help/rules']").first().click();
    PlaywrightAssertions.assertThat(page.locator("h1")).hasText("Limits by rulebook");
    page.locator("#book").selectOption("DE");
    page.locator("main form button").click();
    PlaywrightAssertions.assertThat(page.locator("article")).containsText("Seed Ordinance");
    Locator source = page.locator(".rules .source").first();
    source.click();
    assertThat(page.url()).contains("#source-");
    PlaywrightAssertions.assertThat(page.locator(":target")).hasCount(1);
    page.context().close();
  }

  @Test
  void theSearchNeedsNoScript() {
    Page page =
        chromium
            .loggedInWithoutScript(Screen.NARROW, root, TestPeople.of(Role.MULTIPLIER))
            .newPage();
    page.navigate(root + "help");
    page.locator("#q").fill("roguing");
    page.locator("main form button").click();
    PlaywrightAssertions.assertThat(page.locator("#found")).containsText("found for “roguing”");
    page.locator(".hits a").first().click();
    assertThat(page.url()).endsWith("/help/gates#roguing");
    page.context().close();
  }

  /** A multiplier sees few of the ids that the manual names as examples; no gap tells of any. */
  @Test
  void whoSeesLittleReadsTheSameManual() {
    String open = given().get("/help/demo").asString();
    String asked =
        given()
            .header("Authorization", TestPeople.basic(TestPeople.of(Role.MULTIPLIER)))
            .get("/help/demo")
            .asString();
    assertThat(article(asked)).isEqualTo(article(open)).contains("L25-S05-P1");
  }

  private static String article(String page) {
    return page.substring(page.indexOf("<article>"), page.indexOf("</article>"));
  }

  @Test
  void whatIsAskedForIsShownAsTextAndWhatThereIsNotIsSaidSo() {
    given()
        .accept("text/html")
        .queryParam("q", "<script>alert(1)</script>")
        .get("/help")
        .then()
        .statusCode(200)
        .body(containsString("&lt;script&gt;"))
        .body(not(containsString("<script>alert")));
    given().accept("text/html").get("/help/none-such").then().statusCode(404);
    given().accept("text/html").get("/help/rules?book=NONE").then().statusCode(404);
    given()
        .accept("text/html")
        .get("/help?p=x")
        .then()
        .statusCode(200)
        .body(containsString("id=\"ignored\""));
  }
}
