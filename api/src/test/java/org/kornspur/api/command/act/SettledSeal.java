package org.kornspur.api.command.act;

import static io.restassured.RestAssured.given;

import io.restassured.response.Response;
import java.util.ArrayList;
import java.util.List;
import org.kornspur.api.Waiting;
import org.kornspur.api.security.people.TestPeople;

/**
 * The seal of a lot when all that came in is in it, so that a signature does not come too early.
 */
public final class SettledSeal {
  /** Looks that must agree; together they outlast the moment for which the lag is kept. */
  private static final int LOOKS = 10;

  private SettledSeal() {}

  /** Waits for it, as the person sees it. */
  public static String of(String personId, String lot) {
    List<String> looks = new ArrayList<>();
    return Waiting.until(
            () -> sheet(personId, lot),
            sheet -> {
              String seal = isComplete(sheet) ? sheet.jsonPath().getString("seal") : "";
              if (seal.isEmpty() || !looks.contains(seal)) {
                looks.clear();
              }
              looks.add(seal);
              return !seal.isEmpty() && looks.size() >= LOOKS;
            })
        .jsonPath()
        .getString("seal");
  }

  private static Response sheet(String personId, String lot) {
    return given()
        .header("Authorization", TestPeople.basic(personId))
        .pathParam("lot", lot)
        .get("/api/v1/lots/{lot}/release-sheet");
  }

  private static boolean isComplete(Response sheet) {
    return sheet.statusCode() == 200 && sheet.jsonPath().getBoolean("standing.asOf.complete");
  }
}
