package org.kornspur.api.kafka.embedded;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.apache.avro.specific.SpecificRecord;
import org.apache.kafka.clients.admin.Admin;
import org.apache.kafka.clients.admin.NewTopic;
import org.apache.kafka.clients.consumer.Consumer;
import org.apache.kafka.clients.consumer.ConsumerRecord;
import org.apache.kafka.clients.consumer.KafkaConsumer;
import org.apache.kafka.clients.consumer.OffsetAndMetadata;
import org.apache.kafka.clients.producer.KafkaProducer;
import org.apache.kafka.clients.producer.ProducerRecord;
import org.apache.kafka.common.TopicPartition;
import org.apache.kafka.common.serialization.Deserializer;
import org.apache.kafka.common.serialization.Serializer;
import org.apache.kafka.common.serialization.StringDeserializer;
import org.apache.kafka.common.serialization.StringSerializer;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kornspur.contract.LotMass;
import org.kornspur.ingest.registry.RegistryConfig;
import org.kornspur.ingest.wire.AvroSerdes;

/** What the stream needs of a broker; the same cases run against each kind of broker. */
abstract class BrokerContractTest {

  private static final Duration LIMIT = Duration.ofMinutes(2);

  private final String topic = "contract-" + UUID.randomUUID();

  /** Settings with which a client may do everything. */
  abstract Map<String, Object> clientSettings();

  @BeforeEach
  void createTopic() throws Exception {
    try (Admin admin = Admin.create(clientSettings())) {
      admin.createTopics(List.of(new NewTopic(topic, 1, (short) 1))).all().get();
    }
  }

  @Test
  void shouldGiveBackWhatWasWritten() throws Exception {
    write("a", "b", "c");
    try (Consumer<String, String> consumer = reader()) {
      assertThat(read(consumer, 3)).containsExactly("a", "b", "c");
    }
  }

  @Test
  void shouldHideAnAbortedTransactionFromReadersOfCommittedRecords() throws Exception {
    try (KafkaProducer<String, String> producer = transactional()) {
      producer.beginTransaction();
      producer.send(new ProducerRecord<>(topic, "aborted")).get();
      producer.abortTransaction();
    }
    // Another producer: the next transaction of the same one may come while its last is still being
    // completed, which a loaded broker now and then refuses for good.
    try (KafkaProducer<String, String> producer = transactional()) {
      producer.beginTransaction();
      producer.send(new ProducerRecord<>(topic, "committed")).get();
      producer.commitTransaction();
    }
    try (Consumer<String, String> consumer = reader()) {
      assertThat(read(consumer, 1)).containsExactly("committed");
    }
  }

  /** Read, process, write, with the position of the reader in the same transaction. */
  @Test
  void shouldCommitAReadersPositionWithWhatItWrote() throws Exception {
    write("in");
    String group = "group-" + UUID.randomUUID();
    TopicPartition partition = new TopicPartition(topic, 0);
    try (KafkaProducer<String, String> producer = transactional();
        Consumer<String, String> consumer = reader(group)) {
      assertThat(read(consumer, 1)).containsExactly("in");
      producer.beginTransaction();
      producer.send(new ProducerRecord<>(topic, "out"));
      producer.sendOffsetsToTransaction(
          Map.of(partition, new OffsetAndMetadata(1)), consumer.groupMetadata());
      producer.commitTransaction();
    }
    try (Consumer<String, String> next = reader(group)) {
      assertThat(read(next, 1)).containsExactly("out");
    }
  }

  @Test
  void shouldCarryRecordsThroughARegistryOnTheSameBroker(@TempDir Path folder) throws Exception {
    LotMass mass = new LotMass("L1", 12.5);
    BrokerLogins logins = BrokerLogins.in(folder);
    try (EmbeddedRegistry registry = EmbeddedRegistry.start(clientSettings(), 0, logins)) {
      Map<String, Object> config = new HashMap<>(logins.client().registrySettings());
      config.put(RegistryConfig.URL, registry.url());
      try (Serializer<SpecificRecord> serializer = AvroSerdes.serializer(config);
          KafkaProducer<String, SpecificRecord> producer =
              new KafkaProducer<>(clientSettings(), new StringSerializer(), serializer)) {
        producer.send(new ProducerRecord<>(topic, "L1", mass)).get();
      }
      try (Deserializer<SpecificRecord> deserializer = AvroSerdes.deserializer(config);
          Consumer<String, SpecificRecord> consumer =
              new KafkaConsumer<>(clientSettings(), new StringDeserializer(), deserializer)) {
        consumer.assign(List.of(new TopicPartition(topic, 0)));
        consumer.seekToBeginning(consumer.assignment());
        assertThat(read(consumer, 1)).containsExactly(mass);
      }
    }
  }

  void write(String... values) throws Exception {
    try (KafkaProducer<String, String> producer =
        new KafkaProducer<>(
            with(Map.of("acks", "all")), new StringSerializer(), new StringSerializer())) {
      for (String value : values) {
        producer.send(new ProducerRecord<>(topic, value)).get();
      }
    }
  }

  /** Every value of the topic from its first, as soon as there are so many. */
  List<String> readAgain(int count) {
    try (Consumer<String, String> consumer = reader()) {
      return read(consumer, count);
    }
  }

  private Map<String, Object> with(Map<String, Object> further) {
    Map<String, Object> settings = new HashMap<>(clientSettings());
    settings.putAll(further);
    return settings;
  }

  private KafkaProducer<String, String> transactional() {
    KafkaProducer<String, String> producer =
        new KafkaProducer<>(
            with(Map.of("transactional.id", "contract-" + UUID.randomUUID())),
            new StringSerializer(),
            new StringSerializer());
    producer.initTransactions();
    return producer;
  }

  private Consumer<String, String> reader() {
    return reader("group-" + UUID.randomUUID());
  }

  private Consumer<String, String> reader(String group) {
    Consumer<String, String> consumer =
        new KafkaConsumer<>(
            with(
                Map.of(
                    "group.id", group,
                    "isolation.level", "read_committed",
                    "enable.auto.commit", "false",
                    "auto.offset.reset", "earliest")),
            new StringDeserializer(),
            new StringDeserializer());
    consumer.subscribe(List.of(topic));
    return consumer;
  }

  private static <V> List<V> read(Consumer<String, V> consumer, int count) {
    List<V> values = new ArrayList<>();
    long deadline = System.nanoTime() + LIMIT.toNanos();
    while (values.size() < count && System.nanoTime() < deadline) {
      for (ConsumerRecord<String, V> read : consumer.poll(Duration.ofMillis(200))) {
        values.add(read.value());
      }
    }
    return values;
  }
}
