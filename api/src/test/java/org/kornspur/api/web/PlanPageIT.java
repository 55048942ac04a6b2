package org.kornspur.api.web;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.not;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import io.restassured.http.ContentType;
import io.restassured.path.json.JsonPath;
import java.util.List;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.api.security.Role;
import org.kornspur.api.security.login.AsPerson;
import org.kornspur.api.security.people.TestPeople;
import org.kornspur.api.text.Language;

/** Plans of the invented enterprise, in a real browser and by the interface. */
@ExtendWith(AsPerson.class)
class PlanPageIT extends BrowserTest {
  private static final String QUALITY = TestPeople.of(Role.QUALITY);

  /** HYB-04 has a basic lot that failed in post-control. Source: demo-events/ABOUT.md. */
  private static final String QUESTION =
      """
      {"name": "%s", "reason": "three years of one hybrid", "question": {
        "firstYear": 2026, "lastYear": 2029, "demands": [
          {"hybridId": "HYB-04", "year": 2027, "expectedTonnes": 900},
          {"hybridId": "HYB-04", "year": 2028, "expectedTonnes": 900},
          {"hybridId": "HYB-04", "year": 2029, "expectedTonnes": 900}]}}
      """;

  @Test
  void aPlanIsMadeApprovedAndShowsWhatChanged() {
    Page page = chromium.signedIn(Screen.WIDE, Language.ENGLISH, root, QUALITY);
    page.locator(".rooms summary").click();
    page.getByRole(AriaRole.LINK, new Page.GetByRoleOptions().setName("Plan").setExact(true))
        .click();
    page.getByRole(AriaRole.LINK, new Page.GetByRoleOptions().setName("New plan")).click();
    page.locator("#name").fill("Three years of HYB-04");
    for (int year = 2027; year <= 2029; year++) {
      page.getByLabel("Tonnes of HYB-04 wanted of harvest " + year).fill("900");
    }
    page.locator("#reason").fill("to see what it takes");
    Chromium.send(button(page, "Save"));

    assertThat(page.locator("h1")).hasText("Three years of HYB-04");
    assertThat(page.locator("section:has(#demand-met) tbody tr")).hasCount(3);
    Locator lots = page.locator("section:has(#lots) tbody tr");
    assertThat(lots.first()).isVisible();
    assertThat(page.locator("section:has(#crops) tbody tr").first()).containsText("autumn 2026");

    page.getByLabel("Why you approve it").fill("agreed");
    Chromium.send(button(page, "Approve this version"));
    assertThat(page.locator("#difference.good")).containsText("comes to the same now");

    String lot = "L25-18";
    page.getByLabel("Leave lot " + lot + " out of this plan").first().check();
    page.locator("#reason").fill("what if it fails");
    Chromium.send(button(page, "Save as a new version"));
    Locator difference = page.locator("#difference.bad");
    assertThat(difference.locator("li", new Locator.LocatorOptions().setHasText(lot)))
        .containsText("Left out of this plan by a person.");
    Locator first = page.locator("section:has(#demand-met) tbody tr").first();
    assertThat(first).containsText("2027");
    assertThat(first).containsText("SC-04 in store now");
    // the manual says "some 410 tonnes"
    assertThat(first).containsText(Pattern.compile("4(0[5-9]|1[0-4]),\\d{3}"));
    assertThat(first).containsText("What can still be done");
    assertThat(page.locator("section:has(#demand-met) tbody tr.short")).hasCount(1);
    assertThat(page.locator("section:has(#lots) tbody"))
        .not()
        .containsText(Pattern.compile("\\b" + Pattern.quote(lot) + "\\b"));
  }

  private static Locator button(Page page, String name) {
    return page.getByRole(
        AriaRole.BUTTON, new Page.GetByRoleOptions().setName(name).setExact(true));
  }

  @ParameterizedTest
  @CsvSource({"NARROW, ENGLISH", "NARROW, GERMAN", "WIDE, ENGLISH", "WIDE, GERMAN"})
  void itIsWithinReachOfAll(Screen screen, Language language) {
    String id = saved("Seen " + screen + language).getString("head.planId");
    Page page = chromium.signedIn(screen, language, root, QUALITY);
    for (String path : List.of("plan", "plan/new", "plan/" + id)) {
      page.navigate(root + path);
      assertThat(page.locator("html").getAttribute("lang")).isEqualTo(language.tag());
      PageCheck.whole(
          page, path.equals("plan/" + id) ? "plan-one" : path.replace('/', '-'), screen, language);
    }
  }

  @Test
  void noLotThatIsNotFitIsCountedAndWhatIsShortHasItsReason() {
    JsonPath plan = saved("By the interface");
    List<String> counted = plan.getList("lots.lotId");
    assertThat(counted).isNotEmpty();
    for (String lot : counted) {
      given().get("/api/v1/lots/" + lot).then().body("state", not("NOT_FIT"));
    }
    for (int at = 0; at < 3; at++) {
      String demand = "demands[" + at + "].";
      boolean isShort = plan.getDouble(demand + "shortKg") > 0;
      assertThat(plan.getList(demand + "reasons").isEmpty()).isEqualTo(!isShort);
      assertThat(plan.getDouble(demand + "metKg") + plan.getDouble(demand + "shortKg"))
          .isEqualTo(plan.getDouble(demand + "wantedKg"), within(0.1));
    }
    String id = plan.getString("head.planId");
    assertThat(given().get("/api/v1/plans/" + id + "/seasons.csv").asString())
        .startsWith("\"seed\",\"generation\",\"harvest\",\"needed (kg)\"");
    given()
        .contentType(ContentType.JSON)
        .body("{\"version\": 7, \"reason\": \"too late\"}")
        .post("/api/v1/plans/" + id + "/approval")
        .then()
        .statusCode(409)
        .body("type", equalTo("/problems/plan-changed"));
  }

  @Test
  void whatCannotBePlannedIsRefusedWithItsReason() {
    given()
        .contentType(ContentType.JSON)
        .body(QUESTION.formatted("x").replace("\"year\": 2027", "\"year\": 2040"))
        .post("/api/v1/plans")
        .then()
        .statusCode(400)
        .body("type", equalTo("/problems/request-refused"))
        .body("detail", containsString("2040"));
    given()
        .contentType(ContentType.JSON)
        .body(QUESTION.formatted("x").replace("HYB-04", "HYB-99"))
        .post("/api/v1/plans")
        .then()
        .statusCode(404);
  }

  private static JsonPath saved(String name) {
    return given()
        .contentType(ContentType.JSON)
        .body(QUESTION.formatted(name))
        .post("/api/v1/plans")
        .then()
        .statusCode(201)
        .extract()
        .jsonPath();
  }
}
