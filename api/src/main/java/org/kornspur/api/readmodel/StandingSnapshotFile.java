package org.kornspur.api.readmodel;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.apache.kafka.clients.consumer.Consumer;
import org.apache.kafka.clients.consumer.ConsumerRecord;
import org.apache.kafka.common.KafkaException;
import org.apache.kafka.common.TopicPartition;
import org.jboss.logging.Logger;
import org.kornspur.api.kafka.EarlierTopicSettings;
import org.kornspur.api.kafka.NotReady;
import org.kornspur.ingest.registry.RegistryUnreachable;
import org.kornspur.standing.LotStanding;

/**
 * Keeps the standings over a restart, so that a start reads only what is new. Only for the broker
 * in this process: of another it is not known how long it tells what was taken out of a topic.
 *
 * <p>A file is written at the end of a run, and now and then before, and holds for a week. Whatever
 * is odd about it, it is not used, and the topic is read from its beginning.
 */
final class StandingSnapshotFile implements TopicSnapshot {
  /** Within the data folder. */
  static final String FOLDER = "read-model";

  static final String FILE = "standings";

  private static final Logger LOG = Logger.getLogger(StandingSnapshotFile.class);

  /** Beyond it a subject that was taken out of the topic meanwhile might not be heard of. */
  private static final Duration LONGEST_AGE = EarlierTopicSettings.TOLD_OF_REMOVAL.minusDays(1);

  private static final int RECORDS_BETWEEN = 20_000;
  private static final Duration LOOK = Duration.ofSeconds(5);

  private final Path file;
  private final StandingIndex standings;
  private final Function<CompressedRecord, LotStanding> reading;
  private final java.util.function.Consumer<TopicPositions> goesOn;
  private final Map<Integer, ConsumerRecord<String, byte[]>> latest = new HashMap<>();
  private SortedMap<Integer, StandingSnapshot.LastRecord> recalled = new TreeMap<>();
  private int sinceWritten;

  /**
   * @param folder of the files; it is made when the first is written
   * @param goesOn is told where the topic is read on after a recall
   */
  StandingSnapshotFile(
      Path folder,
      StandingIndex standings,
      Function<CompressedRecord, LotStanding> reading,
      java.util.function.Consumer<TopicPositions> goesOn) {
    this.file = folder.resolve(FILE);
    this.standings = standings;
    this.reading = reading;
    this.goesOn = goesOn;
  }

  @Override
  public Map<TopicPartition, Long> recall(Consumer<String, byte[]> topic) {
    try {
      return Files.exists(file) ? recalled(topic) : Map.of();
    } catch (NotReady | RegistryUnreachable | KafkaException notNow) {
      forget();
      standings.clear();
      throw notNow;
    } catch (IOException | RuntimeException odd) {
      LOG.warnf("%s is not used, standings are read from the beginning: %s", file, odd);
      return nothing();
    }
  }

  private Map<TopicPartition, Long> recalled(Consumer<String, byte[]> topic) throws IOException {
    Recall recall = new Recall(topic);
    StandingSnapshot.read(file, recall);
    if (recall.refusal.isPresent()) {
      LOG.infof(
          "%s is not used, standings are read from the beginning: %s", file, recall.refusal.get());
      return nothing();
    }
    recalled = recall.head.last();
    goesOn.accept(
        new TopicPositions(
            recalled.entrySet().stream()
                .collect(
                    Collectors.toMap(
                        Map.Entry::getKey,
                        last -> last.getValue().offset(),
                        (one, other) -> other,
                        TreeMap::new))));
    LOG.infof("%d standings were read from %s", standings.size(), file);
    return topic.assignment().stream()
        .filter(partition -> recalled.containsKey(partition.partition()))
        .collect(
            Collectors.toMap(
                Function.identity(),
                partition -> recalled.get(partition.partition()).offset() + 1));
  }

  private Map<TopicPartition, Long> nothing() {
    forget();
    standings.clear();
    try {
      Files.deleteIfExists(file);
    } catch (IOException stays) {
      LOG.warnf("%s cannot be deleted: %s", file, stays);
    }
    return Map.of();
  }

  /** Nothing that was read before counts any more. */
  void forget() {
    latest.clear();
    recalled = new TreeMap<>();
    sinceWritten = 0;
  }

  /** After each record, once the index holds what it says; on the thread of the feed. */
  void taken(ConsumerRecord<String, byte[]> record, boolean isCaughtUp) {
    latest.put(record.partition(), record);
    sinceWritten++;
    if (isCaughtUp && sinceWritten >= RECORDS_BETWEEN) {
      write();
    }
  }

  /** Leaves for the next start what the index holds; not while a record is taken. */
  void write() {
    sinceWritten = 0;
    SortedMap<Integer, StandingSnapshot.LastRecord> last = new TreeMap<>(recalled);
    latest.forEach((at, record) -> last.put(at, StandingSnapshot.LastRecord.of(record)));
    if (last.isEmpty()) {
      return;
    }
    try {
      Files.createDirectories(file.getParent());
      new StandingSnapshot(
              Instant.now(),
              last,
              standings.all().stream()
                  .map(one -> new StandingSnapshot.Kept(one.row().changedAt(), one.packed()))
                  .toList())
          .write(file);
    } catch (IOException notWritten) {
      LOG.warnf("%s cannot be written; the next start takes longer: %s", file, notWritten);
    }
  }

  /** Holds the head of a file against the topic, and fills the index. */
  private final class Recall implements StandingSnapshot.Reader {
    private final Consumer<String, byte[]> topic;
    private StandingSnapshot head;
    private Optional<String> refusal = Optional.empty();

    Recall(Consumer<String, byte[]> topic) {
      this.topic = topic;
    }

    @Override
    public boolean wants(StandingSnapshot found) {
      head = found;
      Duration age = Duration.between(found.takenAt(), Instant.now());
      if (age.isNegative() || age.compareTo(LONGEST_AGE) > 0) {
        refusal = Optional.of("it is of " + found.takenAt());
      } else if (!found.last().entrySet().stream().allMatch(this::isThere)) {
        refusal = Optional.of("its last records are not those of the topic");
      }
      return refusal.isEmpty();
    }

    private boolean isThere(Map.Entry<Integer, StandingSnapshot.LastRecord> last) {
      Optional<TopicPartition> partition =
          topic.assignment().stream().filter(one -> one.partition() == last.getKey()).findFirst();
      return partition
          .flatMap(at -> recordAt(at, last.getValue().offset()))
          .filter(record -> StandingSnapshot.LastRecord.of(record).equals(last.getValue()))
          .isPresent();
    }

    private Optional<ConsumerRecord<String, byte[]>> recordAt(TopicPartition partition, long at) {
      long end = topic.endOffsets(Set.of(partition)).get(partition);
      if (at >= end) {
        return Optional.empty();
      }
      topic.pause(topic.assignment());
      topic.resume(Set.of(partition));
      topic.seek(partition, at);
      long until = System.nanoTime() + LOOK.toNanos();
      Optional<ConsumerRecord<String, byte[]>> found = Optional.empty();
      while (found.isEmpty() && System.nanoTime() - until < 0) {
        found = topic.poll(LOOK.dividedBy(10)).records(partition).stream().findFirst();
      }
      topic.resume(topic.assignment());
      return found.filter(record -> record.offset() == at);
    }

    @Override
    public void take(StandingSnapshot.Kept kept) {
      standings.put(reading.apply(kept.packed()), kept.packed(), kept.changedAt());
    }
  }
}
