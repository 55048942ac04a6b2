package org.kornspur.api.web;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.ColorScheme;
import com.microsoft.playwright.options.Media;
import java.io.IOException;
import java.util.List;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.kornspur.api.security.Role;
import org.kornspur.api.security.people.TestPeople;
import org.kornspur.api.text.Language;

/** A page on paper: what is read there, and nothing that is only clicked. */
class PrintedPageIT extends BrowserTest {
  /** Width of A4 less its margins, in pixels of 1/96 inch. */
  private static final int PAPER = 680;

  private static final String WIDEST =
      """
      () => Math.ceil(Math.max(...[...document.querySelectorAll('main *')]
          .filter(one => one.checkVisibility())
          .map(one => one.getBoundingClientRect().right)))
      """;

  @ParameterizedTest
  @EnumSource(Language.class)
  void aLotHasNoNavigationAndFits(Language language) throws IOException {
    Page page =
        chromium.loggedIn(Screen.WIDE, language, root, TestPeople.of(Role.QUALITY)).newPage();
    page.setViewportSize(PAPER, 900);
    page.navigate(root + "lots/L24-S05");
    Locator met = page.locator(".gate.met").first();
    assertThat(isRead(met)).as("on the screen it is behind a click").isFalse();
    page.emulateMedia(
        new Page.EmulateMediaOptions().setMedia(Media.PRINT).setColorScheme(ColorScheme.DARK));

    for (String clicked : List.of(".top", ".here", ".ways", ".mend", "main .button")) {
      assertThat(page.locator(clicked).all())
          .as(clicked)
          .isNotEmpty()
          .allSatisfy(one -> assertThat(one.isVisible()).isFalse());
    }
    assertThat(isRead(met)).isTrue();
    assertThat((Integer) page.evaluate(WIDEST)).isLessThanOrEqualTo(PAPER);
    assertThat(page.evaluate("getComputedStyle(document.body).color"))
        .as("dark on light paper")
        .isEqualTo("rgb(28, 35, 32)");

    try (PDDocument paper = Loader.loadPDF(page.pdf(new Page.PdfOptions().setFormat("A4")))) {
      assertThat(paper.getNumberOfPages()).isLessThanOrEqualTo(5);
      assertThat(new PDFTextStripper().getText(paper))
          .contains("L24-S05", "MARKER-2026-S05")
          .doesNotContain("Kornspur", "Invented quality");
    }
    page.context().close();
  }

  private static boolean isRead(Locator one) {
    return (Boolean) one.evaluate("one => one.checkVisibility()");
  }
}
