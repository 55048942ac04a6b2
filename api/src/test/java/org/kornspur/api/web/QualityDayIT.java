package org.kornspur.api.web;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.api.security.Role;
import org.kornspur.api.security.login.AsPerson;
import org.kornspur.api.security.people.TestPeople;
import org.kornspur.api.text.Language;

/**
 * A day of quality staff in a real browser, with the invented enterprise loaded. What is wrong in
 * it and why: demo-events/ABOUT.md.
 */
@ExtendWith(AsPerson.class)
class QualityDayIT extends BrowserTest {
  private static final String QUALITY = TestPeople.of(Role.QUALITY);
  private static final Pattern TAKE_OVER = Pattern.compile("^Take over.*");

  @Test
  void fromTheDeskToTheFactThatDecided() {
    Page page = chromium.loggedIn(Screen.WIDE, Language.ENGLISH, root, QUALITY).newPage();
    page.navigate(root + "desk");
    Locator causes = page.locator("#causes ~ ul .card");
    assertThat(causes.filter(with("Lot L24-S05"))).containsText("Post-control");
    assertThat(causes.filter(with("Crop C25-S01"))).containsText("too near to");
    assertThat(causes.filter(with("Crop C25-S02"))).containsText("Sterility of the female");
    assertThat(causes.filter(with("Lot M25-S03"))).containsText("Share of pollinator");
    assertThat(causes.filter(with("Lot L26-S09"))).containsText("Mass balance");
    assertThat(causes.filter(with("Lot L25-S10"))).containsText("Ergot");
    assertThat(page.locator("#quarantine ~ p").first())
        .containsText(Pattern.compile("all ([89]|[1-9][0-9]+)"));

    page.locator(".narrowing summary").click();
    page.getByLabel("Year of harvest").selectOption("2026");
    page.getByRole(AriaRole.BUTTON, new Page.GetByRoleOptions().setName("Show")).click();
    Locator ofThatSeason = page.locator("#causes ~ ul .card");
    assertThat(ofThatSeason.filter(with("Crop C25-S01"))).hasCount(0);
    assertThat(ofThatSeason.filter(with("Lot L26-S09"))).hasCount(1);

    // Of one season: the list is cut, and other days may have left more that is owed in theirs.
    page.navigate(root + "desk?cropYear=2025");
    assertThat(page.locator("#owed ~ ul .card").filter(with("Lot L25-S04A")))
        .containsText("retest of 4 × 100 seeds");

    page.navigate(root + "desk");
    page.getByRole(
            AriaRole.LINK, new Page.GetByRoleOptions().setName("Crop C25-S01").setExact(true))
        .first()
        .click();
    Locator gate = page.locator(".gate").first();
    assertThat(gate).containsText("318.7");
    assertThat(gate).containsText("at least 500");
    assertThat(gate.locator("svg.scale"))
        .hasAttribute("aria-label", Pattern.compile(".*318\\.7.*"));
    gate.locator("summary").click();
    assertThat(gate.locator("details .id").first()).isVisible();
    page.context().close();
  }

  /** Asked for: one late source is one card, above the fold, with what quality needs of it. */
  @Test
  void aSourceThatIsReportedLateIsOneCardForAllThatItReaches() {
    List<String> crops = LateSource.bring();
    Page page = chromium.loggedIn(Screen.WIDE, Language.ENGLISH, root, QUALITY).newPage();
    page.setViewportSize(1440, 950);
    page.navigate(root + "desk");
    PersonAtWork person = new PersonAtWork(page);
    Locator causes = page.locator("#causes ~ ul .card");
    Locator card = causes.filter(with(LateSource.SOURCE));
    assertThat(card).hasCount(1);
    assertThat(card.locator("h3"))
        .hasText("Pollen source " + LateSource.SOURCE + ": too near to 16 crops");
    // no crop of it has a card of its own
    assertThat(causes.filter(with("Crop C-LATE-"))).hasCount(1);
    assertThat(card).containsText("Needed: at least");
    assertThat(card.locator(".figures")).containsText(Pattern.compile("At customers\\s*64,000"));
    assertThat(card.locator(".figures")).containsText(Pattern.compile("Lots\\s*16"));
    person.reach(card);
    person.done("Cause of a late pollen source");
    assertThat(person.screens()).as("the whole card is above the fold").isEqualTo(1);
    assertThat(person.clicks()).isZero();

    card.getByRole(AriaRole.BUTTON, new Locator.GetByRoleOptions().setName(TAKE_OVER)).click();
    assertThat(card.locator(".figures")).containsText("quality, since");
    card.locator(".noting summary").click();
    card.getByLabel("Note, or who is asked for what").fill("Inspector asked for the outline");
    Chromium.send(
        card.getByRole(
            AriaRole.BUTTON, new Locator.GetByRoleOptions().setName("Save as asked for")));
    assertThat(card.locator(".noting summary")).hasText("Notes: 2");

    card.getByRole(AriaRole.LINK, new Locator.GetByRoleOptions().setName("Customers")).click();
    assertThat(page.locator("#customers ~ div tbody tr")).hasCount(1);
    assertThat(page.locator("#customers ~ div tbody tr")).containsText("64,000");
    assertThat(page.locator(".notes li").first()).containsText("Inspector asked for the outline");
    assertThat(page.locator(".notes li").last()).containsText("Taken over · quality");
    assertThat(page.locator("#suspend ~ form tbody tr")).hasCount(16);
    // what nobody released is not suspended
    assertThat(page.locator("#suspend ~ form .signing")).hasCount(0);
    assertThat(page.locator("section[aria-labelledby=crops] li")).hasCount(crops.size());
    for (String path : new String[] {"desk", "desk/causes/pollen:source:" + LateSource.SOURCE}) {
      page.navigate(root + path);
      PageCheck.whole(page, path.replaceAll("\\W", "-") + "-WIDE-en");
    }
    page.context().close();

    Page narrow = chromium.loggedIn(Screen.NARROW, Language.GERMAN, root, QUALITY).newPage();
    narrow.navigate(root + "desk");
    assertThat(narrow.locator("h1")).hasText("Heute");
    PageCheck.whole(narrow, "desk-NARROW-de");
    narrow.navigate(root + "desk/causes/pollen:source:" + LateSource.SOURCE);
    assertThat(narrow.locator(".notes")).containsText("Nachweis angefordert");
    PageCheck.whole(narrow, "cause-NARROW-de");
    narrow.context().close();
    String auditor = TestPeople.of(Role.AUDITOR);
    Page reading = chromium.loggedIn(Screen.WIDE, Language.ENGLISH, root, auditor).newPage();
    reading.navigate(root + "desk");
    assertThat(reading.locator("#causes ~ ul .card").filter(with(LateSource.SOURCE))).hasCount(1);
    // who only reads changes nothing
    assertThat(reading.locator("#desk form")).hasCount(0);
    reading.context().close();
  }

  @Test
  void aChangeAppearsByItselfAndTakesNoFocus() {
    Page page = chromium.loggedIn(Screen.WIDE, Language.ENGLISH, root, QUALITY).newPage();
    page.navigate(root + "desk");
    assertThat(page.locator("#live")).hasText("Live");
    Locator link =
        page.getByRole(
            AriaRole.LINK, new Page.GetByRoleOptions().setName("Crop C25-S02").setExact(true));
    link.focus();
    LocalDate today = LocalDate.now();
    LocalDate to = today.plusDays(9);
    post(crop("C-LIVE-1", today, to));

    Locator owed = page.locator("#owed ~ ul .card").filter(with("Crop C-LIVE-1"));
    assertThat(owed.first()).isVisible();
    String day = DateTimeFormatter.ofPattern("d MMM yyyy", Locale.UK).format(to);
    assertThat(owed.filter(with("Field inspections")).first())
        .containsText("flowers until " + day.substring(0, 5));
    String inspections = owed.filter(with("Field inspections")).first().textContent();
    // the page counts from the day on which it is made, and midnight may lie between
    assertThat(inspections).containsAnyOf(daysLeft(today, to), daysLeft(LocalDate.now(), to));
    assertThat(page.locator("#news")).containsText("crop:C-LIVE-1 is now: evidence owed");
    assertThat(page.evaluate("document.activeElement.textContent")).isEqualTo("Crop C25-S02");
    page.context().close();
  }

  @Test
  void aPersonSignsWhatTheyReadAndNothingElse() {
    Page page = chromium.loggedIn(Screen.WIDE, Language.ENGLISH, root, QUALITY).newPage();
    page.navigate(root + "lots/L26-S11");
    page.getByRole(AriaRole.LINK, new Page.GetByRoleOptions().setName(Pattern.compile("^Sign$")))
        .click();
    PageCheck.whole(page, "sign-WIDE-en");
    page.getByLabel("Release", new Page.GetByLabelOptions().setExact(true)).check();
    page.getByLabel("Reason").fill("All is met");
    page.getByLabel(Pattern.compile("^Meaning")).fill("responsibility for the release");
    page.getByLabel("Your password, again").fill("not the password");
    Chromium.send(
        page.getByRole(
            AriaRole.BUTTON, new Page.GetByRoleOptions().setName("Sign").setExact(true)));
    assertThat(page.locator("[role=alert]")).containsText("Not signed");
    assertThat(page.getByLabel("Reason")).hasValue("All is met");

    page.getByLabel("Release", new Page.GetByLabelOptions().setExact(true)).check();
    page.getByLabel("Your password, again").fill(TestPeople.password());
    Chromium.send(
        page.getByRole(
            AriaRole.BUTTON, new Page.GetByRoleOptions().setName("Sign").setExact(true)));
    assertThat(page).hasURL(Pattern.compile(".*/lots/L26-S11#release"));
    assertThat(page.locator(".acts")).containsText("Signed by Invented quality (quality)");
    assertThat(page.locator(".acts")).containsText("The signature verifies.");
    assertThat(page.locator(".acts")).containsText("Refused to quality");
    page.context().close();
  }

  /** Source of the border: Permissions and Visibility; a multiplier sees its own alone. */
  @Test
  void aMultiplierSeesNothingOfOthers() {
    Page page = chromium.loggedIn(Screen.NARROW, Language.ENGLISH, root, TestPeople.WEST).newPage();
    page.navigate(root + "lots?size=1000");
    assertThat(page.locator("tbody tr").first()).isVisible();
    String others =
        given().get("/api/v1/lots?holder=ENT-MULT-EAST&size=1").jsonPath().getString("items[0].id");
    assertThat(page.locator("tbody th").allTextContents()).doesNotContain(others);
    assertThat(page.navigate(root + "lots/" + others).status()).isEqualTo(404);
    assertThat(page.navigate(root + "desk").status()).isEqualTo(403);
    page.context().close();
  }

  @ParameterizedTest
  @CsvSource({"NARROW, ENGLISH", "NARROW, GERMAN", "WIDE, ENGLISH", "WIDE, GERMAN"})
  void theOtherPagesAreWithinReachOfAll(Screen screen, Language language) {
    Page page = chromium.loggedIn(screen, language, root, QUALITY).newPage();
    for (String path : new String[] {"seasons", "quarantine"}) {
      page.navigate(root + path);
      PageCheck.whole(page, path, screen, language);
    }
    page.locator("tbody a").first().click();
    PageCheck.whole(page, "quarantined-" + screen + "-" + language.tag());
    page.context().close();
  }

  /** Which columns a list shows stands in its address, with the filters and the order. */
  @Test
  void theColumnsOfAListAreChosenAndKept() {
    Page page = chromium.loggedIn(Screen.WIDE, Language.ENGLISH, root, QUALITY).newPage();
    page.navigate(root + "lots?cropYear=2025&sort=store");
    assertThat(page.locator("thead th")).hasCount(7);
    page.locator(".choosing-columns summary").click();
    page.getByLabel("Why", new Page.GetByLabelOptions().setExact(true)).uncheck();
    page.getByLabel("Not met", new Page.GetByLabelOptions().setExact(true)).check();
    page.getByLabel("Went out", new Page.GetByLabelOptions().setExact(true)).check();
    page.locator(".choosing-columns button").click();
    assertThat(page)
        .hasURL(Pattern.compile(".*cropYear=2025.*sort=store.*columns=NOT_MET.*GIVEN_OUT.*"));
    assertThat(page.locator("thead th")).hasCount(8);
    assertThat(page.locator("thead")).containsText("Went out");
    assertThat(page.locator("thead")).not().containsText("Why");
    assertThat(page.locator("th[aria-sort=descending]")).containsText("In store");

    page.getByLabel("Category").selectOption("CERTIFIED");
    page.locator(".filters button").click();
    assertThat(page).hasURL(Pattern.compile(".*category=CERTIFIED.*"));
    // narrowed, with the same columns
    assertThat(page.locator("thead th")).hasCount(8);
    page.context().close();
  }

  private static Locator.FilterOptions with(String text) {
    return new Locator.FilterOptions().setHasText(text);
  }

  private static String daysLeft(LocalDate today, LocalDate to) {
    return ChronoUnit.DAYS.between(today, to) + " days left";
  }

  private static String crop(String id, LocalDate today, LocalDate to) {
    return """
    {"type": "FieldCropDeclared", "header": {"factId": "%1$s", "recordedBy": "everything",
    "happenedAt": "%4$sT08:00:00Z", "recordedAt": "%4$sT08:00:00Z",
    "sourceDocument": "invented", "correction": null},
    "cropId": "%1$s", "fieldId": "invented", "enterpriseId": "ENT-MULT-WEST",
    "hybridId": "HYB-01", "role": "POLLINATOR", "seedComponentId": "C-01",
    "pollenComponentId": "C-01", "cropYear": %5$d, "category": "BASIC", "rulebookId": "EU",
    "outline": [{"lon": 30.0, "lat": 60.0}, {"lon": 30.003, "lat": 60.0},
    {"lon": 30.003, "lat": 60.002}], "shieldAccepted": null,
    "floweringFrom": "%2$s", "floweringTo": "%3$s"}
    """
        .formatted(id, today.plusDays(3), to, today.minusDays(30), to.getYear());
  }

  private static void post(String fact) {
    given().contentType("application/json").body(fact).post("/api/v1/facts").then().statusCode(202);
  }
}
