package org.kornspur.processors.stream;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.HashMap;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.TreeMap;
import org.apache.kafka.streams.processor.api.ProcessorContext;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Counts the records that the processors could not process, and tells of them in the log: of each
 * topic and kind of fault once a minute, so that who floods a topic does not flood the log too.
 * Safe for several threads.
 */
public final class SkippedRecords {
  private static final Logger LOG = LoggerFactory.getLogger(SkippedRecords.class);
  private static final Duration BETWEEN_LINES = Duration.ofMinutes(1);

  private final Clock clock;
  private final Map<String, Long> byTopic = new TreeMap<>();
  private final Map<Kind, Told> told = new HashMap<>();

  private record Kind(String topic, String fault) {}

  /** When a kind was last told of, and how many came since. */
  private record Told(Instant at, long since) {}

  public SkippedRecords() {
    this(Clock.systemUTC());
  }

  SkippedRecords(Clock clock) {
    this.clock = clock;
  }

  /**
   * Notes that a record could not be processed.
   *
   * @param where the processor or source that could not take it
   */
  void add(String topic, int partition, long offset, String where, Throwable because) {
    note(topic, because)
        .ifPresent(
            since ->
                LOG.error(
                    "{}-{} offset {} cannot be processed at {} ({} like it since the last line)."
                        + " Look at the record and at who may write to this topic",
                    topic,
                    partition,
                    offset,
                    where,
                    since,
                    because));
  }

  /** Notes that a record is none; where that was found out tells nobody anything. */
  void addUnreadable(String topic, int partition, long offset, Throwable because) {
    note(topic, because)
        .ifPresent(
            since ->
                LOG.error(
                    "{}-{} offset {} cannot be read ({} like it since the last line). Look at the"
                        + " record and at who may write to this topic: {}",
                    topic,
                    partition,
                    offset,
                    since,
                    because.toString()));
  }

  /** Counts it; gives how many like it were not told of, where it is to be told. */
  private synchronized Optional<Long> note(String topic, Throwable because) {
    // what is done by the clock alone has no topic
    String from = Objects.requireNonNullElse(topic, "no topic");
    byTopic.merge(from, 1L, Long::sum);
    Kind kind = new Kind(from, because.getClass().getName());
    Instant now = clock.instant();
    Told before = told.get(kind);
    if (before != null && before.at().plus(BETWEEN_LINES).isAfter(now)) {
      told.put(kind, new Told(before.at(), before.since() + 1));
      return Optional.empty();
    }
    told.put(kind, new Told(now, 0));
    return Optional.of(before == null ? 0L : before.since());
  }

  /** Notes that the record which a processor has just now cannot be processed. */
  void add(ProcessorContext<?, ?> context, String where, Throwable because) {
    context
        .recordMetadata()
        .ifPresent(at -> add(at.topic(), at.partition(), at.offset(), where, because));
  }

  /** How many there were since the start, by topic. */
  public synchronized Map<String, Long> byTopic() {
    return Map.copyOf(byTopic);
  }

  /** How many there were since the start. */
  public synchronized long total() {
    return byTopic.values().stream().mapToLong(Long::longValue).sum();
  }
}
