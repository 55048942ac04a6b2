package org.kornspur.api.query.proof;

import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.ToLongFunction;
import org.apache.kafka.clients.consumer.ConsumerConfig;
import org.apache.kafka.clients.consumer.ConsumerRecord;
import org.apache.kafka.clients.consumer.KafkaConsumer;
import org.apache.kafka.common.TopicPartition;
import org.apache.kafka.common.serialization.ByteArrayDeserializer;
import org.kornspur.api.kafka.NotReady;
import org.kornspur.api.kafka.ProcessorsClient;
import org.kornspur.api.problem.NotReadyDetail;
import org.kornspur.ingest.chain.ChainLink;
import org.kornspur.ingest.chain.Checkpoint;
import org.kornspur.ingest.chain.LogRecord;
import org.kornspur.ingest.publish.FactPublisher;
import org.kornspur.ingest.verify.ClusterLog;

/**
 * Reads single records, links and checkpoints out of their topics, what is committed alone. Links
 * and checkpoints are found by number: offsets only grow with it, so some twenty looks find any.
 * For one thread.
 */
public final class LogReader implements LogCoverage.Checkpoints, AutoCloseable {
  private static final Duration POLL = Duration.ofMillis(200);
  private static final Duration PATIENCE = Duration.ofSeconds(5);
  private static final int FETCH_BYTES = 64 << 10;
  private static final int FETCH_WAIT_MS = 5;
  private static final int FIRST_LOOK_BACK = 16;

  private final KafkaConsumer<byte[], byte[]> consumer;
  private final Map<TopicPartition, Long> ends = new HashMap<>();

  public LogReader(ProcessorsClient processors) {
    Map<String, Object> settings = new HashMap<>(processors.consumerSettings());
    settings.put(ConsumerConfig.MAX_PARTITION_FETCH_BYTES_CONFIG, FETCH_BYTES);
    // A look at the end of a topic must not hold up the next look elsewhere.
    settings.put(ConsumerConfig.FETCH_MAX_WAIT_MS_CONFIG, FETCH_WAIT_MS);
    consumer =
        new KafkaConsumer<>(settings, new ByteArrayDeserializer(), new ByteArrayDeserializer());
  }

  @Override
  public void close() {
    consumer.close();
  }

  /** Sees what was written since it first looked at the end of a topic. */
  void lookAgain() {
    ends.clear();
  }

  /** Partitions of the facts, in order. */
  public List<Integer> partitions() {
    return consumer.partitionsFor(FactPublisher.FACTS_TOPIC).stream()
        .map(partition -> partition.partition())
        .sorted()
        .toList();
  }

  /** The record of the facts topic at an offset. */
  Optional<LogRecord> record(int partition, long offset) {
    return next(
            new TopicPartition(FactPublisher.FACTS_TOPIC, partition),
            offset,
            record -> Optional.of(ClusterLog.asKept(record)))
        .filter(found -> found.offset() == offset)
        .map(Found::value);
  }

  public Optional<ChainLink> newestLink(int partition) {
    return last(new TopicPartition(ChainLink.TOPIC, partition), LogReader::link);
  }

  @Override
  public Optional<Checkpoint> newestCheckpoint(int partition) {
    return last(new TopicPartition(Checkpoint.TOPIC, partition), LogReader::checkpoint);
  }

  @Override
  public Optional<Checkpoint> checkpointOver(int partition, long sequence) {
    return first(
            new TopicPartition(Checkpoint.TOPIC, partition),
            LogReader::checkpoint,
            Checkpoint::sequence,
            sequence)
        .map(Found::value);
  }

  /** The checkpoint with a number. */
  Optional<Checkpoint> checkpoint(int partition, long number) {
    return first(
            new TopicPartition(Checkpoint.TOPIC, partition),
            LogReader::checkpoint,
            Checkpoint::number,
            number)
        .map(Found::value)
        .filter(found -> found.number() == number);
  }

  /** Checkpoints of a partition from a number on, at most so many. */
  public List<Checkpoint> checkpoints(int partition, long fromNumber, int most) {
    TopicPartition place = new TopicPartition(Checkpoint.TOPIC, partition);
    return first(place, LogReader::checkpoint, Checkpoint::number, fromNumber)
        .map(start -> values(run(place, start.offset(), most, LogReader::checkpoint)))
        .orElse(List.of());
  }

  /**
   * The links from one number to another, both included.
   *
   * @throws NotReady if they are not all there to be read
   */
  List<ChainLink> links(int partition, long from, long until) {
    TopicPartition place = new TopicPartition(ChainLink.TOPIC, partition);
    int wanted = Math.toIntExact(until - from + 1);
    List<ChainLink> links =
        first(place, LogReader::link, ChainLink::sequence, from)
            .map(start -> values(run(place, start.offset(), wanted, LogReader::link)))
            .orElse(List.of());
    if (links.size() != wanted) {
      throw new NotReady(
          new NotReadyDetail.LinksNotGiven(
              place.toString(), Long.toString(from), Long.toString(until), links.size()),
          2);
    }
    return links;
  }

  /** A link; empty for a record that is none, which the processors did not write. */
  private static Optional<ChainLink> link(ConsumerRecord<byte[], byte[]> record) {
    return ChainLink.ifOne(record.key(), record.value())
        .filter(link -> link.partition() == record.partition());
  }

  private static Optional<Checkpoint> checkpoint(ConsumerRecord<byte[], byte[]> record) {
    return Checkpoint.ifOne(record.value())
        .filter(checkpoint -> checkpoint.partition() == record.partition());
  }

  /** What a record holds; empty for one that is to be passed over. */
  private interface Reading<T> extends Function<ConsumerRecord<byte[], byte[]>, Optional<T>> {}

  private record Found<T>(long offset, T value) {}

  private static <T> List<T> values(List<Found<T>> found) {
    return found.stream().map(Found::value).toList();
  }

  /** The first record whose number is at least the wanted one. */
  private <T> Optional<Found<T>> first(
      TopicPartition place, Reading<T> read, ToLongFunction<T> number, long wanted) {
    long low = 0;
    long high = end(place);
    Optional<Found<T>> best = Optional.empty();
    while (low < high) {
      long middle = low + (high - low) / 2;
      Optional<Found<T>> found = next(place, middle, read);
      if (found.isEmpty()) {
        high = middle;
      } else if (number.applyAsLong(found.get().value()) >= wanted) {
        best = found;
        high = middle;
      } else {
        low = found.get().offset() + 1;
      }
    }
    return best;
  }

  private <T> Optional<T> last(TopicPartition place, Reading<T> read) {
    long end = end(place);
    for (long back = FIRST_LOOK_BACK; ; back *= 2) {
      long from = Math.max(0, end - back);
      List<Found<T>> tail = run(place, from, Integer.MAX_VALUE, read);
      if (!tail.isEmpty()) {
        return Optional.of(tail.get(tail.size() - 1).value());
      }
      if (from == 0) {
        return Optional.empty();
      }
    }
  }

  private <T> Optional<Found<T>> next(TopicPartition place, long from, Reading<T> read) {
    return run(place, from, 1, read).stream().findFirst();
  }

  /** Records from an offset on, at most so many, up to the end as it was first seen. */
  private <T> List<Found<T>> run(TopicPartition place, long from, int most, Reading<T> read) {
    long end = end(place);
    consumer.assign(List.of(place));
    consumer.seek(place, from);
    List<Found<T>> found = new ArrayList<>();
    long deadline = System.nanoTime() + PATIENCE.toNanos();
    while (consumer.position(place) < end && found.size() < most) {
      for (ConsumerRecord<byte[], byte[]> record : consumer.poll(POLL)) {
        deadline = System.nanoTime() + PATIENCE.toNanos();
        if (found.size() < most && record.offset() < end) {
          read.apply(record).ifPresent(value -> found.add(new Found<>(record.offset(), value)));
        }
      }
      if (System.nanoTime() > deadline) {
        throw new NotReady(
            new NotReadyDetail.RecordsNotGiven(place.toString(), Long.toString(from)), 5);
      }
    }
    return found;
  }

  private long end(TopicPartition place) {
    return ends.computeIfAbsent(
        place, unknown -> consumer.endOffsets(List.of(unknown), PATIENCE).get(unknown));
  }
}
