package org.kornspur.api.web.trace;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;
import static org.kornspur.api.Waiting.until;

import io.restassured.http.ContentType;
import java.util.regex.Pattern;
import org.hamcrest.Matchers;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.kornspur.api.EmptyMachine;
import org.kornspur.api.command.act.InventedFitLot;
import org.kornspur.api.rest.InventedFacts;
import org.kornspur.api.security.login.AsPerson;

/**
 * The verdict on the trace page is in the language of the page, and what is recorded in English is
 * marked as English (WCAG 2.2, success criterion 3.1.2, Language of Parts).
 */
@ExtendWith(EmptyMachine.class)
@ExtendWith(AsPerson.class)
class TracePageIT {
  private static final Pattern ENGLISH = Pattern.compile("<(\\w+) lang=\"en\">.*?</\\1>");
  private static final Pattern VERDICT = Pattern.compile("<p id=\"standing\">(.*?)</p>");

  @Test
  void theVerdictOfALotIsGermanOnTheGermanPage() {
    until(() -> given().get("/health/ready"), answer -> answer.statusCode() == 200);
    bring("[" + InventedFitLot.laboratory() + "]");
    bring("[" + String.join(", ", InventedFitLot.facts("T-FIT")) + "]");
    bring(InventedFacts.lot("t-owed", "T-OWED", "SX", 100));
    untilState("T-FIT", "FIT");
    untilState("T-OWED", "EVIDENCE_OWED");

    assertThat(verdict("T-FIT")).endsWith("Prüfpunkte erfüllt");
    assertThat(verdict("T-OWED")).contains("Keimfähigkeit");
    assertThat(withoutEnglish(german("T-FIT"))).doesNotContain(" is fit").doesNotContain("gates");
    assertThat(withoutEnglish(german("T-OWED"))).doesNotContain("waits for evidence");
  }

  private static String verdict(String lot) {
    return VERDICT.matcher(german(lot)).results().findFirst().orElseThrow().group(1);
  }

  private static String withoutEnglish(String page) {
    return ENGLISH.matcher(page).replaceAll("");
  }

  private static String german(String lot) {
    return given()
        .header("Accept-Language", "de")
        .queryParam("q", lot)
        .get("/trace")
        .then()
        .statusCode(200)
        .extract()
        .asString();
  }

  private static void bring(String facts) {
    given()
        .contentType(ContentType.JSON)
        .body(facts)
        .post("/api/v1/facts")
        .then()
        .statusCode(Matchers.allOf(Matchers.greaterThanOrEqualTo(200), Matchers.lessThan(300)));
  }

  private static void untilState(String lot, String state) {
    until(
        () -> given().get("/api/v1/lots/" + lot),
        answer -> answer.statusCode() == 200 && state.equals(answer.jsonPath().getString("state")));
  }
}
