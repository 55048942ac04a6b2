package org.kornspur.api.command.act;

import static io.restassured.RestAssured.given;

import io.restassured.response.Response;
import java.time.Duration;
import java.time.Instant;
import org.kornspur.api.security.people.TestPeople;

/**
 * The seal of a lot when all that came in is in it, so that a signature does not come too early.
 */
public final class SettledSeal {
  private static final Duration LONGEST_WAIT = Duration.ofMinutes(3);

  /** Looks that must agree; together they outlast the moment for which the lag is kept. */
  private static final int LOOKS = 4;

  private static final long BETWEEN_MS = 300;

  private SettledSeal() {}

  /** Waits for it, as the person sees it. */
  public static String of(String personId, String lot) {
    Instant end = Instant.now().plus(LONGEST_WAIT);
    String seal = "";
    int looks = 0;
    while (looks < LOOKS) {
      Response sheet = sheet(personId, lot);
      String now = isComplete(sheet) ? sheet.jsonPath().getString("seal") : "";
      looks = now.isEmpty() ? 0 : now.equals(seal) ? looks + 1 : 1;
      seal = now;
      if (Instant.now().isAfter(end)) {
        throw new AssertionError("Lot " + lot + " does not settle: " + sheet.asString());
      }
      pause();
    }
    return seal;
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

  private static void pause() {
    try {
      Thread.sleep(BETWEEN_MS);
    } catch (InterruptedException interrupted) {
      throw new AssertionError(interrupted);
    }
  }
}
