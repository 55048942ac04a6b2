package org.kornspur.api.web;

import com.microsoft.playwright.assertions.PlaywrightAssertions;
import java.io.IOException;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.extension.ExtendWith;
import org.kornspur.api.DemoMachine;
import org.kornspur.api.NeedsProgram;
import org.kornspur.api.Program;

/** A real browser before the machine of the demo; each class has one of its own. */
@NeedsProgram(Program.CHROMIUM)
@ExtendWith(DemoMachine.class)
abstract class BrowserTest {
  /** How long an expectation or a step of the browser waits, on a busy machine too. */
  static final double PATIENCE_MS = 60_000;

  static Chromium chromium;

  final String root = DemoMachine.root();

  @BeforeAll
  static void startBrowser() {
    chromium = new Chromium();
    PlaywrightAssertions.setDefaultAssertionTimeout(PATIENCE_MS);
  }

  @AfterAll
  static void stopBrowser() {
    chromium.close();
  }

  @BeforeEach
  void waitForTheDemo() throws InterruptedException, IOException {
    DemoLoaded.await();
  }
}
