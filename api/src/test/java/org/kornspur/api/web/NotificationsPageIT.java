package org.kornspur.api.web;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Page;
import com.microsoft.playwright.assertions.PlaywrightAssertions;
import com.microsoft.playwright.options.AriaRole;
import java.util.EnumSet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.api.security.Role;
import org.kornspur.api.security.people.TestPeople;
import org.kornspur.api.text.Language;

/** Where a person chooses what to hear of, in a real browser. */
class NotificationsPageIT extends BrowserTest {

  @ParameterizedTest
  @CsvSource({"NARROW, GERMAN", "WIDE, ENGLISH"})
  void everyRoleFindsWhatItMayHearOf(Screen screen, Language language) {
    for (Role role : EnumSet.complementOf(EnumSet.of(Role.MONITOR))) {
      Page page = chromium.loggedIn(screen, language, root, TestPeople.of(role)).newPage();
      page.navigate(root + "help");
      page.locator(".who summary").click();
      page.locator(".who a[href='/notifications']").click();
      page.waitForURL(address -> address.endsWith("/notifications"));
      int kinds = page.locator("main select").count();
      switch (role) {
        case QUALITY -> assertThat(kinds).isEqualTo(6);
        case MULTIPLIER, AUDITOR -> assertThat(kinds).isEqualTo(5);
        case INSPECTOR -> assertThat(kinds).isEqualTo(4);
        case LABORATORY -> assertThat(kinds).isEqualTo(1);
        case ADMINISTRATOR -> {
          assertThat(kinds).isZero();
          PlaywrightAssertions.assertThat(page.locator("#given-up")).isVisible();
        }
        case MONITOR -> throw new AssertionError("a program reads no page");
      }
      PageCheck.whole(page, "notifications-" + role, screen, language);
      page.context().close();
    }
  }

  /** Source of the width: WCAG 2.2, 1.4.10. */
  @ParameterizedTest
  @CsvSource({"GERMAN", "ENGLISH"})
  void thePageFitsTheNarrowestScreen(Language language) {
    Page page =
        chromium.loggedIn(Screen.NARROW, language, root, TestPeople.of(Role.QUALITY)).newPage();
    page.setViewportSize(320, 640);
    page.navigate(root + "notifications");
    PageCheck.whole(page, "notifications-320-" + language.tag());
    page.context().close();
  }

  @Test
  void whatIsWrongIsSaidAndNothingIsLost() {
    Page page =
        chromium
            .loggedIn(Screen.WIDE, Language.ENGLISH, root, TestPeople.of(Role.INSPECTOR))
            .newPage();
    page.navigate(root + "notifications");
    PlaywrightAssertions.assertThat(page.locator("main"))
        .containsText("E-mail is not set up on this site");
    page.locator("#kind-NOT_FIT").selectOption("AT_ONCE");
    page.locator("#webAddress").fill("https://127.0.0.1/hook");
    Chromium.send(page.getByRole(AriaRole.BUTTON, new Page.GetByRoleOptions().setName("Save")));
    PlaywrightAssertions.assertThat(page.locator("[role=alert]"))
        .containsText("an address of the public network");
    PlaywrightAssertions.assertThat(page.locator("#webAddress")).hasValue("https://127.0.0.1/hook");
    PlaywrightAssertions.assertThat(page.locator("#kind-NOT_FIT")).hasValue("AT_ONCE");

    // documentation's own network: nobody is there, and nothing happens here to be told of
    page.locator("#kind-NOT_FIT").selectOption("OFF");
    page.locator("#kind-VISIT_DUE").selectOption("DAILY");
    page.locator("#webAddress").fill("https://203.0.113.7/hook");
    Chromium.send(page.getByRole(AriaRole.BUTTON, new Page.GetByRoleOptions().setName("Save")));
    String secret = page.locator("#secret").textContent();
    assertThat(secret).hasSizeGreaterThan(40);
    PageCheck.whole(page, "notifications-secret");
    page.navigate(root + "notifications");
    PlaywrightAssertions.assertThat(page.locator("#kind-VISIT_DUE")).hasValue("DAILY");
    assertThat(page.content()).doesNotContain(secret);

    Chromium.send(
        page.getByRole(AriaRole.BUTTON, new Page.GetByRoleOptions().setName("Make a new secret")));
    page.waitForURL(address -> address.endsWith("/notifications/secret"));
    assertThat(page.locator("#secret").textContent()).isNotEqualTo(secret);

    page.navigate(root + "notifications");
    page.locator("#kind-VISIT_DUE").selectOption("OFF");
    Chromium.send(page.getByRole(AriaRole.BUTTON, new Page.GetByRoleOptions().setName("Save")));
    PlaywrightAssertions.assertThat(page.locator("[role=status]")).containsText("Saved");
    PlaywrightAssertions.assertThat(page.locator("#webAddress")).hasValue("");
    page.context().close();
  }
}
