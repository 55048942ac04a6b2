package org.kornspur.api.web;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.microsoft.playwright.Page;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.api.security.Role;
import org.kornspur.api.security.login.AsPerson;
import org.kornspur.api.security.people.TestPeople;
import org.kornspur.api.text.Language;

/**
 * The page of a crop, in a real browser. What each crop's story is: demo-events/ABOUT.md, which is
 * invented.
 */
@ExtendWith(AsPerson.class)
class FieldPageIT extends BrowserTest {

  /** A neighbour's rye some 300 m off, where 500 m are asked for. */
  private static final String TOO_NEAR = "C25-S01";

  /** Volunteers that were destroyed in time. */
  private static final String APART = "C26-S13";

  private static final String AUDITOR = TestPeople.of(Role.AUDITOR);

  private Page open(Screen screen, Language language, String path) {
    Page page = chromium.loggedIn(screen, language, root, AUDITOR).newPage();
    page.navigate(root + path);
    return page;
  }

  @ParameterizedTest
  @CsvSource({"NARROW, ENGLISH", "NARROW, GERMAN", "WIDE, ENGLISH", "WIDE, GERMAN"})
  void fieldsAreWithinReachOfAll(Screen screen, Language language) {
    Page page = chromium.loggedIn(screen, language, root, AUDITOR).newPage();
    for (String crop : List.of(TOO_NEAR, APART, "C25-S02")) {
      page.navigate(root + "crops/" + crop);
      PageCheck.whole(page, "field-" + crop, screen, language);
    }
    page.context().close();
  }

  @ParameterizedTest
  @CsvSource({TOO_NEAR, APART})
  void distancesAreThoseOfTheInterfaceAndDrawnToScale(String crop) {
    List<Float> distancesM =
        given()
            .get("/api/v1/crops/" + crop + "/neighbours")
            .jsonPath()
            .getList("neighbours.distanceM", Float.class);
    assertThat(distancesM).isNotEmpty();
    Page page = open(Screen.WIDE, Language.ENGLISH, "crops/" + crop);
    List<Double> shown =
        page.locator("#sources td.distance").allTextContents().stream()
            .map(text -> Double.parseDouble(text.replace(",", "")))
            .toList();
    assertThat(shown).hasSameSizeAs(distancesM);
    for (int i = 0; i < shown.size(); i++) {
      assertThat(shown.get(i)).isCloseTo(distancesM.get(i), within(0.051));
      // distances are asked for in whole metres, so just too near never reads as enough
      assertThat(Math.floor(shown.get(i))).isEqualTo(Math.floor(distancesM.get(i)));
    }
    List<?> drawn =
        (List<?>)
            page.evaluate(
                """
                () => [...document.querySelectorAll('svg[aria-labelledby=map-title] .way')]
                  .map(way => way.getTotalLength())""");
    double bar =
        ((Number)
                page.evaluate(
                    """
                    () => document.querySelector('svg[aria-labelledby=map-title] .bar')
                      .getBBox().width"""))
            .doubleValue();
    double barM =
        Double.parseDouble(
            page.locator("svg[aria-labelledby=map-title] .bar + text")
                .textContent()
                .replaceAll("[^0-9]", ""));
    assertThat(drawn).isNotEmpty();
    for (int i = 0; i < drawn.size(); i++) {
      double metres = ((Number) drawn.get(i)).doubleValue() * barM / bar;
      // coordinates are written to a tenth of a unit
      assertThat(metres).isCloseTo(distancesM.get(i), within(0.3 * barM / bar));
    }
    page.context().close();
  }

  @Test
  void aSourceThatIsTooNearIsNamedAsSuchInTheGermanTableToo() {
    Page page = open(Screen.WIDE, Language.GERMAN, "crops/" + TOO_NEAR);
    assertThat(page.locator("#sources tbody tr").first().textContent())
        .contains("NB-S01")
        .contains("zu nah");
    assertThat(page.locator("#map-summary").textContent()).contains("500 m");
    page.context().close();
  }

  @Test
  void countsStandBesideTheirCurve() {
    Page page = open(Screen.WIDE, Language.ENGLISH, "crops/C25-S02");
    assertThat(page.locator(".curves figure").count()).isGreaterThan(1);
    assertThat(page.locator(".curves .seen").count()).isGreaterThan(0);
    assertThat(page.locator(".curves figcaption").first().textContent())
        .contains("Counted:")
        .contains("interval");
    page.context().close();
  }
}
