package org.kornspur.api.web;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.assertions.PlaywrightAssertions;
import com.microsoft.playwright.options.AriaRole;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.api.security.Role;
import org.kornspur.api.security.people.TestPeople;
import org.kornspur.api.text.Language;

/** How an administrator keeps the people, and what a demo says of its own. */
class PeoplePageIT extends BrowserTest {
  private static final String ADMINISTRATOR = TestPeople.of(Role.ADMINISTRATOR);
  private static final String OWN = "a password of one's own";

  @ParameterizedTest
  @CsvSource({"NARROW, GERMAN", "WIDE, ENGLISH"})
  void theAdministratorsPagesAreWithinReachOfAll(Screen screen, Language language) {
    Page page = chromium.loggedIn(screen, language, root, ADMINISTRATOR).newPage();
    for (String path :
        List.of(
            "people",
            "people/new",
            "people/person/laboratory-unbound",
            "people/journal",
            "people/confirm",
            "site",
            "first-steps")) {
      assertThat(page.navigate(root + path).status()).as(path).isEqualTo(200);
      PageCheck.whole(page, path.replaceAll("\\W+", "-"), screen, language);
    }
    page.navigate(root);
    assertThat(page.url()).endsWith("/people");
    page.context().close();
  }

  @Test
  void aPersonIsAddedLogsInWithAnOwnPasswordAndIsBlocked() {
    Page page = chromium.loggedIn(Screen.WIDE, Language.ENGLISH, root, ADMINISTRATOR).newPage();
    page.navigate(root + "people");
    page.getByRole(AriaRole.LINK, new Page.GetByRoleOptions().setName("Add a person")).click();
    page.locator("#personId").fill("grower-07");
    page.locator("#printedName").fill("Invented Grower");
    page.locator("input[value=MULTIPLIER]").check();
    page.locator("#enterpriseId").fill("ENT-MULT-RIVER");
    page.locator("#own").fill("not the own one");
    Chromium.send(submit(page, "Add"));
    PlaywrightAssertions.assertThat(page.locator("[role=alert]"))
        .containsText("Nothing was changed");
    PlaywrightAssertions.assertThat(page.locator("#printedName")).hasValue("Invented Grower");
    PlaywrightAssertions.assertThat(page.locator("input[value=MULTIPLIER]")).isChecked();
    page.locator("#own").fill(TestPeople.password());
    Chromium.send(submit(page, "Add"));
    String issued = page.locator("#issued").textContent();
    assertThat(issued).matches("([a-z2-9]{6}-){3}[a-z2-9]{6}");
    PageCheck.whole(page, "people-password");

    Page grower = chromium.visitor(Screen.WIDE, Language.ENGLISH).newPage();
    logIn(grower, issued);
    PlaywrightAssertions.assertThat(grower.locator("#new-password")).isVisible();
    grower.locator("#new-password").fill(OWN);
    logIn(grower, issued);
    PlaywrightAssertions.assertThat(grower.locator(".who summary")).containsText("Invented Grower");
    grower.navigate(root + "crops");
    assertThat(grower.locator("tbody tr").count()).isPositive();

    isConfirmedByTheInspector();
    page.navigate(root + "people/person/grower-07");
    page.locator("#own-block").fill(TestPeople.password());
    Chromium.send(submit(page, "Block"));
    PlaywrightAssertions.assertThat(page.locator("[role=status]")).containsText("Blocked");
    grower.navigate(root + "crops");
    assertThat(grower.url()).contains("/login");
    page.navigate(root + "people/journal?person=grower-07");
    assertThat(page.locator("tbody .why").allTextContents())
        .containsExactly(
            "Blocked",
            "Confirmed after the password that administrator issued",
            "Another password",
            "Password issued by administrator. Somebody else confirms the person.",
            "Works for ENT-MULT-RIVER",
            "Roles: Multiplier",
            "Added");
    assertThat(page.content()).doesNotContain(issued, OWN);

    page.navigate(root + "people/person/grower-07");
    page.getByText("Forget the name beside signatures").click();
    page.locator("#own-forget").fill(TestPeople.password());
    PageCheck.whole(page, "people-forget");
    Chromium.send(submit(page, "Forget"));
    PlaywrightAssertions.assertThat(page.locator("[role=status]")).containsText("forgotten");
    page.navigate(root + "people/journal?person=grower-07");
    PlaywrightAssertions.assertThat(page.locator("tbody .why").first())
        .hasText("Name beside signatures forgotten");
    page.context().close();
  }

  private void isConfirmedByTheInspector() {
    Page inspector =
        chromium
            .loggedIn(Screen.NARROW, Language.GERMAN, root, TestPeople.of(Role.INSPECTOR))
            .newPage();
    inspector.navigate(root + "people/confirm");
    PageCheck.whole(inspector, "people-confirm-one", Screen.NARROW, Language.GERMAN);
    inspector.locator("#own-grower-07").fill(TestPeople.password());
    Chromium.send(submit(inspector, "Invented Grower bestätigen"));
    PlaywrightAssertions.assertThat(inspector.locator("[role=status]")).containsText("Bestätigt");
    inspector.context().close();
  }

  private static Locator submit(Page page, String name) {
    return page.getByRole(
        AriaRole.BUTTON, new Page.GetByRoleOptions().setName(name).setExact(true));
  }

  private void logIn(Page page, String password) {
    if (!page.url().contains("/login")) {
      page.navigate(root + "login");
    }
    page.locator("#user").fill("grower-07");
    page.locator("#password").fill(password);
    Chromium.send(page.locator(".sign-in button"));
    page.waitForURL(address -> !address.endsWith("/login"));
  }

  /** Nobody else of the site is named to who has not logged in. */
  @Test
  void theLogInOfADemoNamesItsPeopleAndTheirPagesHaveWork() {
    Page page = chromium.visitor(Screen.NARROW, Language.GERMAN).newPage();
    page.navigate(root + "login");
    assertThat(page.locator("[aria-labelledby=demo] a").allTextContents())
        .containsExactly("demo-multiplier", "demo-laboratory");
    PageCheck.whole(page, "login-demo");
    for (String person : List.of("demo-multiplier", "demo-laboratory")) {
      page.context().clearCookies();
      page.navigate(root + "login");
      page.getByRole(AriaRole.LINK, new Page.GetByRoleOptions().setName(person)).click();
      PlaywrightAssertions.assertThat(page.locator("#user")).hasValue(person);
      page.locator("#password").fill(TestPeople.password());
      Chromium.send(page.locator(".sign-in button"));
      page.waitForURL(address -> !address.contains("/login"));
      if (person.equals("demo-multiplier")) {
        page.navigate(root + "crops");
        assertThat(page.locator("tbody").textContent()).contains("C25-S01");
      } else {
        page.navigate(root + "laboratory");
        assertThat(page.locator("main").textContent()).contains("L25-S04A");
      }
    }
    page.context().close();
  }
}
