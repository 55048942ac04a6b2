package org.kornspur.api.web;

import static io.restassured.RestAssured.given;
import static org.hamcrest.Matchers.equalTo;

import io.restassured.response.Response;
import java.util.List;
import java.util.function.Predicate;
import org.kornspur.api.Waiting;

/** Facts that a test brings over the interface, and what it waits for then. */
public final class PostedFacts {
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
    return Waiting.until(() -> given().get(path), isEnough);
  }
}
