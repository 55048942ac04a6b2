package org.kornspur.api.web;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;

import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.FilePayload;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.extension.ExtendWith;
import org.kornspur.api.EmptyMachine;
import org.kornspur.api.NeedsProgram;
import org.kornspur.api.Program;
import org.kornspur.api.security.login.AsPerson;

/** A real browser before a site that knows only what its tests bring. */
@NeedsProgram(Program.CHROMIUM)
@ExtendWith({EmptyMachine.class, AsPerson.class})
abstract class EmptySiteTest {
  static final String XLSX = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";

  final String root = EmptyMachine.root();

  @BeforeAll
  static void startBrowser() {
    BrowserTest.startBrowser();
  }

  @AfterEach
  void letVisitorsGo() {
    BrowserTest.chromium.letVisitorsGo();
  }

  @BeforeEach
  void waitUntilReady() {
    PostedFacts.until("/health/ready", answer -> answer.statusCode() == 200);
  }

  /** Sends a spreadsheet and waits for what the page tells of it. */
  void send(Page page, String name, String type, byte[] content) {
    page.navigate(root + "files");
    page.locator("#file").setInputFiles(new FilePayload(name, type, content));
    page.locator("form[enctype] button").click();
    assertThat(page.locator("h1")).hasText(name);
    assertThat(page.locator("#told")).isVisible();
  }
}
