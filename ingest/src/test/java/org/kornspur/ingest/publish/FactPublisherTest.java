package org.kornspur.ingest.publish;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CompletionException;
import java.util.stream.Stream;
import org.apache.avro.specific.SpecificRecord;
import org.apache.kafka.clients.consumer.ConsumerConfig;
import org.apache.kafka.clients.consumer.KafkaConsumer;
import org.apache.kafka.common.TopicPartition;
import org.apache.kafka.common.serialization.StringDeserializer;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.kornspur.contract.FactHeader;
import org.kornspur.contract.MoistureTest;
import org.kornspur.contract.QuarantineEntry;
import org.kornspur.contract.QuarantineOrigin;
import org.kornspur.contract.QuarantineState;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.intake.QuarantineEntries;
import org.kornspur.ingest.problem.IdProblem;
import org.kornspur.ingest.wire.AvroDeserializer;

/** Against a real broker. */
@Timeout(600)
class FactPublisherTest {

  @TempDir static Path folder;

  private static OneBroker broker;

  @BeforeAll
  static void startBroker() throws Exception {
    broker = OneBroker.start(folder);
  }

  @AfterAll
  static void stopBroker() {
    broker.close();
  }

  @Test
  void factsAndEntriesArriveUnderTheirIds() {
    QuarantineEntry entry =
        QuarantineEntries.held(
            QuarantineOrigin.FILE,
            "x.csv:2",
            Instant.parse("2024-09-03T12:00:00.123456Z"),
            List.of(Problem.of("withdrawnFactId", "f-1", new IdProblem.WithdrawsItself())),
            null,
            "a,b".getBytes(StandardCharsets.UTF_8));
    QuarantineEntry discarded =
        QuarantineEntry.newBuilder(sentBy("grower-a", entry))
            .setState(QuarantineState.DISCARDED)
            .setDecidedBy("quality")
            .setDecidedAt(Instant.parse("2024-09-04T12:00:00.123Z"))
            .setDecisionReason("sent by mistake")
            .build();
    try (FactPublisher publisher = FactPublisher.connect(settings(broker.bootstrap()))) {
      for (int number = 0; number < 5000; number++) {
        publisher.accept(fact("f-" + number));
      }
      publisher.refuse(entry);
      publisher.refuse(sentBy("grower-a", entry));
      publisher.refuse(sentBy("grower-b", entry));
      publisher.refuse(discarded);
    }

    Map<String, SpecificRecord> facts = read(FactPublisher.FACTS_TOPIC, 5000);
    assertThat(facts).hasSize(5000).containsEntry("f-0", fact("f-0"));
    assertThat(facts).containsEntry("f-4999", fact("f-4999"));
    String entryId = entry.getEntryId();
    assertThat(read(FactPublisher.QUARANTINE_TOPIC, 4))
        .as("none takes the place of another in the compacted topic")
        .containsOnly(
            Map.entry(entryId, entry),
            Map.entry(entryId + "|by|grower-a", sentBy("grower-a", entry)),
            Map.entry(entryId + "|by|grower-b", sentBy("grower-b", entry)),
            Map.entry(entryId + "|decided", discarded));
  }

  private static QuarantineEntry sentBy(String personId, QuarantineEntry entry) {
    return QuarantineEntry.newBuilder(entry).setSubmittedBy(personId).build();
  }

  @Test
  void oneFactIsAnsweredForByItself() {
    try (FactPublisher publisher = FactPublisher.connect(settings(broker.bootstrap()))) {
      publisher.publish(fact("alone")).join();

      assertThatThrownBy(
              () ->
                  publisher.publish(new MoistureTest(header("hole"), null, null, 1.0, null)).join())
          .isInstanceOf(CompletionException.class)
          .cause()
          .isInstanceOf(PublishFailed.class)
          .hasMessageContaining("hole did not reach topic kornspur.facts")
          .hasMessageContaining("MoistureTest");
      publisher.accept(fact("alone-2"));
    }
  }

  @Test
  void aBrokerThatDoesNotAnswerIsSaidWithTheFact() {
    Map<String, Object> settings = settings("127.0.0.1:9");
    settings.put("max.block.ms", 500);
    FactPublisher publisher = FactPublisher.connect(settings);
    publisher.accept(fact("lost"));

    assertThatThrownBy(() -> publisher.accept(fact("next")))
        .isInstanceOfSatisfying(
            PublishFailed.class, failed -> assertThat(failed.id()).isEqualTo("lost"));
    assertThatThrownBy(publisher::close).isInstanceOf(PublishFailed.class);
    assertThatThrownBy(
            () -> {
              try (FactPublisher again = FactPublisher.connect(settings)) {
                again.accept(fact("lost-1"));
                again.accept(fact("lost-2"));
              }
            })
        .isInstanceOf(PublishFailed.class);
  }

  private static Map<String, Object> settings(String bootstrap) {
    Map<String, Object> settings = new HashMap<>();
    settings.put("bootstrap.servers", bootstrap);
    settings.put("kornspur.value.serializer", SharedRegistry.class.getName());
    return settings;
  }

  private static Map<String, SpecificRecord> read(String topic, int expected) {
    Map<String, Object> settings =
        Map.of(
            ConsumerConfig.BOOTSTRAP_SERVERS_CONFIG,
            broker.bootstrap(),
            ConsumerConfig.AUTO_OFFSET_RESET_CONFIG,
            "earliest");
    Map<String, SpecificRecord> found = new LinkedHashMap<>();
    try (KafkaConsumer<String, SpecificRecord> consumer =
        new KafkaConsumer<>(
            settings, new StringDeserializer(), new AvroDeserializer(SharedRegistry.REGISTRY))) {
      consumer.assign(
          Stream.iterate(0, number -> number + 1)
              .limit(4)
              .map(number -> new TopicPartition(topic, number))
              .toList());
      long until = System.nanoTime() + Duration.ofMinutes(2).toNanos();
      while (found.size() < expected && System.nanoTime() < until) {
        consumer
            .poll(Duration.ofMillis(200))
            .forEach(
                message -> {
                  if (!message.key().startsWith("alone")) {
                    found.put(message.key(), message.value());
                  }
                });
      }
    }
    return found;
  }

  private static MoistureTest fact(String factId) {
    return new MoistureTest(header(factId), "L", "S", 13.5, "E");
  }

  private static FactHeader header(String factId) {
    Instant time = Instant.parse("2024-09-02T10:00:00Z");
    return new FactHeader(factId, "lab-03", time, time, "report", null, null);
  }
}
