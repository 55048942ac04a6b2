package org.kornspur.api.web;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.api.security.Role;
import org.kornspur.api.security.people.TestPeople;
import org.kornspur.api.text.Language;

/**
 * The page of a lot, in a real browser. What each lot's story is: demo-events/ABOUT.md, which is
 * invented.
 */
class SubjectPageIT extends BrowserTest {
  private static final String QUALITY = TestPeople.of(Role.QUALITY);

  @ParameterizedTest
  @CsvSource({"NARROW, ENGLISH", "NARROW, GERMAN", "WIDE, ENGLISH", "WIDE, GERMAN"})
  void lotsAndCropsAreWithinReachOfAll(Screen screen, Language language) {
    Page page = chromium.loggedIn(screen, language, root, QUALITY).newPage();
    for (String path : new String[] {"lots/L25-S05-P1", "lots/R25-S06", "crops/C25-S01"}) {
      assertThat(page.navigate(root + path).status()).as(path).isEqualTo(200);
      LookedAt.whole(page, path.replace('/', '-'), screen, language);
    }
    page.context().close();
  }

  @Test
  void troubleIsFollowedToWhereItBegan() {
    Page page = chromium.loggedIn(Screen.WIDE, Language.ENGLISH, root, QUALITY).newPage();
    page.navigate(root + "lots/L25-S05-P1");
    assertThat(page.locator(".standing").textContent())
        .isEqualTo("Lot L25-S05-P1 is not fit. Not met: Post-control (from L24-S05).");
    assertThat(page.locator("#inherited ~ ul .path li").allTextContents())
        .containsExactly(
            "lot:L24-S05",
            "lot:M24-S05",
            "crop:C25-S05",
            "lot:R25-S05",
            "lot:L25-S05",
            "lot:L25-S05-P1");
    assertThat(page.locator(".movement.troubled").count())
        .as("five steps down, and two to customers")
        .isEqualTo(7);

    page.setViewportSize(4000, 1200);
    page.locator(".pedigree")
        .screenshot(
            new Locator.ScreenshotOptions().setPath(LookedAt.PICTURES.resolve("pedigree.png")));
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
    assertThat(page.locator(".timeline").textContent()).contains("Berichtigt Tatsache");
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
}
