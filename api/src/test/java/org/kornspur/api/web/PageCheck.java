package org.kornspur.api.web;

import static org.assertj.core.api.Assertions.assertThat;

import com.deque.html.axecore.args.AxeRunOptions;
import com.deque.html.axecore.playwright.AxeBuilder;
import com.microsoft.playwright.Page;
import java.nio.file.Path;
import java.util.List;
import java.util.function.UnaryOperator;
import org.kornspur.api.text.Language;

/** What is asked of every page, whatever it shows. */
final class PageCheck {
  static final Path PICTURES = Path.of("target", "screenshots");

  private static final List<String> ASKED =
      List.of("wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice");

  private PageCheck() {}

  /**
   * Fails where axe-core finds a violation or the page is wider than the screen. With {@code
   * -Dscreenshots=true} it also takes a picture for a person to look at.
   *
   * @param name of the picture, without its ending
   */
  static void whole(Page page, String name) {
    assertThat(violations(page, axe -> axe.withTags(ASKED)))
        .as("axe-core on %s", page.url())
        .isEmpty();
    fits(page, name);
  }

  /** Fails where colours have too little contrast, on a page whose other colours were looked at. */
  static void contrast(Page page, String name) {
    assertThat(violations(page, axe -> axe.withRules(List.of("color-contrast"))))
        .as("axe-core on %s", page.url())
        .isEmpty();
    fits(page, name);
  }

  /**
   * The same for a page that is looked at on both screens in both languages: axe-core, which takes
   * longest, sees each screen and each language once, with the longer German words on the narrow
   * one.
   */
  static void whole(Page page, String name, Screen screen, Language language) {
    String picture = name + "-" + screen + "-" + language.tag();
    if ((screen == Screen.NARROW) == (language == Language.GERMAN)) {
      whole(page, picture);
    } else {
      fits(page, picture);
    }
  }

  private static void fits(Page page, String name) {
    if (Boolean.getBoolean("screenshots")) {
      page.screenshot(
          new Page.ScreenshotOptions().setPath(PICTURES.resolve(name + ".png")).setFullPage(true));
    }
    assertThat((Integer) page.evaluate("document.documentElement.scrollWidth"))
        .as("width of %s", page.url())
        .isLessThanOrEqualTo(page.viewportSize().width);
  }

  /**
   * What axe-core finds by WCAG 2.2 AA and by its own good practice: rule, then the elements. It
   * runs in the page itself, as there are no frames whose findings a second page would join.
   */
  private static List<String> violations(Page page, UnaryOperator<AxeBuilder> what) {
    assertThat(page.frames()).as("frames of %s", page.url()).hasSize(1);
    AxeRunOptions options = new AxeRunOptions();
    options.setResultTypes(List.of("violations"));
    return what
        .apply(new AxeBuilder(page).setLegacyMode(true).options(options))
        .analyze()
        .getViolations()
        .stream()
        .flatMap(
            rule ->
                rule.getNodes().stream()
                    .map(
                        node ->
                            rule.getId() + ": " + node.getHtml() + " " + node.getFailureSummary()))
        .toList();
  }
}
