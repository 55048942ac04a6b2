package org.kornspur.api.kafka;

import java.time.Duration;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;
import org.apache.kafka.clients.consumer.CloseOptions;
import org.apache.kafka.clients.consumer.ConsumerConfig;
import org.apache.kafka.clients.consumer.ConsumerRecord;
import org.apache.kafka.clients.consumer.KafkaConsumer;
import org.apache.kafka.common.TopicPartition;
import org.apache.kafka.common.serialization.StringDeserializer;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.stream.Keys;
import org.kornspur.processors.stream.Topics;

/**
 * Which dossiers and edges of the pedigree change, on whatever instance. It looks at the keys of
 * the records that bring the changes; they are on their way when it tells of them, and in the
 * stores once nothing waits to be processed. For one thread.
 */
public final class DossierChanges implements AutoCloseable {
  /** Of more it is quicker to take all for changed than to read which. */
  private static final long MOST_READ = 5_000;

  private static final Duration POLL = Duration.ofMillis(50);
  private static final Duration LONGEST_READ = Duration.ofMillis(500);
  private static final List<Topics> CHANGES =
      List.of(Topics.BY_SUBJECT, Topics.REPORTS, Topics.EDGES);
  private static final int MOST_FETCHED_BYTES = 1 << 20;

  private final KafkaConsumer<String, Void> consumer;
  private boolean mayHaveMissed = true;

  /**
   * Looks from now on.
   *
   * @throws NotReady if the processors do not run yet
   */
  public DossierChanges(ProcessorsClient processors) {
    Map<String, Object> settings = new HashMap<>(processors.consumerSettings());
    settings.put(ConsumerConfig.CLIENT_ID_CONFIG, "dossier-changes");
    settings.put(ConsumerConfig.FETCH_MAX_BYTES_CONFIG, MOST_FETCHED_BYTES);
    consumer = new KafkaConsumer<>(settings, new StringDeserializer(), (topic, value) -> null);
    consumer.assign(
        CHANGES.stream()
            .flatMap(topic -> consumer.partitionsFor(topic.topicName()).stream())
            .map(part -> new TopicPartition(part.topic(), part.partition()))
            .toList());
    skipToEnd();
  }

  /**
   * What changed since the last look.
   *
   * @param all whether everything is to be taken for changed
   * @param subjects those that a fact, a report or an edge came for, or went
   */
  public record Changed(boolean all, Set<Subject> subjects) {}

  /** Looks again; at the first look all is taken for changed. */
  public Changed next() {
    Map<TopicPartition, Long> ends = consumer.endOffsets(consumer.assignment());
    if (behind(ends) > MOST_READ) {
      skipToEnd();
      mayHaveMissed = true;
    }
    boolean all = mayHaveMissed;
    mayHaveMissed = false;
    Set<Subject> subjects = new HashSet<>();
    long last = System.nanoTime() + LONGEST_READ.toNanos();
    while (behind(ends) > 0 && System.nanoTime() - last < 0) {
      for (ConsumerRecord<String, Void> record : consumer.poll(POLL)) {
        named(record.key()).forEach(subjects::add);
      }
    }
    return new Changed(all, subjects);
  }

  private long behind(Map<TopicPartition, Long> ends) {
    return ends.entrySet().stream()
        .mapToLong(end -> Math.max(0, end.getValue() - consumer.position(end.getKey())))
        .sum();
  }

  private void skipToEnd() {
    consumer.seekToEnd(consumer.assignment());
    consumer.assignment().forEach(consumer::position);
  }

  /** The subjects in a key; one that nobody of this program wrote names none. */
  static Stream<Subject> named(String key) {
    return key == null
        ? Stream.empty()
        : Keys.parts(key).stream()
            .flatMap(
                part -> {
                  try {
                    return Stream.of(Subject.parse(part));
                  } catch (IllegalArgumentException noSubject) {
                    return Stream.empty();
                  }
                });
  }

  @Override
  public void close() {
    consumer.close(CloseOptions.timeout(Duration.ofSeconds(1)));
  }
}
