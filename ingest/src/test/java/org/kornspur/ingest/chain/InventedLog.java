package org.kornspur.ingest.chain;

import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.Set;
import org.kornspur.ingest.seal.SigningKey;

/**
 * A log with its chain, as the processors keep it, made by chance: offsets with gaps as from
 * transactions, records that come twice, records without key or value, headers. All of it can be
 * changed, as whoever holds the disks can.
 */
final class InventedLog {
  static final SigningKey KEY = SigningKey.random();
  private static final Instant START = Instant.parse("2026-01-01T00:00:00Z");

  /** One partition, open to tampering. */
  static final class Part {
    final int number;
    final List<LogRecord> records = new ArrayList<>();
    final List<ChainLink> links = new ArrayList<>();
    final List<Checkpoint> checkpoints = new ArrayList<>();

    Part(int number) {
      this.number = number;
    }

    PartitionLog closed() {
      return new PartitionLog(
          number, records.stream().map(LogRecord::entry).toList(), links, checkpoints, Set.of());
    }

    /** Makes every link again from the records, as one can who has no key. */
    void remakeLinks() {
      links.clear();
      ChainHead head = ChainHead.start(number);
      for (LogRecord record : records) {
        ChainLink link = head.link(record.entry());
        links.add(link);
        head = head.with(link);
      }
    }

    /** How many records the newest checkpoint covers. */
    int signed() {
      return checkpoints.isEmpty() ? 0 : (int) checkpoints.get(checkpoints.size() - 1).sequence();
    }
  }

  final List<Part> parts = new ArrayList<>();

  /**
   * @param recordsEach records in each partition
   * @param checkpointEvery records from one checkpoint to the next
   */
  InventedLog(Random random, int partitions, int recordsEach, int checkpointEvery) {
    for (int number = 0; number < partitions; number++) {
      parts.add(part(random, number, recordsEach, checkpointEvery));
    }
  }

  List<PartitionLog> closed() {
    return parts.stream().map(Part::closed).toList();
  }

  private static Part part(Random random, int number, int records, int checkpointEvery) {
    Part part = new Part(number);
    ChainHead head = ChainHead.start(number);
    long offset = 0;
    for (int i = 0; i < records; i++) {
      LogRecord record = record(random, number, offset, part.records);
      part.records.add(record);
      ChainLink link = ChainHead.read(head.write()).link(record.entry());
      part.links.add(ChainLink.read(record.key(), link.write()));
      head = head.with(link);
      if ((i + 1) % checkpointEvery == 0) {
        Checkpoint checkpoint = head.sign(KEY, START.plusSeconds(i));
        part.checkpoints.add(Checkpoint.read(checkpoint.write()));
        head = head.with(checkpoint);
      }
      offset += 1 + (random.nextInt(4) == 0 ? random.nextInt(3) : 0);
    }
    return part;
  }

  private static LogRecord record(
      Random random, int partition, long offset, List<LogRecord> before) {
    if (!before.isEmpty() && random.nextInt(8) == 0) {
      LogRecord again = before.get(random.nextInt(before.size()));
      return new LogRecord(
          partition,
          offset,
          random.nextBoolean() ? again.timestampMs() : START.toEpochMilli() + offset,
          again.key(),
          again.value(),
          again.headers());
    }
    byte[] value = new byte[1 + random.nextInt(60)];
    random.nextBytes(value);
    String factId = "p" + partition + "-f" + offset;
    return new LogRecord(
        partition,
        offset,
        START.toEpochMilli() + random.nextInt(1_000_000),
        random.nextInt(20) == 0 ? null : factId.getBytes(StandardCharsets.UTF_8),
        random.nextInt(20) == 0 ? null : value,
        random.nextInt(5) == 0 ? List.of(new LogRecord.Header("from", new byte[] {1})) : List.of());
  }

  /** A record that was never in the log. */
  static LogRecord foreign(Random random, int partition, long offset) {
    byte[] value = new byte[40];
    random.nextBytes(value);
    return new LogRecord(
        partition,
        offset,
        1,
        ("x" + random.nextLong()).getBytes(StandardCharsets.UTF_8),
        value,
        List.of());
  }

  /** The same record in another place. */
  static LogRecord at(LogRecord record, int partition, long offset) {
    return new LogRecord(
        partition, offset, record.timestampMs(), record.key(), record.value(), record.headers());
  }

  /** A record with one bit of its value, key, time or headers changed. */
  static LogRecord flipped(Random random, LogRecord record) {
    byte[] value = record.value() == null ? new byte[0] : record.value().clone();
    byte[] key = record.key() == null ? new byte[0] : record.key().clone();
    long timestampMs = record.timestampMs();
    List<LogRecord.Header> headers = record.headers();
    int what = random.nextInt(4);
    if (what == 0 && key.length > 0) {
      key[random.nextInt(key.length)] ^= (byte) (1 << random.nextInt(7));
    } else if (what == 1) {
      timestampMs ^= 1L << random.nextInt(40);
    } else if (what == 2) {
      headers = List.of(new LogRecord.Header("from", new byte[] {2}));
    } else if (value.length > 0) {
      value[random.nextInt(value.length)] ^= (byte) (1 << random.nextInt(8));
    } else {
      value = new byte[] {0};
    }
    return new LogRecord(
        record.partition(),
        record.offset(),
        timestampMs,
        record.key() == null && key.length == 0 ? null : key,
        record.value() == null && value.length == 0 ? null : value,
        headers);
  }
}
