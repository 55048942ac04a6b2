package org.kornspur.api.page;

import static io.restassured.RestAssured.given;

import io.restassured.path.json.JsonPath;
import io.restassured.response.Response;
import io.restassured.specification.RequestSpecification;
import java.time.Duration;
import java.time.Instant;
import org.kornspur.api.access.AsPerson;
import org.kornspur.api.access.TestPeople;

/** Waits until the invented enterprise has been taken in and judged. */
final class DemoLoaded {
  private static final Duration LONGEST = Duration.ofMinutes(6);

  /** Source: demo-events/ABOUT.md. */
  private static final int LOTS = 542;

  private static final int REFUSED_LINES = 8;

  private DemoLoaded() {}

  static void await() throws InterruptedException {
    Instant end = Instant.now().plus(LONGEST);
    String seen = "";
    while (Instant.now().isBefore(end)) {
      Response lots = asked().get("/api/v1/lots?size=1");
      Response refused = asked().get("/api/v1/quarantine?size=1");
      seen = lots.asString() + refused.asString();
      if (lots.statusCode() == 200 && refused.statusCode() == 200 && isWhole(lots, refused)) {
        return;
      }
      Thread.sleep(500);
    }
    throw new AssertionError("The demo was not taken in within " + LONGEST + ": " + seen);
  }

  private static RequestSpecification asked() {
    return given().header("Authorization", TestPeople.basic(AsPerson.EVERYTHING));
  }

  private static boolean isWhole(Response lots, Response refused) {
    JsonPath list = lots.jsonPath();
    return list.getInt("total") >= LOTS
        && list.getBoolean("asOf.complete")
        && refused.jsonPath().getInt("total") >= REFUSED_LINES;
  }
}
