package org.kornspur.api.web;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;

/** A person at a form: what is typed and pressed is counted. */
final class Hands {
  private final Page page;
  private int fields;
  private int presses;

  Hands(Page page) {
    this.page = page;
  }

  Hands type(String name, String value) {
    Locator field = page.locator("[name='" + name + "']");
    if (field.evaluate("element => element.tagName").equals("SELECT")) {
      field.selectOption(value);
    } else {
      field.fill(value);
    }
    fields++;
    return this;
  }

  Hands press(String step) {
    Chromium.send(page.locator("button:not(.first)[value='" + step + "']"));
    presses++;
    return this;
  }

  void begin() {
    fields = 0;
    presses = 0;
  }

  /** The page that shows what it comes to. */
  Locator check() {
    press("check");
    assertThat(page.locator("#checked")).isVisible();
    return page.locator("main");
  }

  int fields() {
    return fields;
  }

  int presses() {
    return presses;
  }
}
