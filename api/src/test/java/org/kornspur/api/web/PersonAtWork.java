package org.kornspur.api.web;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.BoundingBox;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;

/**
 * A person before a page, whose clicks, typed fields, screens and words are counted. What a task
 * takes is written to {@code target/tasks}, a line of a table each; seconds are those of the
 * browser, without reading and typing, and no test asserts them.
 */
final class PersonAtWork {
  private static final Path FOLDER = Path.of("target", "tasks");

  private final Page page;
  private final long begunAt = System.nanoTime();
  private final Map<String, Integer> screens = new LinkedHashMap<>();
  private final Map<String, Integer> words = new LinkedHashMap<>();
  private int clicks;
  private int fields;

  PersonAtWork(Page page) {
    this.page = page;
  }

  void click(Locator target) {
    reach(target);
    clicks++;
    target.click();
  }

  /** Clicks what leads to another page. */
  void send(Locator button) {
    reach(button);
    clicks++;
    Chromium.send(button);
  }

  void type(Locator field, String text) {
    reach(field);
    fields++;
    field.fill(text);
  }

  /** Types into what has the focus, by the keyboard alone. */
  void typeAndEnter(String text) {
    fields++;
    page.keyboard().type(text);
    page.keyboard().press("Enter");
  }

  /** Looks for something on the page. */
  void reach(Locator target) {
    BoundingBox box = target.boundingBox();
    double scrolled = ((Number) page.evaluate("window.scrollY")).doubleValue();
    int screen =
        (int) Math.ceil(Math.max(1, scrolled + box.y + box.height) / page.viewportSize().height);
    screens.merge(page.url(), screen, Math::max);
    words.put(
        page.url(),
        ((Number)
                page.evaluate(
                    "document.querySelector('main').innerText.split(/\\s+/).filter(w => w).length"))
            .intValue());
  }

  int clicks() {
    return clicks;
  }

  int fields() {
    return fields;
  }

  /** Screens down to the lowest thing that was used, of all pages. */
  int screens() {
    return screens.values().stream().mapToInt(Integer::intValue).sum();
  }

  /** Ends the task and writes down what it took. */
  void done(String task) {
    double seconds = (System.nanoTime() - begunAt) / 1e9;
    String row =
        String.format(
            Locale.ROOT,
            "| %s | %d | %d | %.1f | %d | %d |%n",
            task,
            clicks,
            fields,
            seconds,
            screens(),
            words.values().stream().mapToInt(Integer::intValue).sum());
    try {
      Files.createDirectories(FOLDER);
      Files.writeString(
          FOLDER.resolve(task.toLowerCase(Locale.ROOT).replaceAll("\\W+", "-") + ".md"), row);
    } catch (IOException unwritten) {
      throw new UncheckedIOException(unwritten);
    }
  }
}
