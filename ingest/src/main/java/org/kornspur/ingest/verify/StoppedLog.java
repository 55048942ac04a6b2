package org.kornspur.ingest.verify;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.apache.kafka.common.record.ControlRecordType;
import org.apache.kafka.common.record.FileLogInputStream.FileChannelRecordBatch;
import org.apache.kafka.common.record.FileRecords;
import org.apache.kafka.common.record.Record;
import org.apache.kafka.common.utils.Utils;
import org.kornspur.ingest.chain.ChainLink;
import org.kornspur.ingest.chain.Checkpoint;
import org.kornspur.ingest.chain.LogRecord;
import org.kornspur.ingest.chain.PartitionLog;
import org.kornspur.ingest.publish.FactPublisher;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Reads records, links and checkpoints from the log files of a broker that is stopped, without
 * trusting that broker. What damage made unreadable is missing. Records of transactions that were
 * not committed are left out, as a reader of committed records never sees them.
 */
final class StoppedLog {

  private static final Pattern PARTITION =
      Pattern.compile("(" + Pattern.quote(KnownPartitions.PREFIX) + ".+)-(\\d{1,6})");

  private static final Logger LOG = LoggerFactory.getLogger(StoppedLog.class);

  private StoppedLog() {}

  /**
   * Reads everything.
   *
   * @param folder the data folder of Kornspur, or the log folder of a broker
   * @throws IllegalArgumentException if nothing of facts, links and checkpoints lies there
   * @throws IOException if a file cannot be read
   */
  static List<PartitionLog> read(Path folder) throws IOException {
    Path broker = Files.isDirectory(folder.resolve("broker")) ? folder.resolve("broker") : folder;
    List<PartitionLog> log = new ArrayList<>();
    KnownPartitions known = partitionsIn(broker);
    for (int partition : known.all()) {
      log.add(
          new PartitionLog(
              partition,
              records(broker, FactPublisher.FACTS_TOPIC, partition).stream()
                  .map(LogRecord::entry)
                  .toList(),
              records(broker, ChainLink.TOPIC, partition).stream()
                  .map(record -> ChainLink.read(record.key(), record.value()))
                  .toList(),
              records(broker, Checkpoint.TOPIC, partition).stream()
                  .map(record -> Checkpoint.read(record.value()))
                  .toList(),
              known.missing(partition)));
    }
    return log;
  }

  private static KnownPartitions partitionsIn(Path broker) throws IOException {
    Map<String, Set<Integer>> there = new HashMap<>();
    try (Stream<Path> folders = Files.list(broker)) {
      folders
          .map(path -> PARTITION.matcher(path.getFileName().toString()))
          .filter(Matcher::matches)
          .forEach(
              name ->
                  there
                      .computeIfAbsent(name.group(1), topic -> new HashSet<>())
                      .add(Integer.parseInt(name.group(2))));
    }
    KnownPartitions known = new KnownPartitions(there, DeclaredTopics.in(broker));
    if (!known.areAny()) {
      throw new IllegalArgumentException(
          "%s holds no folder %s-0. Give the data folder of a Kornspur that is stopped"
              .formatted(broker, FactPublisher.FACTS_TOPIC));
    }
    return known;
  }

  private static List<LogRecord> records(Path broker, String topic, int partition)
      throws IOException {
    Path folder = broker.resolve(topic + "-" + partition);
    if (!Files.isDirectory(folder)) {
      return List.of();
    }
    List<Path> segments;
    try (Stream<Path> files = Files.list(folder)) {
      segments = files.filter(file -> file.toString().endsWith(".log")).sorted().toList();
    }
    Committed committed = new Committed(partition);
    for (Path segment : segments) {
      try (FileRecords file = FileRecords.open(segment.toFile(), false)) {
        for (FileChannelRecordBatch batch : file.batches()) {
          committed.takeIfReadable(batch);
        }
      } catch (RuntimeException unreadable) {
        // Bytes that mean nothing fail in many ways. Where a batch begins is lost, and with it the
        // rest of this file: its records are missing.
        continue;
      }
    }
    return committed.inOrder();
  }

  /** Holds what belongs to a transaction until its end is known. */
  private static final class Committed {
    private final int partition;
    private final List<LogRecord> taken = new ArrayList<>();
    private final Map<Long, List<LogRecord>> open = new HashMap<>();

    Committed(int partition) {
      this.partition = partition;
    }

    /** A batch that damage made unreadable is missing; the chain names its first record. */
    void takeIfReadable(FileChannelRecordBatch batch) {
      try {
        take(batch);
      } catch (RuntimeException unreadable) {
        LOG.warn(
            "A batch of partition {} from offset {} cannot be read: {}",
            partition,
            batch.baseOffset(),
            unreadable.toString());
      }
    }

    private void take(FileChannelRecordBatch batch) {
      if (batch.isControlBatch()) {
        List<LogRecord> ended = open.remove(batch.producerId());
        Record marker = batch.iterator().next();
        if (ended != null && ControlRecordType.parse(marker.key()) == ControlRecordType.COMMIT) {
          taken.addAll(ended);
        }
        return;
      }
      List<LogRecord> whole = new ArrayList<>();
      for (Record record : batch) {
        whole.add(asKept(record));
      }
      (batch.isTransactional()
              ? open.computeIfAbsent(batch.producerId(), id -> new ArrayList<>())
              : taken)
          .addAll(whole);
    }

    private LogRecord asKept(Record record) {
      return new LogRecord(
          partition,
          record.offset(),
          record.timestamp(),
          Utils.toNullableArray(record.key()),
          Utils.toNullableArray(record.value()),
          ClusterLog.headers(record.headers()));
    }

    List<LogRecord> inOrder() {
      return taken.stream().sorted(Comparator.comparingLong(LogRecord::offset)).toList();
    }
  }
}
