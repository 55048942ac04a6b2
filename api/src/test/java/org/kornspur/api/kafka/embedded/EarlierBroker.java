package org.kornspur.api.kafka.embedded;

import java.io.OutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import kafka.server.KafkaConfig;
import kafka.server.KafkaRaftServer;
import org.apache.kafka.clients.admin.Admin;
import org.apache.kafka.clients.admin.NewTopic;
import org.apache.kafka.clients.consumer.KafkaConsumer;
import org.apache.kafka.clients.producer.KafkaProducer;
import org.apache.kafka.clients.producer.ProducerRecord;
import org.apache.kafka.common.TopicPartition;
import org.apache.kafka.common.Uuid;
import org.apache.kafka.common.serialization.StringDeserializer;
import org.apache.kafka.common.serialization.StringSerializer;
import org.apache.kafka.common.utils.Time;
import org.apache.kafka.metadata.storage.Formatter;
import org.apache.kafka.server.common.MetadataVersion;

/** The embedded broker of the releases that asked no client for a password. */
final class EarlierBroker {

  private EarlierBroker() {}

  /** Makes a data folder as they made it, with one topic in it. */
  static void write(Path folder, String topic, List<String> values) throws Exception {
    new Formatter()
        .setPrintStream(
            new PrintStream(OutputStream.nullOutputStream(), false, StandardCharsets.UTF_8))
        .setNodeId(1)
        .setClusterId(Uuid.randomUuid().toString())
        .setDirectories(List.of(folder.toString()))
        .setMetadataLogDirectory(folder.toString())
        .setControllerListenerName("CONTROLLER")
        .setReleaseVersion(MetadataVersion.latestProduction())
        .run();
    LoopbackPorts.Pair ports = LoopbackPorts.freePair(0);
    String bootstrapServers = "127.0.0.1:" + ports.broker();
    Map<String, Object> client = Map.of("bootstrap.servers", bootstrapServers);
    KafkaRaftServer server =
        new KafkaRaftServer(
            new KafkaConfig(
                Map.ofEntries(
                    Map.entry("process.roles", "broker,controller"),
                    Map.entry("node.id", "1"),
                    Map.entry("controller.quorum.voters", "1@127.0.0.1:" + ports.controller()),
                    Map.entry(
                        "listeners",
                        "BROKER://%s,CONTROLLER://127.0.0.1:%d"
                            .formatted(bootstrapServers, ports.controller())),
                    Map.entry("advertised.listeners", "BROKER://" + bootstrapServers),
                    Map.entry("inter.broker.listener.name", "BROKER"),
                    Map.entry("controller.listener.names", "CONTROLLER"),
                    Map.entry(
                        "listener.security.protocol.map", "BROKER:PLAINTEXT,CONTROLLER:PLAINTEXT"),
                    Map.entry("offsets.topic.replication.factor", "1"),
                    // It shares the memory of all tests; by default 128 MB.
                    Map.entry("log.cleaner.dedupe.buffer.size", Integer.toString(8 << 20)),
                    Map.entry("log.dirs", folder.toString()))),
            Time.SYSTEM);
    server.startup();
    try (Admin admin = Admin.create(client);
        KafkaProducer<String, String> producer =
            new KafkaProducer<>(client, new StringSerializer(), new StringSerializer())) {
      admin.createTopics(List.of(new NewTopic(topic, 1, (short) 1))).all().get();
      for (String value : values) {
        producer.send(new ProducerRecord<>(topic, value)).get();
      }
    } finally {
      server.shutdown();
      server.awaitShutdown();
    }
  }

  /** The first values of the topic. */
  static List<String> read(Map<String, Object> settings, String topic, int count) {
    List<String> values = new ArrayList<>();
    TopicPartition partition = new TopicPartition(topic, 0);
    try (KafkaConsumer<String, String> consumer =
        new KafkaConsumer<>(settings, new StringDeserializer(), new StringDeserializer())) {
      consumer.assign(List.of(partition));
      consumer.seekToBeginning(List.of(partition));
      long deadline = System.nanoTime() + Duration.ofMinutes(2).toNanos();
      while (values.size() < count && System.nanoTime() < deadline) {
        consumer.poll(Duration.ofMillis(200)).forEach(record -> values.add(record.value()));
      }
    }
    return values;
  }
}
