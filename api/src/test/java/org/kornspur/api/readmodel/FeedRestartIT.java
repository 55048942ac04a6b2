package org.kornspur.api.readmodel;

import static io.restassured.RestAssured.given;
import static io.restassured.RestAssured.when;
import static org.assertj.core.api.Assertions.assertThat;
import static org.kornspur.api.Waiting.until;

import io.quarkus.test.junit.QuarkusTest;
import io.quarkus.test.junit.TestProfile;
import jakarta.inject.Inject;
import jakarta.inject.Singleton;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.kornspur.api.InProcessProfile;
import org.kornspur.api.kafka.ProcessorsClient;
import org.kornspur.api.rest.InventedFacts;
import org.kornspur.api.security.login.AsPerson;
import org.kornspur.processors.stream.Topics;

/** ReadModel of the running program die of an error; the site says so, and they come back. */
@QuarkusTest
@TestProfile(InProcessProfile.class)
@ExtendWith(AsPerson.class)
class FeedRestartIT {

  @Inject ReadModel readModel;
  @Inject ProcessorsClient processors;
  @Inject AlsoRead also;

  /** Has health ask for one feed more; for none outside of this test. */
  @Singleton
  static class AlsoRead implements ReadsTopics {
    private volatile List<TopicFollower> followers = List.of();

    @Override
    public List<TopicFollower> followers() {
      return followers;
    }
  }

  @BeforeEach
  void waitUntilReady() {
    until(() -> ready() == 200);
  }

  @Test
  void theListOfStandingsIsWholeAfterItsFeedDied() {
    post("before-1", "BEFORE-1");
    until(() -> when().get("/api/v1/lots/BEFORE-1").statusCode() == 200);
    FailsTwice fault = new FailsTwice();
    readModel.changes().add(fault, Optional.empty());
    try {
      post("fatal-1", "FATAL-1");
      until(() -> fault.times.get() >= 1);
      post("fatal-2", "FATAL-2");
      until(() -> fault.times.get() == 2);
    } finally {
      readModel.changes().remove(fault);
    }
    post("after-1", "AFTER-1");
    until(() -> when().get("/api/v1/lots/AFTER-1").statusCode() == 200);
    until(() -> when().get("/api/v1/lots").jsonPath().getBoolean("asOf.complete"));
    assertThat(when().get("/api/v1/lots").jsonPath().getList("items.id", String.class))
        .contains("BEFORE-1", "FATAL-1", "FATAL-2", "AFTER-1")
        .doesNotHaveDuplicates();
    assertThat(ready()).isEqualTo(200);
    assertThat(when().get("/health/live").statusCode()).isEqualTo(200);
  }

  @Test
  void theSiteIsNotReadyUntilTheFeedHasReadEverythingAnew() {
    post("kept-1", "KEPT-1");
    until(() -> when().get("/api/v1/lots/KEPT-1").statusCode() == 200);
    AtomicBoolean broken = new AtomicBoolean();
    Set<String> read = ConcurrentHashMap.newKeySet();
    TopicFollower feed =
        new TopicFollower(
            "injected",
            Topics.STANDINGS.topicName(),
            processors,
            record -> {
              if (broken.get()) {
                throw new OutOfMemoryError("injected by the test");
              }
              read.add(record.key());
            },
            read::clear);
    also.followers = List.of(feed);
    feed.start();
    try {
      until(() -> ready() == 200 && read.contains("lot:KEPT-1"));

      broken.set(true);
      post("lost-1", "LOST-1");
      until(() -> ready() == 503);
      assertThat(when().get("/health/ready").asString())
          .contains("feed injected")
          .contains("failed at " + Instant.now().toString().substring(0, 11))
          .contains("OutOfMemoryError");
      assertThat(feed.isAlive()).isTrue();
      assertThat(feed.isCaughtUp()).isFalse();

      broken.set(false);
      until(() -> ready() == 200);
      assertThat(read).contains("lot:KEPT-1", "lot:LOST-1");
      assertThat(when().get("/health/ready").asString()).doesNotContain("injected");
      assertThat(feed.failure()).isEmpty();
    } finally {
      also.followers = List.of();
      feed.close();
    }
  }

  /** As if there were no memory for two of the changes that it hears. */
  private static final class FailsTwice implements ChangeHub.Listener {
    private final AtomicInteger times = new AtomicInteger();

    @Override
    public boolean offer(ChangeHub.Event event) {
      if (times.get() < 2) {
        times.incrementAndGet();
        throw new OutOfMemoryError("injected by the test");
      }
      return true;
    }

    @Override
    public void mustReload() {}

    @Override
    public void end() {}
  }

  private static int ready() {
    return when().get("/health/ready").statusCode();
  }

  private static void post(String factId, String lotId) {
    given()
        .contentType("application/json")
        .body(InventedFacts.lot(factId, lotId, "SX", 500))
        .post("/api/v1/facts")
        .then()
        .statusCode(202);
  }
}
