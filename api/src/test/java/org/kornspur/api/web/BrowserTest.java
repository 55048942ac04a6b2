package org.kornspur.api.web;

import com.microsoft.playwright.assertions.PlaywrightAssertions;
import java.io.IOException;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.extension.ExtendWith;
import org.kornspur.api.DemoMachine;
import org.kornspur.api.NeedsProgram;
import org.kornspur.api.Program;

/** A real browser before the machine of the demo; all classes of a process of tests share it. */
@NeedsProgram(Program.CHROMIUM)
@ExtendWith(DemoMachine.class)
abstract class BrowserTest {
  /** How long an expectation or a step of the browser waits, on a busy machine too. */
  static final double PATIENCE_MS = 60_000;

  /** Ends with the process of the tests. Each test takes a visitor of its own. */
  static Chromium chromium;

  final String root = DemoMachine.root();

  @BeforeAll
  static void startBrowser() {
    if (chromium == null) {
      chromium = new Chromium();
      PlaywrightAssertions.setDefaultAssertionTimeout(PATIENCE_MS);
    }
  }

  /** Also what a failed test left open. */
  @AfterEach
  void letVisitorsGo() {
    chromium.letVisitorsGo();
  }

  @BeforeEach
  void waitForTheDemo() throws InterruptedException, IOException {
    DemoLoaded.await();
  }
}
