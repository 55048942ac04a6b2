package org.kornspur.api.kafka;

import static java.util.Comparator.naturalOrder;

import java.time.Duration;
import java.time.Instant;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.apache.kafka.clients.admin.Admin;
import org.apache.kafka.clients.admin.ListOffsetsOptions;
import org.apache.kafka.clients.admin.OffsetSpec;
import org.apache.kafka.clients.consumer.CloseOptions;
import org.apache.kafka.clients.consumer.ConsumerConfig;
import org.apache.kafka.clients.consumer.ConsumerRecords;
import org.apache.kafka.clients.consumer.KafkaConsumer;
import org.apache.kafka.clients.consumer.OffsetAndMetadata;
import org.apache.kafka.common.IsolationLevel;
import org.apache.kafka.common.KafkaException;
import org.apache.kafka.common.KafkaFuture;
import org.apache.kafka.common.TopicPartition;
import org.apache.kafka.common.serialization.ByteArrayDeserializer;
import org.kornspur.api.problem.NotReadyDetail;
import org.kornspur.processors.stream.Topics;

/**
 * Records that came in and whose outcome is not committed yet, over all instances, as the brokers
 * know it. An answer that something waits is kept for a moment, so that many questions at once ask
 * the brokers once.
 *
 * <p>It is counted to the last record that was written (the high watermark), not to the last one
 * that may be read (the last stable offset): a record behind an open transaction has come in too.
 * Offsets are counted, markers of transactions among them. The processors commit past these, but
 * not past facts that another program aborted as long as none follows; there it is looked whether a
 * reader would get any.
 */
final class ProcessingLag implements AutoCloseable {
  private static final long KEPT_NANOS = TimeUnit.MILLISECONDS.toNanos(500);
  private static final long TIMEOUT_MS = 2_000;
  private static final List<Topics> READ =
      List.of(Topics.FACTS, Topics.REVOCATIONS, Topics.BY_SUBJECT, Topics.REPORTS, Topics.PLOTS);

  /**
   * What was counted at one moment.
   *
   * @param waiting records not processed yet, by topic
   * @param heldBack facts among them that nobody may read yet, because a producer keeps a
   *     transaction open
   */
  record Counted(Map<String, Long> waiting, long heldBack) {

    /** Then answers say that they are complete, and so it must be true when they say it. */
    private boolean isNothing() {
      return heldBack == 0 && records() == 0;
    }

    long records() {
      return waiting.values().stream().mapToLong(Long::longValue).sum();
    }
  }

  /** So many offsets may be aborted facts alone; of more it is not looked for. */
  private static final long MOST_ABORTED = 10_000;

  private static final Duration LONGEST_LOOK = Duration.ofMillis(500);

  private final Admin admin;
  private final KafkaConsumer<byte[], byte[]> reader;
  private final String group;
  private final List<TopicPartition> partitions;
  private Counted kept = new Counted(Map.of(), 0);
  private long keptUntil;
  private final Object roughLock = new Object();
  private long rough;
  private long roughUntil = System.nanoTime();

  ProcessingLag(Map<String, Object> clientSettings, String group)
      throws InterruptedException, ExecutionException, TimeoutException {
    this.admin = Admin.create(clientSettings);
    Map<String, Object> settings = new HashMap<>(clientSettings);
    settings.put(ConsumerConfig.ISOLATION_LEVEL_CONFIG, "read_committed");
    settings.put(ConsumerConfig.ENABLE_AUTO_COMMIT_CONFIG, false);
    settings.put(ConsumerConfig.AUTO_OFFSET_RESET_CONFIG, "earliest");
    settings.put(ConsumerConfig.CLIENT_ID_CONFIG, "backlog");
    this.reader =
        new KafkaConsumer<>(settings, new ByteArrayDeserializer(), new ByteArrayDeserializer());
    this.group = group;
    this.partitions =
        admin
            .describeTopics(READ.stream().map(Topics::topicName).toList())
            .allTopicNames()
            .get(30, TimeUnit.SECONDS)
            .values()
            .stream()
            .flatMap(
                topic ->
                    topic.partitions().stream()
                        .map(part -> new TopicPartition(topic.name(), part.partition())))
            .toList();
  }

  /**
   * Records not processed yet.
   *
   * @throws NotReady where the brokers do not tell
   */
  synchronized Counted now() {
    if (kept.isNothing() || System.nanoTime() - keptUntil > 0) {
      kept = ask(true);
      keptUntil = System.nanoTime() + KEPT_NANOS;
    }
    return kept;
  }

  /**
   * How many records were not processed within the last half second. Facts that another program
   * aborted are among them, for it is quicker not to look.
   *
   * @throws NotReady where the brokers do not tell
   */
  long recentRecords() {
    synchronized (roughLock) {
      if (System.nanoTime() - roughUntil > 0) {
        rough = ask(false).records();
        roughUntil = System.nanoTime() + KEPT_NANOS;
      }
      return rough;
    }
  }

  private Counted ask(boolean exactly) {
    Map<TopicPartition, OffsetAndMetadata> committed = committed();
    Map<TopicPartition, Long> readable = ends(IsolationLevel.READ_COMMITTED);
    Map<TopicPartition, Long> written = ends(IsolationLevel.READ_UNCOMMITTED);
    Map<String, Long> waiting = new TreeMap<>();
    long heldBack = 0;
    for (TopicPartition partition : partitions) {
      long from = next(committed, partition);
      long behind = Math.max(0, written.get(partition) - from);
      if (partition.topic().equals(Topics.FACTS.topicName())) {
        long held = Math.max(0, written.get(partition) - readable.get(partition));
        heldBack += held;
        if (exactly
            && held == 0
            && behind > 0
            && behind <= MOST_ABORTED
            && look(partition, from, behind).isNothing()) {
          behind = 0;
        }
      }
      waiting.merge(partition.topic(), behind, Long::sum);
    }
    return new Counted(Map.copyOf(waiting), heldBack);
  }

  /**
   * When the log took the oldest of the facts that are not processed yet; empty where there is
   * none. It is read from the log, so it is asked for by itself.
   *
   * @throws NotReady where the brokers do not tell
   */
  synchronized Optional<Instant> oldestFact() {
    Map<TopicPartition, OffsetAndMetadata> committed = committed();
    Map<TopicPartition, Long> readable = ends(IsolationLevel.READ_COMMITTED);
    return partitions.stream()
        .filter(partition -> partition.topic().equals(Topics.FACTS.topicName()))
        .filter(partition -> readable.get(partition) > next(committed, partition))
        .flatMap(
            partition -> {
              long from = next(committed, partition);
              return look(partition, from, readable.get(partition) - from).first().stream();
            })
        .min(naturalOrder());
  }

  private Map<TopicPartition, OffsetAndMetadata> committed() {
    return answer(admin.listConsumerGroupOffsets(group).partitionsToOffsetAndMetadata());
  }

  private static <T> T answer(KafkaFuture<T> asked) {
    try {
      return asked.get(TIMEOUT_MS, TimeUnit.MILLISECONDS);
    } catch (ExecutionException | TimeoutException unanswered) {
      throw new NotReady(new NotReadyDetail.LagUnknown(), 2);
    } catch (InterruptedException interrupted) {
      Thread.currentThread().interrupt();
      throw new NotReady(new NotReadyDetail.Interrupted(), 2);
    }
  }

  /** The offset at which the processors go on. */
  private static long next(
      Map<TopicPartition, OffsetAndMetadata> committed, TopicPartition partition) {
    OffsetAndMetadata done = committed.get(partition);
    return done == null ? 0 : done.offset();
  }

  /**
   * What a reader gets at some offsets.
   *
   * @param isNothing whether it is known to be nothing
   * @param first when the log took the first record of it
   */
  private record Look(boolean isNothing, Optional<Instant> first) {}

  private Look look(TopicPartition partition, long from, long offsets) {
    try {
      reader.assign(List.of(partition));
      reader.seek(partition, from);
      long end = System.nanoTime() + LONGEST_LOOK.toNanos();
      do {
        ConsumerRecords<byte[], byte[]> read = reader.poll(LONGEST_LOOK.dividedBy(5));
        if (!read.isEmpty()) {
          long takenMs = read.records(partition).get(0).timestamp();
          return new Look(false, Optional.of(Instant.ofEpochMilli(takenMs)));
        }
      } while (reader.position(partition) < from + offsets
          && offsets <= MOST_ABORTED
          && System.nanoTime() - end < 0);
      return new Look(reader.position(partition) >= from + offsets, Optional.empty());
    } catch (KafkaException notTold) {
      return new Look(false, Optional.empty());
    }
  }

  /**
   * When the newest record of a topic was taken, of that partition for which it is longest ago;
   * empty where a partition has none.
   *
   * @throws NotReady where the brokers do not tell
   */
  Optional<Instant> newestOfEach(Topics topic) {
    Map<TopicPartition, OffsetSpec> newest =
        partitions.stream()
            .filter(part -> part.topic().equals(Topics.FACTS.topicName()))
            .collect(
                Collectors.toMap(
                    part -> new TopicPartition(topic.topicName(), part.partition()),
                    part -> OffsetSpec.maxTimestamp()));
    return answer(admin.listOffsets(newest).all()).values().stream()
        .map(found -> Instant.ofEpochMilli(found.timestamp()))
        .min(naturalOrder())
        .filter(oldest -> oldest.toEpochMilli() >= 0);
  }

  private Map<TopicPartition, Long> ends(IsolationLevel isolation) {
    Map<TopicPartition, OffsetSpec> latest =
        partitions.stream()
            .collect(Collectors.toMap(Function.identity(), part -> OffsetSpec.latest()));
    return answer(admin.listOffsets(latest, new ListOffsetsOptions(isolation)).all())
        .entrySet()
        .stream()
        .collect(Collectors.toMap(Map.Entry::getKey, end -> end.getValue().offset()));
  }

  @Override
  public synchronized void close() {
    reader.close(CloseOptions.timeout(Duration.ofSeconds(1)));
    admin.close(Duration.ofSeconds(1));
  }
}
