package org.kornspur.api.kafka;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.awaitility.Awaitility.await;

import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.ExecutionException;
import org.apache.kafka.clients.admin.Admin;
import org.apache.kafka.clients.admin.Config;
import org.apache.kafka.clients.admin.NewTopic;
import org.apache.kafka.clients.consumer.ConsumerRecord;
import org.apache.kafka.clients.consumer.KafkaConsumer;
import org.apache.kafka.clients.producer.KafkaProducer;
import org.apache.kafka.clients.producer.ProducerRecord;
import org.apache.kafka.common.TopicPartition;
import org.apache.kafka.common.config.ConfigResource;
import org.apache.kafka.common.errors.RecordTooLargeException;
import org.apache.kafka.common.serialization.ByteArrayDeserializer;
import org.apache.kafka.common.serialization.ByteArraySerializer;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kornspur.api.kafka.embedded.BrokerLogins;
import org.kornspur.api.kafka.embedded.EmbeddedBroker;
import org.kornspur.processors.stream.Topics;

/**
 * Topics of a site that ran before, on a real broker. Kafka takes 1,048,588 bytes if not told
 * otherwise: Apache Kafka Documentation, "Topic Configs", max.message.bytes.
 */
class EarlierTopicSettingsIT {
  private static final String ROOM = "max.message.bytes";
  private static final String STORE = "kornspur-dossiers-changelog";
  private static final String FOREIGN = "another-dossiers-changelog";

  @Test
  void earlierTopicsAreGivenRoomAndNoneIsTakenAway(@TempDir Path folder) throws Exception {
    String facts = Topics.FACTS.topicName();
    String chain = Topics.CHAIN.topicName();
    String people = Topics.PEOPLE.topicName();
    BrokerLogins logins = BrokerLogins.in(folder);
    try (EmbeddedBroker broker = EmbeddedBroker.start(folder, 0, logins);
        Admin admin = Admin.create(TopicRightsIT.settings(broker, logins.program()))) {
      admin
          .createTopics(
              List.of(
                  topic(facts, Map.of("retention.ms", "-1")),
                  topic(chain, Map.of(ROOM, "67108864")),
                  topic(people, Map.of("cleanup.policy", "compact")),
                  topic(STORE, Map.of("cleanup.policy", "compact")),
                  topic(FOREIGN, Map.of())))
          .all()
          .get();
      untilKnown(admin, List.of(facts, chain, people, STORE, FOREIGN));
      assertThat(setting(admin, facts, ROOM)).isEqualTo("1048588");

      Set<String> existing = admin.listTopics().names().get();
      EarlierTopicSettings.make(admin, existing, "kornspur");

      untilTaken(admin, facts);
      assertThat(setting(admin, people, ROOM)).isEqualTo(Integer.toString(16 * 1024 * 1024));
      assertThat(setting(admin, STORE, ROOM)).isEqualTo(Integer.toString(16 * 1024 * 1024));
      assertThat(setting(admin, chain, ROOM)).as("what was set higher").isEqualTo("67108864");
      assertThat(setting(admin, chain, "message.timestamp.type")).isEqualTo("LogAppendTime");
      assertThat(setting(admin, chain, "compression.type")).isEqualTo("uncompressed");
      assertThat(setting(admin, facts, "compression.type")).isEqualTo("uncompressed");
      assertThat(setting(admin, STORE, "compression.type")).isEqualTo("zstd");
      assertThat(setting(admin, FOREIGN, "compression.type")).as("not ours").isEqualTo("producer");
      assertThat(setting(admin, FOREIGN, ROOM)).as("not ours").isEqualTo("1048588");
      assertThat(setting(admin, facts, "retention.ms")).isEqualTo("-1");
      assertThat(setting(admin, people, "cleanup.policy")).isEqualTo("compact");
    }
  }

  /**
   * Eight megabytes pack to a few kB, and a record without a time stops Kafka's own readers. Both
   * are taken from a topic as an earlier version made it, and kept from it once it has its
   * settings.
   */
  @Test
  void whatUnpacksToTooMuchIsRefusedAndEveryRecordHasATime(@TempDir Path folder) throws Exception {
    String facts = Topics.FACTS.topicName();
    BrokerLogins logins = BrokerLogins.in(folder);
    try (EmbeddedBroker broker = EmbeddedBroker.start(folder, 0, logins);
        Admin admin = Admin.create(TopicRightsIT.settings(broker, logins.program()));
        var producer = packing(TopicRightsIT.settings(broker, logins.program()));
        var reader = reader(TopicRightsIT.settings(broker, logins.program()), facts)) {
      admin.createTopics(List.of(topic(facts, Map.of()))).all().get();
      untilKnown(admin, List.of(facts));
      producer.send(new WithoutTime(facts, new byte[8 << 20])).get();
      assertThat(next(reader).timestamp()).isEqualTo(-1);

      EarlierTopicSettings.make(admin, admin.listTopics().names().get(), "kornspur");
      untilTaken(admin, facts);

      assertThatThrownBy(() -> producer.send(new WithoutTime(facts, new byte[8 << 20])).get())
          .hasCauseInstanceOf(RecordTooLargeException.class);
      long before = System.currentTimeMillis();
      producer.send(new WithoutTime(facts, new byte[1 << 20])).get();
      ConsumerRecord<byte[], byte[]> taken = next(reader);
      assertThat(taken.value()).hasSize(1 << 20);
      assertThat(taken.timestamp()).isBetween(before, System.currentTimeMillis());
    }
  }

  /** The producer's own class takes no such time, though brokers do. */
  private static final class WithoutTime extends ProducerRecord<byte[], byte[]> {
    WithoutTime(String topic, byte[] value) {
      super(topic, value);
    }

    @Override
    public Long timestamp() {
      return -1L;
    }
  }

  private static KafkaProducer<byte[], byte[]> packing(Map<String, Object> settings) {
    settings.put("compression.type", "gzip");
    settings.put("max.request.size", 32 << 20);
    settings.put("buffer.memory", 32L << 20);
    return new KafkaProducer<>(settings, new ByteArraySerializer(), new ByteArraySerializer());
  }

  private static KafkaConsumer<byte[], byte[]> reader(Map<String, Object> settings, String topic) {
    settings.put("auto.offset.reset", "earliest");
    var reader =
        new KafkaConsumer<>(settings, new ByteArrayDeserializer(), new ByteArrayDeserializer());
    reader.assign(List.of(new TopicPartition(topic, 0)));
    return reader;
  }

  private static ConsumerRecord<byte[], byte[]> next(KafkaConsumer<byte[], byte[]> reader) {
    for (int poll = 0; poll < 60; poll++) {
      for (ConsumerRecord<byte[], byte[]> record : reader.poll(Duration.ofSeconds(1))) {
        return record;
      }
    }
    throw new AssertionError("No record came");
  }

  private static NewTopic topic(String name, Map<String, String> settings) {
    return new NewTopic(name, 1, (short) 1).configs(settings);
  }

  /** The controller makes topics in one step, of which the broker hears a moment later. */
  private static void untilKnown(Admin admin, List<String> topics) {
    await().until(() -> admin.listTopics().names().get().containsAll(topics));
  }

  /** The controller changes settings in one step, of which the broker hears a moment later. */
  private static void untilTaken(Admin admin, String facts) {
    await().until(() -> setting(admin, facts, ROOM), Integer.toString(4 * 1024 * 1024)::equals);
  }

  private static String setting(Admin admin, String topicName, String key)
      throws InterruptedException, ExecutionException {
    ConfigResource topic = new ConfigResource(ConfigResource.Type.TOPIC, topicName);
    Config config = admin.describeConfigs(List.of(topic)).all().get().get(topic);
    return config.get(key).value();
  }
}
