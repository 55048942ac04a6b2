package org.kornspur.api.web;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasSize;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import io.restassured.RestAssured;
import io.restassured.config.HeaderConfig;
import io.restassured.http.ContentType;
import io.restassured.path.json.JsonPath;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.api.command.act.InventedFitLot;
import org.kornspur.api.command.act.SettledSeal;
import org.kornspur.api.security.Role;
import org.kornspur.api.security.people.TestPeople;
import org.kornspur.api.text.Language;

/** The release of many lots in a real browser, on lots that nobody else signs for. */
class ReleasePageIT extends EmptySiteTest {
  private static final String QUALITY = TestPeople.of(Role.QUALITY);

  /** Asked for by whoever releases lots; one at a time it takes 126 clicks and 60 fields. */
  private static final int MOST_CLICKS = 12;

  private static final int MOST_FIELDS = 3;

  @Test
  void twentyLotsAreReleasedBySigningOnce() {
    List<String> lots = bring("RT-MANY-", 20);
    Page page = BrowserTest.chromium.signedIn(Screen.WIDE, Language.ENGLISH, root, QUALITY);
    PersonAtWork person = new PersonAtWork(page);
    person.click(
        page.getByRole(
            AriaRole.LINK, new Page.GetByRoleOptions().setName("Release").setExact(true)));
    assertThat(page.locator("h1")).hasText("Release lots");
    // other classes have lots of their own on this machine
    page.navigate(root + "release?id=RT-MANY-");
    assertThat(page.locator("tbody tr")).hasCount(20);

    person.click(page.locator("#all"));
    assertThat(page.locator("input[name=lot]:checked")).hasCount(20);
    person.type(page.getByLabel("Reason"), "All is met");
    assertThat(page.getByLabel(Pattern.compile("^Meaning")))
        .hasValue("responsibility for the release");
    person.type(page.getByLabel("Your password, again"), TestPeople.password());
    person.send(sign(page));

    assertThat(page.locator("#signed h2")).hasText("Signed for 20 lots");
    assertThat(page.locator("#left-out")).hasCount(0);
    person.done("Release 20 lots");
    assertThat(person.clicks()).isLessThanOrEqualTo(MOST_CLICKS);
    assertThat(person.fields()).isLessThanOrEqualTo(MOST_FIELDS);
    PageCheck.whole(page, "release-signed-WIDE-en");
    Set<String> seals = new TreeSet<>();
    for (String lot : lots) {
      JsonPath acts = given().get("/api/v1/lots/" + lot + "/acts").jsonPath();
      assertThat(acts.getList("kind")).as(lot).containsExactly("RELEASE");
      assertThat(acts.getBoolean("[0].signatureVerifies")).isTrue();
      assertThat(acts.getString("[0].reason")).isEqualTo("All is met");
      seals.add(acts.getString("[0].signed.seal"));
    }
    assertThat(seals).as("each lot has a seal of its own").hasSize(20);
    page.navigate(root + "release?id=RT-MANY-");
    assertThat(page.locator("#found + .notice")).hasText("No lot waits for its release.");
  }

  @Test
  void whatChangedSinceItWasReadIsLeftOutAndTold() {
    List<String> lots = bring("RT-LATE-", 3);
    String late = lots.get(1);
    Page page =
        BrowserTest.chromium.loggedIn(Screen.WIDE, Language.ENGLISH, root, QUALITY).newPage();
    page.navigate(root + "release?id=RT-LATE-");
    assertThat(page.locator("input[name=lot]")).hasCount(3);
    PostedFacts.bring(List.of(InventedFitLot.failedPostControl(late + "-control", late)));
    PostedFacts.until(
        "/api/v1/lots/" + late, answer -> "NOT_FIT".equals(answer.jsonPath().getString("state")));

    page.locator("#all").check();
    page.getByLabel("Reason").fill("All is met");
    page.getByLabel("Your password, again").fill(TestPeople.password());
    Chromium.send(sign(page));

    Locator leftOut = page.locator("#left-out > ul > li");
    assertThat(leftOut).hasCount(1);
    assertThat(leftOut).containsText(late);
    assertThat(leftOut).containsText("It is no longer what you read.");
    assertThat(leftOut).containsText("only fit lots are released");
    leftOut.locator("summary").click();
    assertThat(leftOut.locator("details")).containsText(late + "-control");
    assertThat(page.locator("#signed h2")).hasText("Signed for 2 lots");
    PageCheck.whole(page, "release-left-out-WIDE-en");
    JsonPath acts =
        PostedFacts.until(
                "/api/v1/lots/" + late + "/acts",
                answer -> !answer.jsonPath().getList("").isEmpty())
            .jsonPath();
    assertThat(acts.getList("refusalGround")).containsExactly("SEAL_CHANGED");
    assertThat(given().get("/api/v1/lots/" + lots.get(0)).jsonPath().getString("release.step"))
        .isEqualTo("RELEASED");
  }

  @Test
  void withoutAScriptAWrongPasswordSignsNothingAndLosesNothing() {
    bring("RT-PLAIN-", 2);
    Page page = BrowserTest.chromium.loggedInWithoutScript(Screen.WIDE, root, QUALITY).newPage();
    page.navigate(root + "release?id=RT-PLAIN-");
    page.getByLabel("Choose lot RT-PLAIN-1", new Page.GetByLabelOptions().setExact(true)).check();
    page.getByLabel("Reason").fill("All is met");
    page.getByLabel("Your password, again").fill("not the password");
    Chromium.send(sign(page));
    assertThat(page.locator("#refused")).containsText("Nothing was signed");
    assertThat(page.getByLabel("Reason")).hasValue("All is met");
    assertThat(page.locator("input[name=lot]:checked")).hasCount(1);

    page.getByLabel("Your password, again").fill(TestPeople.password());
    Chromium.send(sign(page));
    assertThat(page.locator("#signed li")).hasText(Pattern.compile("RT-PLAIN-1.*"));
    assertThat(page.locator("tbody tr")).hasCount(1);

    page.locator("#all").check();
    page.getByLabel("Reason").fill("All is met");
    page.getByLabel("Your password, again").fill(TestPeople.password());
    Chromium.send(sign(page));
    assertThat(page.locator("#signed li")).hasText(Pattern.compile("RT-PLAIN-2.*"));
  }

  @ParameterizedTest
  @CsvSource({"NARROW, ENGLISH", "NARROW, GERMAN", "WIDE, ENGLISH", "WIDE, GERMAN"})
  void itIsWithinReachOfAll(Screen screen, Language language) {
    bring("RT-SEEN-", 3);
    PostedFacts.bring(List.of(dispatch("RT-SEEN-2")));
    PostedFacts.until(
        "/api/v1/lots/RT-SEEN-2",
        answer -> answer.jsonPath().getFloat("release.dispatchedUnreleasedKg") == 50);
    Page page = BrowserTest.chromium.loggedIn(screen, language, root, QUALITY).newPage();
    page.navigate(root + "release?id=RT-SEEN-");
    assertThat(page.locator("tbody tr")).hasCount(3);
    Locator sold = page.locator("tbody tr", new Page.LocatorOptions().setHasText("RT-SEEN-2"));
    assertThat(sold.locator(".why li").first()).isVisible();
    assertThat(sold).containsText("50\u00a0kg");
    PageCheck.whole(page, "release", screen, language);
  }

  /** The same for seed that is to be held back: one cause, one signature, each lot for itself. */
  @Test
  void allReleasedLotsOfACauseAreSuspendedBySigningOnce() {
    List<String> lots = bring("RT-HOLD-", 1);
    PostedFacts.bring(List.of(split(lots.get(0))));
    for (String part : List.of("RT-HOLD-1-A", "RT-HOLD-1-B")) {
      PostedFacts.until(
          "/api/v1/lots/" + part, answer -> "FIT".equals(answer.jsonPath().getString("state")));
    }
    SettledSeal.of(QUALITY, "RT-HOLD-1-B");
    Page page =
        BrowserTest.chromium.loggedIn(Screen.WIDE, Language.ENGLISH, root, QUALITY).newPage();
    page.navigate(root + "release?id=RT-HOLD-1-");
    page.locator("#all").check();
    page.getByLabel("Reason").fill("All is met");
    page.getByLabel("Your password, again").fill(TestPeople.password());
    Chromium.send(sign(page));
    assertThat(page.locator("#signed h2")).hasText("Signed for 2 lots");

    PostedFacts.bring(List.of(InventedFitLot.failedPostControl("RT-HOLD-control", "RT-HOLD-1")));
    PostedFacts.until(
        "/api/v1/lots/RT-HOLD-1-B",
        answer -> "SUSPENDED".equals(answer.jsonPath().getString("release.step")));
    PostedFacts.until(
        "/api/v1/lots/RT-HOLD-1-A",
        answer -> "SUSPENDED".equals(answer.jsonPath().getString("release.step")));
    PersonAtWork person = new PersonAtWork(page);
    page.navigate(root + "desk");
    Locator card =
        page.locator("#causes ~ ul .card", new Page.LocatorOptions().setHasText("RT-HOLD-1"));
    assertThat(card).hasCount(1);
    person.click(
        card.getByRole(AriaRole.LINK, new Locator.GetByRoleOptions().setName("Suspend 2 lots")));
    person.click(page.getByLabel("Choose all 2"));
    person.type(page.getByLabel("Reason"), "Post-control failed");
    assertThat(page.getByLabel(Pattern.compile("^Meaning")))
        .hasValue("responsibility for holding this seed back");
    person.type(page.getByLabel("Your password, again"), TestPeople.password());
    person.send(sign(page));
    assertThat(page.locator("#signed h2")).hasText("Signed for 2 lots");
    person.done("Suspend 2 lots of one cause");
    assertThat(person.clicks()).isLessThanOrEqualTo(3);
    assertThat(person.fields()).isLessThanOrEqualTo(2);
    PageCheck.whole(page, "cause-suspended-WIDE-en");
    for (String part : List.of("RT-HOLD-1-A", "RT-HOLD-1-B")) {
      JsonPath acts = given().get("/api/v1/lots/" + part + "/acts").jsonPath();
      assertThat(acts.getList("kind")).as(part).containsExactly("RELEASE", "SUSPEND");
      assertThat(acts.getBoolean("[1].signatureVerifies")).isTrue();
    }
    page.navigate(root + "desk/causes/seed:lot:RT-HOLD-1");
    // what a person suspended is not suspended twice
    assertThat(page.locator("#suspend ~ form input[name=lot]")).hasCount(0);
  }

  /** Source of the roles: Permission.SIGN_ACTS; 21 CFR 11.10(g) for the record, from memory. */
  @Test
  void whoMayNotSignIsRefusedAndPutOnRecordForEachLot() {
    List<String> lots = bring("RT-NOT-", 2);
    String auditor = TestPeople.of(Role.AUDITOR);
    Page page =
        BrowserTest.chromium.loggedIn(Screen.WIDE, Language.ENGLISH, root, auditor).newPage();
    page.navigate(root + "lots");
    assertThat(page.locator(".rooms a[href='/release']")).hasCount(0);
    assertThat(page.navigate(root + "release").status()).isEqualTo(403);

    given()
        .config(
            RestAssured.config()
                .headerConfig(
                    HeaderConfig.headerConfig().overwriteHeadersWithName("Authorization")))
        .header("Authorization", TestPeople.basic(auditor))
        .contentType(ContentType.JSON)
        .body(
            Map.of(
                "reason",
                "All is met",
                "meaning",
                "responsibility for the release",
                "password",
                TestPeople.password(),
                "lots",
                lots.stream().map(lot -> Map.of("id", lot, "seal", "0".repeat(64))).toList()))
        .post("/api/v1/release-acts")
        .then()
        .statusCode(403)
        .body("type", equalTo("/problems/forbidden"));
    for (String lot : lots) {
      PostedFacts.until(
              "/api/v1/lots/" + lot + "/acts", answer -> !answer.jsonPath().getList("").isEmpty())
          .then()
          .body("", hasSize(1))
          .body("[0].refusalGround", equalTo("NO_AUTHORITY"))
          .body("[0].sentence", containsString("auditor"));
    }
  }

  private static Locator sign(Page page) {
    return page.getByRole(
        AriaRole.BUTTON, new Page.GetByRoleOptions().setName("Sign").setExact(true));
  }

  /** Brings fit lots, numbered from 1, and waits until each has the seal that it will keep. */
  private static List<String> bring(String prefix, int count) {
    List<String> lots =
        IntStream.rangeClosed(1, count).mapToObj(number -> prefix + number).toList();
    PostedFacts.bring(List.of(InventedFitLot.laboratory()));
    PostedFacts.bring(lots.stream().flatMap(lot -> InventedFitLot.facts(lot).stream()).toList());
    lots.forEach(
        lot ->
            PostedFacts.until(
                "/api/v1/lots/" + lot,
                answer -> "FIT".equals(answer.jsonPath().getString("state"))));
    SettledSeal.of(QUALITY, lots.get(count - 1));
    return lots;
  }

  private static String split(String lot) {
    return """
    {"type": "LotSplit", "header": {"factId": "%1$s-split", "recordedBy": "p-01", \
    "happenedAt": "%2$sT08:00:00Z", "recordedAt": "%2$sT08:00:00Z", \
    "sourceDocument": "invented", "correction": null}, "fromLotId": "%1$s", \
    "parts": [{"lotId": "%1$s-A", "massKg": 200}, {"lotId": "%1$s-B", "massKg": 200}]}\
    """
        .formatted(lot, LocalDate.now().minusDays(2));
  }

  private static String dispatch(String lot) {
    return """
    {"type": "Dispatch", "header": {"factId": "%1$s-sold", "recordedBy": "p-01", \
    "happenedAt": "2024-02-01T08:00:00Z", "recordedAt": "2024-02-01T08:00:00Z", \
    "sourceDocument": "invented", "correction": null}, "lotId": "%1$s", "massKg": 50, \
    "customerId": "invented-customer", "labelNumbers": []}\
    """
        .formatted(lot);
  }
}
