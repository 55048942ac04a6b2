package org.kornspur.ingest.verify;

import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import org.apache.kafka.clients.consumer.ConsumerConfig;
import org.apache.kafka.clients.consumer.ConsumerRecord;
import org.apache.kafka.clients.consumer.KafkaConsumer;
import org.apache.kafka.common.PartitionInfo;
import org.apache.kafka.common.TopicPartition;
import org.apache.kafka.common.header.Header;
import org.apache.kafka.common.serialization.ByteArrayDeserializer;
import org.kornspur.ingest.chain.ChainLink;
import org.kornspur.ingest.chain.Checkpoint;
import org.kornspur.ingest.chain.LogRecord;
import org.kornspur.ingest.chain.PartitionLog;
import org.kornspur.ingest.publish.FactPublisher;

/** Reads records, links and checkpoints of a running cluster, what is committed alone. */
public final class ClusterLog {

  private static final Duration POLL = Duration.ofMillis(500);
  private static final Duration SILENCE = Duration.ofSeconds(60);

  private final KafkaConsumer<byte[], byte[]> consumer;

  private ClusterLog(KafkaConsumer<byte[], byte[]> consumer) {
    this.consumer = consumer;
  }

  /**
   * Reads everything.
   *
   * @param clientSettings settings of a Kafka consumer, {@code bootstrap.servers} among them
   * @throws org.apache.kafka.common.KafkaException if the cluster cannot be read
   * @throws IllegalStateException if it has no such topics, or falls silent
   * @throws org.kornspur.ingest.chain.UnreadableChain if a link or checkpoint is none
   */
  public static List<PartitionLog> read(Map<String, ?> clientSettings) {
    Map<String, Object> settings = new HashMap<>(clientSettings);
    settings.put(ConsumerConfig.ISOLATION_LEVEL_CONFIG, "read_committed");
    settings.put(ConsumerConfig.ENABLE_AUTO_COMMIT_CONFIG, false);
    settings.put(ConsumerConfig.AUTO_OFFSET_RESET_CONFIG, "earliest");
    settings.remove(ConsumerConfig.GROUP_ID_CONFIG);
    try (KafkaConsumer<byte[], byte[]> consumer =
        new KafkaConsumer<>(settings, new ByteArrayDeserializer(), new ByteArrayDeserializer())) {
      return new ClusterLog(consumer).readAll();
    }
  }

  private List<PartitionLog> readAll() {
    List<Integer> partitions = partitionsOf(FactPublisher.FACTS_TOPIC);
    Map<TopicPartition, Long> checkpointsUntil = ends(Checkpoint.TOPIC);
    Map<TopicPartition, Long> linksUntil = ends(ChainLink.TOPIC);
    Map<TopicPartition, Long> recordsUntil = ends(FactPublisher.FACTS_TOPIC);
    List<PartitionLog> log = new ArrayList<>();
    for (int partition : partitions) {
      List<LogRecord.Entry> records = new ArrayList<>();
      List<ChainLink> links = new ArrayList<>();
      List<Checkpoint> checkpoints = new ArrayList<>();
      read(checkpointsUntil, partition, record -> checkpoints.add(Checkpoint.read(record.value())));
      read(
          linksUntil, partition, record -> links.add(ChainLink.read(record.key(), record.value())));
      read(recordsUntil, partition, record -> records.add(asKept(record).entry()));
      log.add(new PartitionLog(partition, records, links, checkpoints));
    }
    return log;
  }

  /** A consumed record as the chain sees it. */
  public static LogRecord asKept(ConsumerRecord<byte[], byte[]> record) {
    List<LogRecord.Header> headers = new ArrayList<>();
    for (Header header : record.headers()) {
      headers.add(new LogRecord.Header(header.key(), header.value()));
    }
    return new LogRecord(
        record.partition(),
        record.offset(),
        record.timestamp(),
        record.key(),
        record.value(),
        headers);
  }

  private List<Integer> partitionsOf(String topic) {
    List<PartitionInfo> partitions = consumer.partitionsFor(topic);
    if (partitions.isEmpty()) {
      throw new IllegalStateException(
          "The cluster has no topic "
              + topic
              + ". Give the brokers that Kornspur works with, and start it once");
    }
    return partitions.stream().map(PartitionInfo::partition).sorted().toList();
  }

  private Map<TopicPartition, Long> ends(String topic) {
    return consumer.endOffsets(
        partitionsOf(topic).stream().map(number -> new TopicPartition(topic, number)).toList());
  }

  private void read(
      Map<TopicPartition, Long> ends,
      int partition,
      Consumer<ConsumerRecord<byte[], byte[]>> receiver) {
    ends.forEach(
        (place, end) -> {
          if (place.partition() == partition) {
            read(place, end, receiver);
          }
        });
  }

  private void read(
      TopicPartition place, long end, Consumer<ConsumerRecord<byte[], byte[]>> receiver) {
    consumer.assign(List.of(place));
    consumer.seekToBeginning(List.of(place));
    long heardAt = System.nanoTime();
    long position = consumer.position(place);
    while (position < end) {
      for (ConsumerRecord<byte[], byte[]> record : consumer.poll(POLL)) {
        if (record.offset() < end) {
          receiver.accept(record);
        }
      }
      long now = consumer.position(place);
      if (now > position) {
        heardAt = System.nanoTime();
      } else if (System.nanoTime() - heardAt > SILENCE.toNanos()) {
        throw new IllegalStateException(
            "Nothing came from " + place + " after offset " + position + " for " + SILENCE);
      }
      position = now;
    }
  }
}
