package org.kornspur.api.web;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;

/**
 * A person at a form: what is typed and pressed is counted, and what it takes an average typist.
 *
 * <p>Source of the seconds: Card, Moran and Newell, The Keystroke-Level Model for User Performance
 * Time with Interactive Systems, Communications of the ACM 23 (1980) 7, its operators from memory:
 * 0.28 s a key, 1.1 s to point, 0.2 s to press and let go, 0.4 s to move the hand, 1.35 s to think
 * before each field and button.
 */
final class Hands {
  private static final double KEY_S = 0.28;
  private static final double THINK_S = 1.35;
  private static final double HAND_S = 0.4;
  private static final double CLICK_S = 1.1 + 0.2;

  private final Page page;
  private int fields;
  private int presses;
  private int keys;

  Hands(Page page) {
    this.page = page;
  }

  Hands type(String name, String value) {
    Locator field = page.locator("[name='" + name + "']");
    if (field.evaluate("element => element.tagName").equals("SELECT")) {
      field.selectOption(value);
    } else {
      field.fill(value);
      keys += value.length();
    }
    fields++;
    return this;
  }

  Hands press(String step) {
    Chromium.send(page.locator("button:not(.first)[value='" + step + "']"));
    presses++;
    return this;
  }

  /** Records what was checked, and waits until the page says so. */
  Hands record() {
    press("record");
    page.waitForURL(address -> address.contains("recorded="));
    assertThat(page.locator(".notice.good")).isVisible();
    return this;
  }

  void begin() {
    fields = 0;
    presses = 0;
    keys = 0;
  }

  /** The page that shows what it comes to. */
  Locator check() {
    press("check");
    assertThat(page.locator("#checked")).isVisible();
    return page.locator("main");
  }

  /** By the model, with as many clicks before the form. */
  double seconds(int clicksBefore) {
    int clicks = presses + clicksBefore;
    return KEY_S * keys + (THINK_S + HAND_S + KEY_S) * fields + (THINK_S + CLICK_S) * clicks;
  }

  int fields() {
    return fields;
  }

  int presses() {
    return presses;
  }
}
