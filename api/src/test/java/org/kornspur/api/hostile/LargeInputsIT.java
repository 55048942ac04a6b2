package org.kornspur.api.hostile;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.equalTo;

import io.restassured.path.json.JsonPath;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.apache.kafka.clients.producer.KafkaProducer;
import org.apache.kafka.clients.producer.ProducerRecord;
import org.apache.kafka.common.serialization.ByteArraySerializer;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.kornspur.api.EmptyMachine;
import org.kornspur.api.Waiting;
import org.kornspur.api.security.login.AsPerson;
import org.kornspur.api.security.people.TestPeople;
import org.kornspur.api.web.PostedFacts;
import org.kornspur.ingest.intake.QuarantineEntries;
import org.kornspur.ingest.publish.RecordSize;
import org.kornspur.processors.stream.Topics;

/**
 * What is large, or becomes large on its way, against the real broker, which takes records of one
 * megabyte if nobody tells it otherwise.
 */
@ExtendWith({EmptyMachine.class, AsPerson.class})
class LargeInputsIT {
  private static final int LEVELS = 4;
  private static final int LOTS_EACH = 500;

  @BeforeEach
  void waitUntilReady() {
    PostedFacts.until("/health/ready", answer -> answer.statusCode() == 200);
  }

  @Test
  void aLargeRequestThatIsRefusedIsKept() throws Exception {
    byte[] body = "no fact, ".repeat(400_000).getBytes(StandardCharsets.UTF_8);
    given().contentType("application/json").body(body).post("/api/v1/facts").then().statusCode(422);

    keptWhole(QuarantineEntries.entryId(null, body), body);
  }

  @Test
  void theLargestRecordThatTheTopicTakesIsKeptToo() throws Exception {
    byte[] key = "large".getBytes(StandardCharsets.UTF_8);
    byte[] value = new byte[RecordSize.MOST_FACT_BYTES - 1_000];
    Map<String, Object> settings = new HashMap<>(EmptyMachine.programSettings());
    settings.putAll(RecordSize.ofProducer());
    try (var producer =
        new KafkaProducer<>(settings, new ByteArraySerializer(), new ByteArraySerializer())) {
      producer.send(new ProducerRecord<>(Topics.FACTS.topicName(), key, value));
    }
    keptWhole(QuarantineEntries.entryId(key, value), value);
  }

  /** Read as a stream, since the answer holds the input whole. */
  private void keptWhole(String entryId, byte[] value) throws Exception {
    HttpRequest request =
        HttpRequest.newBuilder(
                URI.create(EmptyMachine.root()).resolve("/api/v1/quarantine/" + entryId))
            .header("Authorization", TestPeople.basic(AsPerson.EVERYTHING))
            .build();
    HttpClient client = HttpClient.newHttpClient();
    Waiting.until(() -> client.send(request, BodyHandlers.discarding()).statusCode() == 200);
    try (InputStream body = client.send(request, BodyHandlers.ofInputStream()).body()) {
      assertThat(body.transferTo(OutputStream.nullOutputStream())).isGreaterThan(value.length);
    }
  }

  /** Each lot is merged from the one before and others of which nothing is known. */
  @Test
  void seedOfThousandsOfUnknownLotsIsJudged() {
    List<String> merges = new ArrayList<>();
    for (int level = 1; level <= LEVELS; level++) {
      merges.add(merge(level, LOTS_EACH));
    }
    PostedFacts.bring(merges);

    JsonPath last =
        PostedFacts.until(
                "/api/v1/lots/MANY-" + LEVELS,
                answer ->
                    answer.statusCode() == 200
                        && answer.jsonPath().getBoolean("asOf.complete")
                        && !answer.jsonPath().getList("inherited").isEmpty())
            .jsonPath();
    assertThat(last.getString("state")).isEqualTo("EVIDENCE_OWED");
    given().get("/health/ready").then().statusCode(200);
  }

  @Test
  void aFactThatNamesTooManyLotsIsRefused() {
    given()
        .contentType("application/json")
        .body(merge(LEVELS + 1, LOTS_EACH + 1))
        .post("/api/v1/facts")
        .then()
        .statusCode(422)
        .body("problems[0].field", equalTo("inputs"))
        .body("problems[0].limit", equalTo("at most 500 elements"));
  }

  private static String merge(int level, int lots) {
    String inputs =
        IntStream.range(0, lots)
            .mapToObj(lot -> lot == 0 ? "MANY-" + (level - 1) : "UNKNOWN-" + level + "-" + lot)
            .map("{\"lotId\": \"%s\", \"massKg\": 10}"::formatted)
            .collect(Collectors.joining(","));
    return """
        {"type": "LotMerge", "intoLotId": "MANY-%d", "inputs": [%s],
         "header": {"factId": "many-%d", "recordedBy": "everything",
           "happenedAt": "2026-01-%02dT00:00:00Z", "recordedAt": "2026-01-%02dT00:00:00Z",
           "sourceDocument": "large inputs"}}"""
        .formatted(level, inputs, level, level, level);
  }
}
