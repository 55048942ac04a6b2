package org.kornspur.api.page;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.equalTo;

import io.restassured.response.Response;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.function.Predicate;

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
    Instant end = Instant.now().plus(LONGEST_WAIT);
    Response answer = given().get(path);
    while (!isEnough.test(answer)) {
      assertThat(Instant.now()).as("Still %s: %s", path, answer.asString()).isBefore(end);
      try {
        Thread.sleep(200);
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
        throw new IllegalStateException(e);
      }
      answer = given().get(path);
    }
    return answer;
  }
}
