package org.kornspur.api.kafka;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.ExecutionException;
import org.apache.kafka.clients.admin.Admin;
import org.apache.kafka.clients.admin.NewTopic;
import org.apache.kafka.clients.consumer.KafkaConsumer;
import org.apache.kafka.clients.consumer.OffsetAndMetadata;
import org.apache.kafka.clients.producer.KafkaProducer;
import org.apache.kafka.clients.producer.ProducerRecord;
import org.apache.kafka.common.TopicPartition;
import org.apache.kafka.common.errors.AuthorizationException;
import org.apache.kafka.common.errors.GroupAuthorizationException;
import org.apache.kafka.common.errors.TopicAuthorizationException;
import org.apache.kafka.common.serialization.ByteArrayDeserializer;
import org.apache.kafka.common.serialization.ByteArraySerializer;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kornspur.api.kafka.embedded.BrokerLogins;
import org.kornspur.api.kafka.embedded.EmbeddedBroker;
import org.kornspur.processors.stream.Topics;

/** What the user of client.properties may do on a real broker, and what the broker refuses it. */
class TopicRightsIT {
  private static final byte[] RECORD = "a record".getBytes(StandardCharsets.UTF_8);

  private static EmbeddedBroker broker;
  private static BrokerLogins logins;

  @BeforeAll
  static void startBroker(@TempDir Path folder) throws Exception {
    logins = BrokerLogins.in(folder);
    broker = EmbeddedBroker.start(folder, 0, logins);
    try (Admin admin = Admin.create(settings(broker, logins.program()))) {
      admin
          .createTopics(
              Topics.all().stream()
                  .map(topic -> new NewTopic(topic.topicName(), 1, (short) 1))
                  .toList())
          .all()
          .get();
      TopicRights.grant(admin, List.of("User:client"));
      TopicRights.grant(admin, List.of("User:client"));
    }
  }

  @AfterAll
  static void stopBroker() {
    broker.close();
  }

  static Map<String, Object> settings(EmbeddedBroker broker, BrokerLogins.Login login) {
    Map<String, Object> settings = new HashMap<>(login.brokerSettings());
    settings.put("bootstrap.servers", broker.bootstrapServers());
    return settings;
  }

  @Test
  void aClientWritesFactsAndRefusedInputAndNoTopicOfThePrograms() throws Exception {
    Set<Topics> written = new HashSet<>();
    try (KafkaProducer<byte[], byte[]> producer = producer(logins.client())) {
      for (Topics topic : Topics.all()) {
        try {
          producer.send(new ProducerRecord<>(topic.topicName(), RECORD)).get();
          written.add(topic);
        } catch (ExecutionException refused) {
          assertThat(refused).hasCauseInstanceOf(TopicAuthorizationException.class);
        }
      }
    }
    assertThat(written).containsExactlyInAnyOrder(Topics.FACTS, Topics.QUARANTINE);
  }

  @Test
  void theProgramWritesEveryTopic() throws Exception {
    try (KafkaProducer<byte[], byte[]> producer = producer(logins.program())) {
      for (Topics topic : Topics.all()) {
        producer.send(new ProducerRecord<>(topic.topicName(), RECORD)).get();
      }
    }
  }

  @Test
  void aClientReadsWhatVerifyReadsAndNoNamesOfPersons() {
    for (Topics topic : Topics.all()) {
      TopicPartition partition = new TopicPartition(topic.topicName(), 0);
      try (KafkaConsumer<byte[], byte[]> consumer = consumer(Map.of())) {
        if (Set.of(Topics.FACTS, Topics.CHAIN, Topics.CHECKPOINTS).contains(topic)) {
          assertThat(consumer.endOffsets(List.of(partition))).containsKey(partition);
        } else {
          consumer.assign(List.of(partition));
          consumer.seek(partition, 0);
          assertThatThrownBy(() -> consumer.poll(Duration.ofSeconds(20)))
              .as(topic.topicName())
              .isInstanceOf(TopicAuthorizationException.class);
        }
      }
    }
  }

  /** Who moves the processors' position past a fact keeps it from being judged. */
  @Test
  void aClientMovesNoPositionOfTheProcessors() {
    TopicPartition facts = new TopicPartition(Topics.FACTS.topicName(), 0);
    try (KafkaConsumer<byte[], byte[]> consumer = consumer(Map.of("group.id", "kornspur"))) {
      consumer.assign(List.of(facts));
      assertThatThrownBy(() -> consumer.commitSync(Map.of(facts, new OffsetAndMetadata(1))))
          .isInstanceOf(GroupAuthorizationException.class);
    }
  }

  @Test
  void aClientGivesItselfNoRights() {
    try (Admin admin = Admin.create(settings(broker, logins.client()))) {
      assertThatThrownBy(() -> TopicRights.grant(admin, List.of("User:client")))
          .isInstanceOf(IllegalStateException.class)
          .hasRootCauseInstanceOf(AuthorizationException.class);
      assertThatThrownBy(() -> admin.deleteTopics(List.of(Topics.FACTS.topicName())).all().get())
          .hasCauseInstanceOf(AuthorizationException.class);
    }
  }

  private static KafkaProducer<byte[], byte[]> producer(BrokerLogins.Login login) {
    return new KafkaProducer<>(
        settings(broker, login), new ByteArraySerializer(), new ByteArraySerializer());
  }

  private static KafkaConsumer<byte[], byte[]> consumer(Map<String, Object> further) {
    Map<String, Object> settings = settings(broker, logins.client());
    settings.putAll(further);
    return new KafkaConsumer<>(settings, new ByteArrayDeserializer(), new ByteArrayDeserializer());
  }
}
