package org.kornspur.api.web;

import static io.restassured.RestAssured.given;
import static org.awaitility.Awaitility.await;
import static org.hamcrest.Matchers.equalTo;

import io.restassured.response.Response;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.Predicate;
import org.awaitility.core.ConditionTimeoutException;

/** Facts that a test brings over the interface, and what it waits for then. */
public final class PostedFacts {
  private static final Duration LONGEST_WAIT = Duration.ofMinutes(3);

  private PostedFacts() {}

  /** Posts facts, each as a JSON object; none may be refused. */
  public static void bring(List<String> facts) {
    given()
        .contentType("application/json")
        .body("[" + String.join(",", facts) + "]")
        .post("/api/v1/facts")
        .then()
        .body("refused", equalTo(0))
        .statusCode(200);
  }

  /** The first answer of an address that satisfies. */
  public static Response until(String path, Predicate<Response> isEnough) {
    AtomicReference<Response> last = new AtomicReference<>();
    try {
      return await()
          .atMost(LONGEST_WAIT)
          .pollDelay(Duration.ZERO)
          .until(() -> last.updateAndGet(before -> given().get(path)), isEnough);
    } catch (ConditionTimeoutException late) {
      throw new AssertionError("Still %s: %s".formatted(path, last.get().asString()), late);
    }
  }
}
