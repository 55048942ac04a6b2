package org.kornspur.ingest.verify;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ExecutionException;
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.apache.kafka.clients.admin.Admin;
import org.apache.kafka.clients.consumer.ConsumerConfig;
import org.apache.kafka.clients.consumer.ConsumerRecord;
import org.apache.kafka.clients.consumer.KafkaConsumer;
import org.apache.kafka.clients.consumer.OffsetAndMetadata;
import org.apache.kafka.common.KafkaException;
import org.apache.kafka.common.PartitionInfo;
import org.apache.kafka.common.TopicPartition;
import org.apache.kafka.common.errors.GroupIdNotFoundException;
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
  private static final long FIRST_LOOK_BACK = 16;
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
    try (KafkaConsumer<byte[], byte[]> consumer = consumer(clientSettings)) {
      return new ClusterLog(consumer).readAll();
    }
  }

  /**
   * Finds how far each partition goes and should go, from offsets and the newest link and
   * checkpoint alone. Takes no account of what a transaction has not committed yet.
   *
   * @param clientSettings settings of Kafka clients, {@code bootstrap.servers} among them
   * @param group the group in which the processors take the facts
   * @return one for each partition; none where there is no site yet
   * @throws org.apache.kafka.common.KafkaException if the cluster cannot be read
   * @throws IllegalStateException if it falls silent
   */
  public static List<LogEnd> ends(Map<String, Object> clientSettings, String group)
      throws InterruptedException {
    try (KafkaConsumer<byte[], byte[]> consumer = consumer(clientSettings)) {
      ClusterLog log = new ClusterLog(consumer);
      KnownPartitions known = log.partitionsThere();
      return known.areAny() ? log.ends(known, processed(clientSettings, group)) : List.of();
    }
  }

  private static Map<TopicPartition, OffsetAndMetadata> processed(
      Map<String, Object> clientSettings, String group) throws InterruptedException {
    try (Admin admin = Admin.create(clientSettings)) {
      return admin.listConsumerGroupOffsets(group).partitionsToOffsetAndMetadata().get();
    } catch (ExecutionException failed) {
      if (failed.getCause() instanceof GroupIdNotFoundException) {
        return Map.of();
      }
      throw new KafkaException("The offsets of group " + group + " cannot be read", failed);
    }
  }

  private static KafkaConsumer<byte[], byte[]> consumer(Map<String, ?> clientSettings) {
    Map<String, Object> settings = new HashMap<>(clientSettings);
    settings.put(ConsumerConfig.ISOLATION_LEVEL_CONFIG, "read_committed");
    settings.put(ConsumerConfig.ENABLE_AUTO_COMMIT_CONFIG, false);
    settings.put(ConsumerConfig.AUTO_OFFSET_RESET_CONFIG, "earliest");
    settings.put(ConsumerConfig.ALLOW_AUTO_CREATE_TOPICS_CONFIG, false);
    // at the end of a partition there is nothing more to wait for
    settings.put(ConsumerConfig.FETCH_MAX_WAIT_MS_CONFIG, 10);
    settings.remove(ConsumerConfig.GROUP_ID_CONFIG);
    return new KafkaConsumer<>(settings, new ByteArrayDeserializer(), new ByteArrayDeserializer());
  }

  private List<PartitionLog> readAll() {
    KnownPartitions known = partitions();
    Map<TopicPartition, Long> checkpointsUntil = ends(known, Checkpoint.TOPIC);
    Map<TopicPartition, Long> linksUntil = ends(known, ChainLink.TOPIC);
    Map<TopicPartition, Long> recordsUntil = ends(known, FactPublisher.FACTS_TOPIC);
    List<PartitionLog> log = new ArrayList<>();
    for (int partition : known.all()) {
      List<LogRecord.Entry> records = new ArrayList<>();
      List<ChainLink> links = new ArrayList<>();
      List<Checkpoint> checkpoints = new ArrayList<>();
      read(checkpointsUntil, partition, record -> checkpoints.add(Checkpoint.read(record.value())));
      read(
          linksUntil, partition, record -> links.add(ChainLink.read(record.key(), record.value())));
      read(recordsUntil, partition, record -> records.add(asKept(record).entry()));
      log.add(new PartitionLog(partition, records, links, checkpoints, known.missing(partition)));
    }
    return log;
  }

  /** A consumed record as the chain sees it. */
  public static LogRecord asKept(ConsumerRecord<byte[], byte[]> record) {
    return new LogRecord(
        record.partition(),
        record.offset(),
        record.timestamp(),
        record.key(),
        record.value(),
        headers(record.headers().toArray()));
  }

  static List<LogRecord.Header> headers(Header... headers) {
    return Arrays.stream(headers)
        .map(header -> new LogRecord.Header(header.key(), header.value()))
        .toList();
  }

  private List<LogEnd> ends(
      KnownPartitions known, Map<TopicPartition, OffsetAndMetadata> processed) {
    Map<TopicPartition, Long> checkpointsUntil = ends(known, Checkpoint.TOPIC);
    Map<TopicPartition, Long> linksUntil = ends(known, ChainLink.TOPIC);
    Map<TopicPartition, Long> recordsUntil = ends(known, FactPublisher.FACTS_TOPIC);
    Map<TopicPartition, Long> recordsFrom = consumer.beginningOffsets(recordsUntil.keySet());
    List<LogEnd> ends = new ArrayList<>();
    for (int partition : known.all()) {
      TopicPartition place = new TopicPartition(FactPublisher.FACTS_TOPIC, partition);
      OffsetAndMetadata taken = processed.get(place);
      ends.add(
          new LogEnd(
              partition,
              recordsFrom.getOrDefault(place, 0L),
              recordsUntil.getOrDefault(place, 0L),
              newest(
                  linksUntil,
                  new TopicPartition(ChainLink.TOPIC, partition),
                  record -> ChainLink.ifOne(record.key(), record.value())),
              newest(
                  checkpointsUntil,
                  new TopicPartition(Checkpoint.TOPIC, partition),
                  record -> Checkpoint.ifOne(record.value())),
              taken == null ? 0 : taken.offset()));
    }
    return ends;
  }

  /**
   * The last that can be read, looked for ever further back: the ends of transactions take offsets
   * too, and a record that is no link must not keep a site from starting.
   */
  private <T> Optional<T> newest(
      Map<TopicPartition, Long> ends,
      TopicPartition place,
      Function<ConsumerRecord<byte[], byte[]>, Optional<T>> reading) {
    long end = ends.getOrDefault(place, 0L);
    List<T> tail = new ArrayList<>();
    for (long back = FIRST_LOOK_BACK; tail.isEmpty(); back *= 2) {
      long from = Math.max(0, end - back);
      read(place, from, end, record -> reading.apply(record).ifPresent(tail::add));
      if (from == 0) {
        break;
      }
    }
    return tail.isEmpty() ? Optional.empty() : Optional.of(tail.get(tail.size() - 1));
  }

  private KnownPartitions partitions() {
    KnownPartitions known = partitionsThere();
    if (!known.areAny()) {
      throw new IllegalStateException(
          "The cluster has no topic "
              + FactPublisher.FACTS_TOPIC
              + ". Give the brokers that Kornspur works with, and start it once");
    }
    return known;
  }

  private KnownPartitions partitionsThere() {
    Map<String, Set<Integer>> there = new HashMap<>();
    consumer
        .listTopics()
        .forEach(
            (topic, partitions) ->
                there.put(
                    topic,
                    partitions.stream().map(PartitionInfo::partition).collect(Collectors.toSet())));
    return new KnownPartitions(there, Map.of());
  }

  private Map<TopicPartition, Long> ends(KnownPartitions known, String topic) {
    return consumer.endOffsets(
        known.there().getOrDefault(topic, Set.of()).stream()
            .map(number -> new TopicPartition(topic, number))
            .toList());
  }

  private void read(
      Map<TopicPartition, Long> ends,
      int partition,
      Consumer<ConsumerRecord<byte[], byte[]>> receiver) {
    ends.forEach(
        (place, end) -> {
          if (place.partition() == partition) {
            read(place, 0, end, receiver);
          }
        });
  }

  private void read(
      TopicPartition place,
      long from,
      long end,
      Consumer<ConsumerRecord<byte[], byte[]>> receiver) {
    consumer.assign(List.of(place));
    consumer.seek(place, Math.max(from, consumer.beginningOffsets(List.of(place)).get(place)));
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
