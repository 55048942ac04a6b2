package org.kornspur.api.web;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;

import com.google.gson.JsonObject;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import io.restassured.response.Response;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.api.rest.InventedFacts;
import org.kornspur.api.security.Role;
import org.kornspur.api.security.login.AsPerson;
import org.kornspur.api.security.people.TestPeople;
import org.kornspur.api.text.Language;

/** What a plant does all day, by forms alone; and what was typed wrong is mended where it shows. */
@ExtendWith(AsPerson.class)
class RecordIT extends BrowserTest {
  private static final String QUALITY = TestPeople.of(Role.QUALITY);
  private static boolean brought;

  @BeforeEach
  void bring() {
    if (!brought) {
      PostedFacts.bring(
          List.of(
              InventedFacts.fact(
                  "HybridDeclared",
                  "rc-hybrid",
                  """
                  "hybridId": "HYB-RC", "components": [\
                  {"componentId": "RC-SX", "kind": "STERILE_SINGLE_CROSS"}, \
                  {"componentId": "RC-RP", "kind": "RESTORER_POLLINATOR"}], \
                  "crosses": [{"seedComponentId": "HYB-RC", "femaleComponentId": "RC-SX", \
                  "pollenComponentId": "RC-RP"}], "pollinatorSharePercent": 10.0, \
                  "shareBasis": "MASS", "tolerancePercentPoints": 1.0"""),
              InventedFacts.fact(
                  "FieldCropDeclared",
                  "rc-crop",
                  """
                  "cropId": "RC-CROP", "fieldId": "Invented Field", \
                  "enterpriseId": "ENT-MULT-WEST", "hybridId": "HYB-RC", "role": "F1_MIXTURE", \
                  "seedComponentId": "HYB-RC", "pollenComponentId": "RC-RP", "cropYear": 2026, \
                  "category": "CERTIFIED", "rulebookId": "EU", "outline": [\
                  {"lon": 3.0, "lat": 49.0}, {"lon": 3.01, "lat": 49.0}, \
                  {"lon": 3.01, "lat": 49.005}]"""),
              declared("RC-F", "RC-SX", 4_000),
              declared("RC-P", "RC-RP", 400)));
      brought = true;
    }
    PostedFacts.until("/api/v1/crops/RC-CROP", answer -> answer.statusCode() == 200);
    PostedFacts.until("/api/v1/lots/RC-P", answer -> answer.statusCode() == 200);
  }

  private static String declared(String lotId, String componentId, double massKg) {
    return InventedFacts.fact(
        "LotDeclared",
        "rc-declared-" + lotId,
        """
        "lotId": "%s", "hybridId": "HYB-RC", "componentId": "%s", "category": "BASIC", \
        "enterpriseId": "ENT-MULT-WEST", "rulebookId": "EU", "cropYear": 2023, "massKg": %s"""
            .formatted(lotId, componentId, massKg));
  }

  @ParameterizedTest
  @CsvSource({"WIDE, ENGLISH", "NARROW, GERMAN"})
  void aHarvestIsConditionedSampledMixedDispatchedAndCorrectedByForms(
      Screen screen, Language language) {
    String one = "RC-" + screen;
    boolean english = language == Language.ENGLISH;
    Page page = chromium.signedIn(screen, language, root, QUALITY);
    page.navigate(root + "record");
    page.locator(".kinds a[href='/record/harvest']").click();
    page.waitForURL("**/record/harvest");
    Hands hands = new Hands(page);

    hands.type("cropId", "RC-CROP").type("lotId", one + "-H").type("massKg", "21000");
    hands.type("header.sourceDocument", "ticket 1").check();
    assertThat(page.locator(".lines").first()).containsText(english ? "21,000" : "21.000");
    assertSteps(hands, 4, 1);
    pressAlone(page, "n");
    page.waitForURL(address -> address.contains("next=true"));
    assertThat(page.locator("[name=cropId]")).hasValue("RC-CROP");
    assertThat(page.locator("[name='header.sourceDocument']")).hasValue("ticket 1");
    assertThat(page.locator("[name=lotId]")).hasValue("");
    assertThat(page.locator("[name=lotId]")).isFocused();
    hands.begin();
    hands.type("lotId", one + "-H2").type("massKg", english ? "1500.5" : "1500,5").check();
    assertSteps(hands, 2, 1);
    hands.record();
    PostedFacts.until("/api/v1/lots/" + one + "-H", answer -> answer.statusCode() == 200);

    page.navigate(root + "record/conditioning");
    hands.begin();
    hands.type("inputs[0].lotId", one + "-H").type("inputs[0].massKg", "21000");
    hands.press("more:outputs");
    hands.type("outputs[0].lotId", one + "-A").type("outputs[0].massKg", "15000");
    hands.type("outputs[1].lotId", one + "-B").type("outputs[1].massKg", "4000");
    hands.type("screeningsKg", "1000").type("header.sourceDocument", "sheet 2").check();
    assertThat(page.locator(".lines").first())
        .containsText(english ? "1,000 kg (4.76" : "1.000 kg (4,76");
    assertThat(page.locator("main"))
        .containsText(english ? "21,000 kg now, 0 kg" : "21.000 kg jetzt, 0 kg");
    PageCheck.whole(page, "record-conditioning-checked-" + screen + "-" + language.tag());
    assertSteps(hands, 8, 2);
    hands.record();
    PostedFacts.until("/api/v1/lots/" + one + "-A", answer -> answer.statusCode() == 200);

    page.navigate(root + "record/sampling?lot=" + one + "-A");
    hands.begin();
    hands.type("sampleId", "S-" + one).type("primarySamples", "5").type("lotMassKg", "15000");
    hands.type("submittedSampleG", "1200").type("samplerAccreditation", "INV-SAMPLER");
    hands.type("header.sourceDocument", "sheet 3").check();
    // bulk of 3,001 to 20,000 kg: one for each 500 kg, at least 10; International Rules, from
    // memory
    assertThat(page.locator("main")).containsText("30");
    assertThat(page.locator(".lines .owed").first()).isVisible();
    assertSteps(hands, 6, 1);
    hands.press("change");
    assertThat(page.locator("[name=primarySamples]")).hasValue("5");
    hands.type("primarySamples", "30").check();
    hands.record();

    page.navigate(root + "record/dispatch?lot=" + one + "-A");
    hands.begin();
    hands.type("customerId", "ENT-CUST").type("massKg", "16000");
    hands.type("header.sourceDocument", "note 4").check();
    assertThat(page.locator(".lines .bad").first())
        .containsText(english ? "1,000 kg more" : "1.000 kg mehr");
    hands.press("change");
    hands.type("massKg", "2500").check();
    assertThat(page.locator(".lines .owed").first())
        .containsText(english ? "not released" : "nicht freigegeben");
    hands.record();

    PostedFacts.until(
        "/api/v1/lots/" + one + "-A", answer -> answer.jsonPath().getDouble("leftKg") == 12_500);
    page.navigate(root + "lots/" + one + "-H2");
    page.locator(".mend a").first().click();
    assertThat(page.locator("[name=massKg]")).hasValue(english ? "1500.5" : "1500,5");
    hands.type("massKg", "1050.5");
    hands.press("check");
    assertThat(page.locator("#f-header-correction-reason-faults p")).hasCount(1);
    hands.type("header.correction.reason", "digits swapped").check();
    assertThat(page.locator(".compared .changed"))
        .containsText(
            List.of("digits swapped", english ? "1,500.5" : "1.500,5").toArray(String[]::new));
    PageCheck.whole(page, "record-correct-checked-" + screen + "-" + language.tag());
    hands.record();
    PostedFacts.until(
        "/api/v1/lots/" + one + "-H2", answer -> answer.jsonPath().getDouble("heldKg") == 1_050.5);
    page.context().close();
  }

  /** The one key of a button, with Alt, as Chromium on Linux and Windows asks for it. */
  private static void pressAlone(Page page, String key) {
    JsonObject down = new JsonObject();
    down.addProperty("type", "keyDown");
    down.addProperty("modifiers", 1);
    down.addProperty("key", key);
    down.addProperty("unmodifiedText", key);
    down.addProperty("code", "Key" + key.toUpperCase(Locale.ROOT));
    down.addProperty("windowsVirtualKeyCode", (int) key.toUpperCase(Locale.ROOT).charAt(0));
    page.context().newCDPSession(page).send("Input.dispatchKeyEvent", down);
  }

  private static void assertSteps(Hands hands, int fields, int presses) {
    assertThat(hands.fields()).as("fields typed").isEqualTo(fields);
    assertThat(hands.presses()).as("buttons pressed").isEqualTo(presses);
  }

  /** A common small desk: 1280 by 800; common practice, no source. */
  @Test
  void eachOfTheFiveFitsOneScreen() {
    Page page = chromium.signedIn(Screen.WIDE, Language.GERMAN, root, QUALITY);
    page.setViewportSize(1280, 800);
    for (String kind : List.of("harvest", "conditioning", "sampling", "blend", "dispatch")) {
      page.navigate(root + "record/" + kind);
      Number bottom =
          (Number)
              page.evaluate(
                  "document.querySelector('button.write').getBoundingClientRect().bottom");
      assertThat(bottom.doubleValue()).as(kind).isLessThanOrEqualTo(800);
    }
    page.context().close();
  }

  @Test
  void aMixtureShowsItsShareAndRowsAreAddedWithoutAScript() {
    BrowserContext person = chromium.loggedInWithoutScript(Screen.WIDE, root, QUALITY);
    Page page = person.newPage();
    page.navigate(root + "record/blend");
    Hands hands = new Hands(page);
    hands.type("blendLotId", "RC-MIX").type("hybridId", "HYB-RC");
    hands.type("females[0].lotId", "RC-F").type("females[0].massKg", "900");
    hands.press("more:pollinators");
    assertThat(page.locator("[name='pollinators[1].lotId']")).isVisible();
    assertThat(page.locator("[name='females[0].massKg']")).hasValue("900");
    hands.type("pollinators[1].lotId", "RC-P").type("pollinators[1].massKg", "200");
    hands.type("targetPollinatorSharePercent", "10");
    hands.type("header.sourceDocument", "mixing sheet 1");
    hands.check();
    // 200 of 1,100 kg
    assertThat(page.locator(".lines").first()).containsText("18.18");
    assertThat(page.locator(".lines").first()).containsText("10\u00a0% ± 1");
    assertThat(page.locator(".lines .bad").first()).isVisible();
    hands.press("change");
    hands.type("pollinators[0].massKg", "100").check();
    assertThat(page.locator(".lines").first()).containsText("10");
    hands.record();
    PostedFacts.until(
        "/api/v1/lots/RC-MIX",
        answer -> answer.statusCode() == 200 && answer.jsonPath().getDouble("heldKg") == 1_000);
    person.close();
  }

  @Test
  void refusedInputIsEditedAndSentInItsPlace() {
    String bad =
        InventedFacts.fact(
            "Harvest",
            "rc-refused",
            "\"cropId\": \"RC-CROP\", \"lotId\": \"RC-MENDED\", \"massKg\": -5");
    given().contentType("application/json").body(bad).post("/api/v1/facts").then().statusCode(422);
    Page page = chromium.signedIn(Screen.WIDE, Language.ENGLISH, root, QUALITY);
    PostedFacts.until("/api/v1/quarantine?state=HELD&size=200", all -> refused(all).isPresent());
    String entry = refused(given().get("/api/v1/quarantine?state=HELD&size=200")).orElseThrow();
    page.navigate(root + "quarantine/" + entry);
    page.getByRole(AriaRole.LINK, new Page.GetByRoleOptions().setName("Edit and send")).click();
    assertThat(page.locator("[name=lotId]")).hasValue("RC-MENDED");
    assertThat(page.locator("[name=massKg]")).hasValue("-5");
    Hands hands = new Hands(page);
    hands.type("massKg", "5").check();
    hands.record();

    PostedFacts.until(
        "/api/v1/lots/RC-MENDED",
        answer -> answer.statusCode() == 200 && answer.jsonPath().getDouble("heldKg") == 5);
    PostedFacts.until(
        "/api/v1/quarantine/" + entry,
        answer -> "REPLAYED".equals(answer.jsonPath().getString("state")));
    page.context().close();
  }

  private static Optional<String> refused(Response all) {
    return all.jsonPath().<String>getList("items.entryId").stream()
        .filter(id -> given().get("/api/v1/quarantine/" + id).asString().contains("rc-refused"))
        .findFirst();
  }

  @Test
  void aGrowerMendsItsOwnAloneAndIsOfferedNoMore() {
    Page page = chromium.signedIn(Screen.WIDE, Language.ENGLISH, root, TestPeople.WEST);
    page.navigate(root + "record");
    assertThat(page.locator(".kinds a"))
        .hasText(
            new String[] {
              "Seed crop declared",
              "Sowing",
              "Source of foreign pollen seen",
              "Flowering seen",
              "Harvest",
              "Conditioning",
              "Lot split",
              "Lots merged",
              "Dispatch",
              "Withdrawal"
            });
    assertThat(page.navigate(root + "record/blend").status()).isEqualTo(403);
    // a hybrid is quality's, and so is every fact that another enterprise's lot rests on
    for (String foreign : List.of("rc-hybrid", "no-such-fact")) {
      assertThat(page.navigate(root + "record/withdrawal?withdraws=" + foreign).status())
          .as(foreign)
          .isEqualTo(404);
    }
    page.context().close();
  }
}
