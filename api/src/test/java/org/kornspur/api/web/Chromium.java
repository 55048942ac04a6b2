package org.kornspur.api.web;

import com.microsoft.playwright.APIResponse;
import com.microsoft.playwright.Browser;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.BrowserType;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.Playwright;
import com.microsoft.playwright.options.RequestOptions;
import java.util.List;
import java.util.Map;
import org.kornspur.api.Program;
import org.kornspur.api.security.people.TestPeople;
import org.kornspur.api.text.Language;

/** The real browser of this machine; nothing is downloaded. */
final class Chromium {
  private static final double LONGEST_START_MS = 180_000;

  private final Browser browser;

  Chromium() {
    Playwright playwright =
        Playwright.create(
            new Playwright.CreateOptions().setEnv(Map.of("PLAYWRIGHT_SKIP_BROWSER_DOWNLOAD", "1")));
    // without a sandbox, because the browser refuses to start one for root in a container
    browser =
        playwright
            .chromium()
            .launch(
                new BrowserType.LaunchOptions()
                    .setExecutablePath(Program.CHROMIUM.find().orElseThrow())
                    .setTimeout(LONGEST_START_MS)
                    .setArgs(List.of("--no-sandbox", "--disable-dev-shm-usage")));
  }

  /** A visitor with this screen and language, who has not been here before. */
  BrowserContext visitor(Screen screen, Language language) {
    return patient(
        browser.newContext(
            new Browser.NewContextOptions()
                .setViewportSize(screen.width, screen.height)
                .setHasTouch(screen == Screen.NARROW)
                .setLocale(language.locale().toLanguageTag())));
  }

  private static BrowserContext patient(BrowserContext context) {
    context.setDefaultTimeout(BrowserTest.PATIENCE_MS);
    context.setDefaultNavigationTimeout(BrowserTest.PATIENCE_MS);
    return context;
  }

  /** A person of {@link TestPeople} who has signed in by the page for it. */
  Page signedIn(Screen screen, Language language, String root, String personId) {
    Page page = visitor(screen, language).newPage();
    page.navigate(root + "login");
    page.locator("#user").fill(personId);
    page.locator("#password").fill(TestPeople.password());
    send(page.locator(".sign-in button"));
    page.waitForURL(address -> !address.contains("/login"));
    return page;
  }

  /**
   * Presses the button of a form whose answer leads to another page. The click itself does not wait
   * for that page: the driver of the browser may hear of a redirection when its page is there
   * already, and would wait for another in vain. So what comes next must wait for what it expects.
   */
  static void send(Locator button) {
    button.click(new Locator.ClickOptions().setNoWaitAfter(true));
  }

  /** The same without the page for it, for tests that begin beyond it. */
  BrowserContext loggedIn(Screen screen, Language language, String root, String personId) {
    BrowserContext person = visitor(screen, language);
    logIn(person, root, personId);
    return person;
  }

  /** The same in a browser that runs no script. */
  BrowserContext loggedInWithoutScript(Screen screen, String root, String personId) {
    BrowserContext person =
        patient(
            browser.newContext(
                new Browser.NewContextOptions()
                    .setViewportSize(screen.width, screen.height)
                    .setJavaScriptEnabled(false)
                    .setLocale(Language.ENGLISH.locale().toLanguageTag())));
    logIn(person, root, personId);
    return person;
  }

  /** Logs in, in place of whoever was. */
  static void logIn(BrowserContext person, String root, String personId) {
    person.clearCookies();
    APIResponse answer =
        person
            .request()
            .post(
                root + "api/v1/session",
                RequestOptions.create()
                    .setTimeout(BrowserTest.PATIENCE_MS)
                    .setData(Map.of("personId", personId, "password", TestPeople.password())));
    if (!answer.ok()) {
      throw new AssertionError(personId + " could not log in: " + answer.text());
    }
  }

  /** Closes all their pages. */
  void letVisitorsGo() {
    List.copyOf(browser.contexts()).forEach(BrowserContext::close);
  }
}
