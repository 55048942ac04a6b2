package org.kornspur.api.web;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.api.rest.InventedFacts;
import org.kornspur.api.security.Role;
import org.kornspur.api.security.login.AsPerson;
import org.kornspur.api.security.people.TestPeople;
import org.kornspur.api.text.Language;

/**
 * The page of a lot, in a real browser. What each lot's story is: demo-events/ABOUT.md, which is
 * invented.
 */
@ExtendWith(AsPerson.class)
class SubjectPageIT extends BrowserTest {
  private static final String QUALITY = TestPeople.of(Role.QUALITY);

  @ParameterizedTest
  @CsvSource({"NARROW, ENGLISH", "NARROW, GERMAN", "WIDE, ENGLISH", "WIDE, GERMAN"})
  void lotsAndCropsAreWithinReachOfAll(Screen screen, Language language) {
    Page page = chromium.loggedIn(screen, language, root, QUALITY).newPage();
    for (String path : new String[] {"lots/L25-S05-P1", "lots/R25-S06", "crops/C25-S01"}) {
      assertThat(page.navigate(root + path).status()).as(path).isEqualTo(200);
      PageCheck.whole(page, path.replace('/', '-'), screen, language);
    }
    page.context().close();
  }

  @Test
  void troubleIsFollowedToWhereItBegan() {
    Page page = chromium.loggedIn(Screen.WIDE, Language.ENGLISH, root, QUALITY).newPage();
    page.navigate(root + "lots/L25-S05-P1");
    assertThat(page.locator(".standing").innerText().replaceAll("\\s+", " "))
        .startsWith("not fit Post-control (from L24-S05)");
    assertThat(page.locator("#inherited ~ ul .path li").allTextContents())
        .containsExactly("L24-S05", "M24-S05", "C25-S05", "R25-S05", "L25-S05", "L25-S05-P1");
    assertThat(page.locator(".movement.troubled").count())
        .as("five steps down, and two to customers")
        .isEqualTo(7);

    page.setViewportSize(4000, 1200);
    page.locator(".pedigree")
        .screenshot(
            new Locator.ScreenshotOptions().setPath(PageCheck.PICTURES.resolve("pedigree.png")));
    page.setViewportSize(Screen.WIDE.width, Screen.WIDE.height);

    Locator origin =
        page.locator(".pedigree")
            .getByRole(
                AriaRole.LINK,
                new Locator.GetByRoleOptions().setName("Lot L24-S05, not fit").setExact(true));
    origin.focus();
    page.keyboard().press("Enter");
    page.waitForURL("**/lots/L24-S05");
    assertThat(page.locator(".gate").first().textContent())
        .contains("Post-control")
        .contains("not met")
        .contains("34")
        .contains("480");
    page.locator(".gate").first().locator("summary").click();
    page.locator(".gate").first().locator("details a").first().click();
    assertThat(page.locator(".timeline li:target h3").textContent())
        .contains("Post-control result");
    page.context().close();
  }

  @Test
  void aCorrectionIsShownWithBothValues() {
    Page page = chromium.loggedIn(Screen.WIDE, Language.GERMAN, root, QUALITY).newPage();
    page.navigate(root + "lots/R25-S06");
    assertThat(page.locator(".timeline .gone").count()).isEqualTo(1);
    assertThat(page.locator(".timeline").textContent()).contains("Berichtigt Meldung");
    assertThat(page.locator(".timeline li:not(.gone) del").first().textContent())
        .startsWith("12.400");
    assertThat(page.locator(".timeline li:not(.gone) ins").first().textContent())
        .startsWith("1.240");
    Locator corrected =
        page.locator(
            ".timeline li:not(.gone)", new Page.LocatorOptions().setHas(page.locator("ins")));
    corrected.locator("summary").first().click();
    assertThat(corrected.locator(".values").first().textContent())
        .as("fields have German names, constants too")
        .doesNotContain("massKg")
        .contains("kg");
    assertThat(page.locator("section[aria-labelledby=identity] dl").textContent())
        .contains("1.240");
    page.context().close();
  }

  /** The germination test of L26-S08B was refused, and the lot waits for one. */
  @Test
  void aMissingProofPointsToTheInputThatWasRefused() {
    Page page = chromium.loggedIn(Screen.WIDE, Language.ENGLISH, root, QUALITY).newPage();
    page.navigate(root + "lots/L26-S08B");
    Locator refused = page.locator("section[aria-labelledby=refused]");
    assertThat(refused.textContent()).contains("GerminationTest-broken.csv", "104");
    PageCheck.whole(page, "lot-refused-input");
    refused.locator("a", new Locator.LocatorOptions().setHasText("GerminationTest")).click();
    page.waitForURL("**/quarantine/**");
    assertThat(page.locator("main").textContent()).contains("germination-L26-S08B");

    page.navigate(root + "lots/L26-S08A");
    assertThat(page.locator("section[aria-labelledby=refused]").count()).isZero();
    page.context().close();
  }

  @Test
  void aFactThatSeemsMistakenIsCorrectedFromTheGateThatSaysSo() {
    PostedFacts.bring(
        List.of(
            InventedFacts.fact(
                "FieldCropDeclared",
                "sp-crop",
                """
                "cropId": "SP-CROP", "fieldId": "Far Field", "enterpriseId": "ENT-MULT-WEST", \
                "hybridId": "HYB-01", "role": "F1_MIXTURE", "seedComponentId": "HYB-01", \
                "pollenComponentId": "C-01", "cropYear": 2025, "category": "CERTIFIED", \
                "rulebookId": "EU", "outline": [{"lon": 1.0, "lat": 49.0}, \
                {"lon": 1.01, "lat": 49.0}, {"lon": 1.01, "lat": 49.005}]"""),
            InventedFacts.fact(
                "FieldInspection",
                "sp-visit",
                """
                "cropId": "SP-CROP", "visit": 1, "part": "FEMALE", "bbchStage": 65, \
                "areaM2": 150, "offTypePlants": 0""")));
    PostedFacts.until("/api/v1/crops/SP-CROP", answer -> answer.asString().contains("sp-visit"));

    Page page = chromium.loggedIn(Screen.NARROW, Language.ENGLISH, root, QUALITY).newPage();
    page.navigate(root + "crops/SP-CROP");
    Locator correct =
        page.locator(".gate-body .mend a", new Page.LocatorOptions().setHasText("sp-visit"));
    assertThat(correct.first().textContent()).isEqualTo("Correct sp-visit");
    PageCheck.whole(page, "crop-seems-mistaken");
    correct.first().click();
    page.waitForURL("**/record/field-inspection?corrects=sp-visit");
    assertThat(page.locator("[name=visit]").inputValue()).isEqualTo("1");
    page.context().close();
  }
}
