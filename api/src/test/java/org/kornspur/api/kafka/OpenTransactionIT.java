package org.kornspur.api.kafka;

import static io.restassured.RestAssured.given;
import static io.restassured.RestAssured.when;
import static org.assertj.core.api.Assertions.assertThat;
import static org.kornspur.api.Waiting.until;

import io.restassured.path.json.JsonPath;
import java.time.Duration;
import java.time.Instant;
import java.util.HashMap;
import java.util.Map;
import org.apache.avro.specific.SpecificRecord;
import org.apache.kafka.clients.producer.KafkaProducer;
import org.apache.kafka.clients.producer.ProducerRecord;
import org.apache.kafka.common.serialization.StringSerializer;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.kornspur.api.EmptyMachine;
import org.kornspur.api.rest.InventedFacts;
import org.kornspur.api.security.login.AsPerson;
import org.kornspur.ingest.json.FactParser;
import org.kornspur.ingest.json.ReadResult;
import org.kornspur.ingest.wire.AvroSerdes;
import org.kornspur.processors.stream.Topics;

/** Another program writes facts in a transaction, and is slow to end it. */
@ExtendWith({EmptyMachine.class, AsPerson.class})
class OpenTransactionIT {
  private static final String LISTS = "/api/v1/lots?size=1";

  /** Enough for the processors to read whatever they may. */
  private static final Duration WATCHED = Duration.ofSeconds(8);

  @BeforeEach
  void waitUntilAllIsIn() {
    until(() -> when().get("/health/ready").statusCode() == 200 && asOf().getBoolean("complete"));
  }

  @Test
  void noAnswerIsCompleteWhileATransactionHoldsFactsBack() {
    try (KafkaProducer<String, SpecificRecord> other = transactional("another-program")) {
      other.beginTransaction();
      send(other, InventedFacts.lot("held-1", "HELD-1", "SX", 500));
      assertThat(post(InventedFacts.lot("behind-1", "BEHIND-1", "SX", 500))).isEqualTo(202);

      Instant end = Instant.now().plus(WATCHED);
      while (Instant.now().isBefore(end)) {
        JsonPath asOf = asOf();
        assertThat(asOf.getBoolean("complete")).as(asOf.prettify()).isFalse();
      }
      assertThat(when().get("/api/v1/lots/HELD-1").statusCode()).isEqualTo(404);
      JsonPath held = asOf();
      assertThat(held.getLong("heldByOpenTransaction")).isBetween(1L, 2L);
      assertThat(held.getLong("recordsWaiting"))
          .isGreaterThanOrEqualTo(held.getLong("heldByOpenTransaction"));
      assertThat(held.getString("note")).contains("transaction").contains("abort");

      other.commitTransaction();
    }
    awaitRest();
    assertThat(when().get("/api/v1/lots/HELD-1").statusCode()).isEqualTo(200);
    assertThat(when().get("/api/v1/lots/BEHIND-1").statusCode()).isEqualTo(200);
  }

  @Test
  void anAbortedTransactionLeavesNothingBehind() {
    try (KafkaProducer<String, SpecificRecord> other = transactional("a-program-that-aborts")) {
      other.beginTransaction();
      send(other, InventedFacts.lot("aborted-1", "ABORTED-1", "SX", 500));
      other.abortTransaction();
    }
    awaitRest();
    assertThat(when().get("/api/v1/lots/ABORTED-1").statusCode()).isEqualTo(404);
  }

  private static void awaitRest() {
    until(
        () -> {
          JsonPath asOf = asOf();
          return asOf.getBoolean("complete") && asOf.getLong("heldByOpenTransaction") == 0;
        });
  }

  private KafkaProducer<String, SpecificRecord> transactional(String id) {
    Map<String, Object> settings = new HashMap<>(EmptyMachine.programSettings());
    settings.put("transactional.id", id);
    KafkaProducer<String, SpecificRecord> producer =
        new KafkaProducer<>(settings, new StringSerializer(), AvroSerdes.serializer(settings));
    producer.initTransactions();
    return producer;
  }

  private static void send(KafkaProducer<String, SpecificRecord> producer, String json) {
    ReadResult.Fact read = (ReadResult.Fact) FactParser.accept(json);
    var unused =
        producer.send(
            new ProducerRecord<>(
                Topics.FACTS.topicName(),
                JsonPath.from(json).getString("header.factId"),
                read.fact()));
    producer.flush();
  }

  private static JsonPath asOf() {
    String answer = when().get(LISTS).asString();
    return JsonPath.from(answer).setRootPath("asOf");
  }

  private static int post(String fact) {
    return given().contentType("application/json").body(fact).post("/api/v1/facts").statusCode();
  }
}
