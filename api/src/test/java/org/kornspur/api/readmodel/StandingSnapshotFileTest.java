package org.kornspur.api.readmodel;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.TreeMap;
import java.util.stream.Stream;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.domains.Domain;
import net.jqwik.api.domains.DomainContext;
import net.jqwik.api.lifecycle.AfterTry;
import net.jqwik.api.lifecycle.BeforeTry;
import org.apache.kafka.clients.consumer.ConsumerRecord;
import org.apache.kafka.clients.consumer.MockConsumer;
import org.apache.kafka.common.TopicPartition;
import org.apache.kafka.common.header.internals.RecordHeaders;
import org.apache.kafka.common.record.TimestampType;
import org.kornspur.api.readmodel.StandingChanges.Change;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.standing.LotStanding;

/** What a run leaves to the next start. */
@Domain(StandingChanges.class)
@Domain(DomainContext.Global.class)
class StandingSnapshotFileTest {
  private static final String TOPIC = "standings";
  private static final int PARTITIONS = 2;

  private Path folder;

  @BeforeTry
  void makeFolder() throws IOException {
    folder = Files.createTempDirectory("standings");
  }

  @AfterTry
  void deleteFolder() throws IOException {
    try (Stream<Path> files = Files.list(folder)) {
      for (Path file : files.toList()) {
        Files.delete(file);
      }
    }
    Files.delete(folder);
  }

  @Property(tries = 150)
  void theNextStartHoldsTheSameAndGoesOnBehindIt(@ForAll List<Change> changes) {
    List<ConsumerRecord<String, byte[]>> topic = records(changes);
    Run before = new Run();
    before.read(topic);
    before.memory.write();

    Run after = new Run();
    Map<TopicPartition, Long> next = after.memory.recall(consumer(topic));

    assertThat(shown(after.index)).isEqualTo(shown(before.index));
    for (int partition = 0; partition < PARTITIONS; partition++) {
      TopicPartition at = new TopicPartition(TOPIC, partition);
      List<ConsumerRecord<String, byte[]>> read = of(topic, partition);
      assertThat(next.getOrDefault(at, 0L)).isEqualTo(read.size());
    }
    assertThat(after.goesOn.isPresent()).isEqualTo(!topic.isEmpty());
  }

  @Property(tries = 100)
  void aSecondRestartWithNothingNewHoldsTheSame(@ForAll List<Change> changes) {
    List<ConsumerRecord<String, byte[]>> topic = records(changes);
    Run first = new Run();
    first.read(topic);
    first.memory.write();
    Run second = new Run();
    second.memory.recall(consumer(topic));
    second.memory.write();
    Run third = new Run();
    third.memory.recall(consumer(topic));

    assertThat(shown(third.index)).isEqualTo(shown(first.index));
  }

  @Property(tries = 150)
  void aDamagedFileIsNotUsed(@ForAll List<Change> changes, @ForAll Random random)
      throws IOException {
    List<ConsumerRecord<String, byte[]>> topic = records(changes);
    if (topic.isEmpty()) {
      return;
    }
    Run before = new Run();
    before.read(topic);
    before.memory.write();
    Path file = folder.resolve(StandingSnapshotFile.FILE);
    byte[] bytes = Files.readAllBytes(file);
    if (random.nextBoolean()) {
      bytes[random.nextInt(bytes.length)] ^= (byte) (1 << random.nextInt(8));
    } else {
      bytes = Arrays.copyOf(bytes, random.nextInt(bytes.length));
    }
    Files.write(file, bytes);

    assertNotUsed(topic);
  }

  @Property(tries = 100)
  void aFileOfAnotherTopicIsNotUsed(@ForAll List<Change> changes, @ForAll Random random) {
    List<ConsumerRecord<String, byte[]>> topic = records(changes);
    if (topic.isEmpty()) {
      return;
    }
    Run before = new Run();
    before.read(topic);
    before.memory.write();
    List<ConsumerRecord<String, byte[]>> other = new ArrayList<>(topic);
    ConsumerRecord<String, byte[]> last = other.remove(other.size() - 1);
    if (random.nextBoolean()) {
      other.add(
          record(last.partition(), last.offset(), last.key(), last.value(), last.timestamp() + 1));
    }

    assertNotUsed(other);
  }

  @Property(tries = 20)
  void aFileHoldsForAWeek(@ForAll List<Change> changes) throws IOException {
    List<ConsumerRecord<String, byte[]>> topic = records(changes);
    if (topic.isEmpty()) {
      return;
    }
    Run before = new Run();
    before.read(topic);

    write(before, topic, Duration.ofDays(6));
    Run restarted = new Run();
    assertThat(restarted.memory.recall(consumer(topic))).isNotEmpty();
    assertThat(shown(restarted.index)).isEqualTo(shown(before.index));
    write(before, topic, Duration.ofDays(8));
    assertNotUsed(topic);
    write(before, topic, Duration.ofHours(-1));
    assertNotUsed(topic);
  }

  private void assertNotUsed(List<ConsumerRecord<String, byte[]>> topic) {
    Run after = new Run();
    assertThat(after.memory.recall(consumer(topic))).isEmpty();
    assertThat(after.index.size()).isZero();
    assertThat(after.goesOn).isEmpty();
    assertThat(folder).isEmptyDirectory();
  }

  private void write(Run run, List<ConsumerRecord<String, byte[]>> topic, Duration age)
      throws IOException {
    var last = new TreeMap<Integer, StandingSnapshot.LastRecord>();
    topic.forEach(one -> last.put(one.partition(), StandingSnapshot.LastRecord.of(one)));
    new StandingSnapshot(
            Instant.now().minus(age),
            last,
            run.index.all().stream()
                .map(one -> new StandingSnapshot.Kept(one.row().changedAt(), one.packed()))
                .toList())
        .write(folder.resolve(StandingSnapshotFile.FILE));
  }

  /** One run of the program. */
  private final class Run {
    private final StandingIndex index = new StandingIndex();
    private Optional<TopicPositions> goesOn = Optional.empty();
    private final StandingSnapshotFile memory =
        new StandingSnapshotFile(
            folder,
            index,
            packed -> standing(packed.unpacked()),
            positions -> goesOn = Optional.of(positions));

    void read(List<ConsumerRecord<String, byte[]>> topic) {
      for (ConsumerRecord<String, byte[]> record : topic) {
        if (record.value() == null) {
          index.remove(Subject.parse(record.key()));
        } else {
          index.put(
              standing(record.value()), record.value(), Instant.ofEpochMilli(record.timestamp()));
        }
        memory.taken(record, true);
      }
    }
  }

  private static List<Object> shown(StandingIndex index) {
    StandingQuery all = StandingChanges.query(EnumSet.of(Subject.Kind.LOT, Subject.Kind.CROP));
    List<Object> shown = new ArrayList<>();
    ResultPage<StandingIndexRow> rows = index.find(all, row -> true);
    shown.add(rows);
    rows.items().forEach(row -> shown.add(standing(index.bytes(row.subject()).orElseThrow())));
    shown.add(index.waiting(all, 5).allCauses());
    shown.add(index.waiting(all, 5).allOwed());
    shown.add(index.values());
    shown.add(index.seasons(Subject.Kind.LOT, SeasonFilter.ALL));
    shown.add(index.f1Crops());
    return shown;
  }

  private static LotStanding standing(byte[] bytes) {
    try {
      return LotStanding.fromByteBuffer(ByteBuffer.wrap(bytes));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static List<ConsumerRecord<String, byte[]>> records(List<Change> changes) {
    long[] ends = new long[PARTITIONS];
    List<ConsumerRecord<String, byte[]>> records = new ArrayList<>();
    for (Change change : changes) {
      int partition = Math.floorMod(change.subject().hashCode(), PARTITIONS);
      records.add(
          record(
              partition,
              ends[partition]++,
              change.subject().toString(),
              change.standing().map(StandingSnapshotFileTest::bytes).orElse(null),
              change.at().toEpochMilli()));
    }
    return records;
  }

  private static byte[] bytes(LotStanding standing) {
    try {
      return standing.toByteBuffer().array().clone();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static ConsumerRecord<String, byte[]> record(
      int partition, long offset, String key, byte[] value, long timestamp) {
    return new ConsumerRecord<>(
        TOPIC,
        partition,
        offset,
        timestamp,
        TimestampType.CREATE_TIME,
        key.length(),
        value == null ? -1 : value.length,
        key,
        value,
        new RecordHeaders(),
        Optional.empty());
  }

  private static List<ConsumerRecord<String, byte[]>> of(
      List<ConsumerRecord<String, byte[]>> topic, int partition) {
    return topic.stream().filter(one -> one.partition() == partition).toList();
  }

  private static MockConsumer<String, byte[]> consumer(List<ConsumerRecord<String, byte[]>> topic) {
    MockConsumer<String, byte[]> consumer = new MockConsumer<>("earliest");
    List<TopicPartition> partitions = new ArrayList<>();
    for (int partition = 0; partition < PARTITIONS; partition++) {
      partitions.add(new TopicPartition(TOPIC, partition));
    }
    consumer.assign(partitions);
    for (TopicPartition at : partitions) {
      consumer.updateBeginningOffsets(Map.of(at, 0L));
      consumer.updateEndOffsets(Map.of(at, (long) of(topic, at.partition()).size()));
      consumer.seek(at, 0);
    }
    topic.forEach(consumer::addRecord);
    return consumer;
  }
}
