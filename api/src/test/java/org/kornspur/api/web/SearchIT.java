package org.kornspur.api.web;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.equalTo;

import com.microsoft.playwright.Page;
import com.microsoft.playwright.assertions.PlaywrightAssertions;
import io.restassured.response.ValidatableResponse;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.api.security.Role;
import org.kornspur.api.security.people.TestPeople;
import org.kornspur.api.text.Language;

/** Search by parts of what stands in the files of the invented enterprise, read there by hand. */
class SearchIT extends BrowserTest {

  @ParameterizedTest
  @CsvSource({
    "c24-0, ID, crop:C24-01",
    "eld-48, FIELD, crop:C24-01",
    "sc-01, SEED, crop:C24-01",
    "mult-south, HOLDER, crop:C24-01",
    "multiplier south, HOLDER, crop:C24-01",
    "certification c24-01, DOCUMENT, crop:C24-01",
    "GROWER-SOUTH, PERSON, crop:C24-01",
    "crop-C24-01, FACT, crop:C24-01",
    "s-l24-01, SAMPLE, lot:L24-01",
    "2024-L23-02, PLOT, lot:L23-02",
    "v-847995, LABEL, lot:L25-01-1-P2",
    "INV-848000, LABEL, lot:L25-01-1-P2",
    "cust-05, CUSTOMER, lot:L25-01-1-P2"
  })
  void aPartInAnyCaseFindsACropOrLotByWhatIsNearest(String part, String by, String subject) {
    ValidatableResponse answer = ask(Role.QUALITY, part).statusCode(200);
    List<String> subjects = answer.extract().path("items.standing.subject");
    assertThat(subjects).contains(subject).doesNotHaveDuplicates();
    List<String> bys = answer.extract().path("items.by");
    assertThat(bys.get(subjects.indexOf(subject))).isEqualTo(by);
    assertThat((Integer) answer.extract().path("total")).isEqualTo(subjects.size());
  }

  @Test
  void nobodyFindsWhatIsNotTheirs() {
    assertThat((Integer) ask(Role.MULTIPLIER, "weighbridge").extract().path("total")).isZero();
    List<String> crops = ask(Role.INSPECTOR, "24-0").extract().path("items.standing.kind");
    assertThat(crops).doesNotContain("lot");
    ask(Role.LABORATORY, "24-0").statusCode(403);
  }

  @Test
  void aTextThatIsTooShortIsRefusedWithItsLimit() {
    ask(Role.QUALITY, "L")
        .statusCode(400)
        .body("problems[0].field", equalTo("q"))
        .body("problems[0].limit", containsString("from 2 to 128"));
  }

  @Test
  void theKeyLeadsToTheSearchAndASingleFindOpensAtOnce() {
    Page page = chromium.signedIn(Screen.WIDE, Language.ENGLISH, root, TestPeople.of(Role.QUALITY));
    page.navigate(root + "desk");
    PersonAtWork person = new PersonAtWork(page);
    page.keyboard().press("/");
    person.typeAndEnter("24-02");
    PlaywrightAssertions.assertThat(page.locator("h1")).containsText("24-02");
    assertThat(page.locator("tbody tr").count()).isGreaterThan(3);
    PlaywrightAssertions.assertThat(page.locator("tbody .why").first()).hasText("id C24-02");
    person.reach(page.locator("tbody .why").first());
    person.done("Find a lot by part of its name");
    assertThat(person.clicks()).isZero();
    assertThat(person.fields()).isEqualTo(1);
    assertThat(person.screens()).isEqualTo(1);
    page.keyboard().press("/");
    page.keyboard().type("s-l24-02");
    page.keyboard().press("Enter");
    PlaywrightAssertions.assertThat(page).hasURL(root + "lots/L24-02");
    page.context().close();
  }

  @ParameterizedTest
  @CsvSource({"NARROW, GERMAN", "WIDE, ENGLISH", "WIDE, GERMAN"})
  void whatIsFoundIsWithinReachOfAll(Screen screen, Language language) {
    Page page = chromium.signedIn(screen, language, root, TestPeople.of(Role.QUALITY));
    for (String text : List.of("24-02", "no such thing", "x")) {
      assertThat(page.navigate(root + "search?q=" + text).status()).isEqualTo(200);
      PageCheck.whole(page, "search-" + text.replace(' ', '-'), screen, language);
    }
    page.context().close();
  }

  private ValidatableResponse ask(Role role, String part) {
    return given()
        .header("Authorization", TestPeople.basic(TestPeople.of(role)))
        .queryParam("q", part)
        .queryParam("size", 1000)
        .get("/api/v1/search")
        .then();
  }
}
