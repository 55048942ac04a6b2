package org.kornspur.api.page;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.endsWith;
import static org.hamcrest.Matchers.equalTo;

import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import io.quarkus.test.common.http.TestHTTPResource;
import io.quarkus.test.junit.QuarkusTest;
import io.quarkus.test.junit.TestProfile;
import java.net.URL;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.api.DemoMachine;
import org.kornspur.api.access.Role;
import org.kornspur.api.access.TestPeople;

/** What stands around every page, in a real browser. */
@QuarkusTest
@TestProfile(DemoMachine.class)
class FramePageTest {
  private static final String QUALITY = TestPeople.of(Role.QUALITY);
  private static Chromium chromium;

  @TestHTTPResource("/")
  URL root;

  @BeforeAll
  static void startBrowser() {
    chromium = new Chromium();
  }

  @AfterAll
  static void stopBrowser() {
    chromium.close();
  }

  @BeforeEach
  void waitForTheDemo() throws InterruptedException {
    DemoLoaded.await();
  }

  @ParameterizedTest
  @CsvSource({"NARROW, ENGLISH", "NARROW, GERMAN", "WIDE, ENGLISH", "WIDE, GERMAN"})
  void everyPageOfTheFrameIsWithinReachOfAll(Screen screen, Language language) {
    Page page = chromium.signedIn(screen, language, root, QUALITY);
    for (String path : new String[] {"desk", "lots", "nowhere"}) {
      page.navigate(root + path);
      assertThat(page.locator("html").getAttribute("lang")).isEqualTo(language.tag());
      LookedAt.whole(page, path + "-" + screen + "-" + language.tag());
    }
    page.context().clearCookies();
    page.navigate(root + "lots");
    assertThat(page.url()).contains("/login");
    LookedAt.whole(page, "login-" + screen + "-" + language.tag());
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
    assertThat(page.evaluate("document.activeElement.id")).isEqualTo("content");
    page.context().close();
  }

  @Test
  void theChosenLanguageStays() {
    Page page = chromium.signedIn(Screen.WIDE, Language.ENGLISH, root, QUALITY);
    page.navigate(root + "lots?state=NOT_FIT");
    page.getByRole(AriaRole.LINK, new Page.GetByRoleOptions().setName("Deutsch")).click();
    assertThat(page.url()).endsWith("/lots?state=NOT_FIT");
    assertThat(page.locator("h1").textContent()).isEqualTo("Partien");
    page.navigate(root + "crops");
    assertThat(page.locator("h1").textContent()).isEqualTo("Bestände");
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
        .header("Location", endsWith(root.getAuthority() + led));
  }
}
