package org.kornspur.api.web;

import static io.restassured.RestAssured.given;

import io.restassured.RestAssured;
import io.restassured.path.json.JsonPath;
import io.restassured.response.Response;
import io.restassured.specification.RequestSpecification;
import java.io.IOException;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.kornspur.api.packaged.DemoFacts;
import org.kornspur.api.security.login.AsPerson;
import org.kornspur.api.security.people.TestPeople;

/** Waits until the invented enterprise has been taken in, judged and signed. */
public final class DemoLoaded {
  private static final Duration LONGEST = Duration.ofMinutes(10);

  /** Looks that must agree; together they outlast the moment for which the lag is kept. */
  private static final int LOOKS = 4;

  /** Source: demo-events/ABOUT.md. */
  private static final int LOTS = 542;

  private static final int REFUSED_LINES = 8;

  /** What is made from the facts beside the standings, each on a way of its own. */
  private static final List<String> INDEXES =
      List.of("kornspur_standings", "kornspur_samples", "kornspur_labels", "kornspur_events");

  private static int settledAtPort;

  private DemoLoaded() {}

  /** Waits for it; at one machine, for long only once. */
  public static void await() throws InterruptedException, IOException {
    int needed = RestAssured.port == settledAtPort ? 1 : LOOKS;
    long facts = needed == 1 ? 0 : DemoFacts.lines().size();
    Instant end = Instant.now().plus(LONGEST);
    String before = "";
    int looks = 0;
    while (looks < needed) {
      List<Response> answers =
          Stream.of("lots?size=1", "quarantine?size=1", "log")
              .map(path -> asked().get("/api/v1/" + path))
              .toList();
      String now = indexes();
      looks = !isWhole(answers, facts) ? 0 : now.equals(before) ? looks + 1 : 1;
      before = now;
      if (Instant.now().isAfter(end)) {
        throw new AssertionError(
            "The demo was not taken in within %s: %s %s"
                .formatted(LONGEST, now, answers.stream().map(Response::asString).toList()));
      }
      if (looks < needed) {
        Thread.sleep(300);
      }
    }
    settledAtPort = RestAssured.port;
  }

  private static RequestSpecification asked() {
    return given().header("Authorization", TestPeople.basic(AsPerson.EVERYTHING));
  }

  private static boolean isWhole(List<Response> answers, long facts) {
    if (!answers.stream().allMatch(answer -> answer.statusCode() == 200)) {
      return false;
    }
    JsonPath lots = answers.get(0).jsonPath();
    return lots.getInt("total") >= LOTS
        && lots.getBoolean("asOf.complete")
        && answers.get(1).jsonPath().getInt("total") >= REFUSED_LINES
        && answers.get(2).jsonPath().getLong("signed") >= facts;
  }

  private static String indexes() {
    return asked()
        .get("/metrics")
        .asString()
        .lines()
        .filter(line -> INDEXES.stream().anyMatch(line::startsWith))
        .collect(Collectors.joining(", "));
  }
}
