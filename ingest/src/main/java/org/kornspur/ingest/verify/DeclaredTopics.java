package org.kornspur.ingest.verify;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.apache.kafka.common.Uuid;
import org.apache.kafka.common.metadata.PartitionRecord;
import org.apache.kafka.common.metadata.RemoveTopicRecord;
import org.apache.kafka.common.metadata.TopicRecord;
import org.apache.kafka.common.protocol.ByteBufferAccessor;
import org.apache.kafka.common.record.FileLogInputStream.FileChannelRecordBatch;
import org.apache.kafka.common.record.FileRecords;
import org.apache.kafka.common.record.Record;
import org.apache.kafka.metadata.MetadataRecordSerde;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The topics that a stopped broker says it has: its metadata log, which it keeps beside them where
 * it is its own controller (KRaft). Nothing signs that log: it can show that something is missing,
 * never that all is there.
 */
final class DeclaredTopics {
  private static final Logger LOG = LoggerFactory.getLogger(DeclaredTopics.class);
  private static final String FOLDER = "__cluster_metadata-0";

  private final Map<Uuid, String> names = new HashMap<>();
  private final Map<Uuid, Set<Integer>> partitions = new HashMap<>();

  private DeclaredTopics() {}

  /** Partitions by topic; none where there is no such log, or it cannot be read. */
  static Map<String, Set<Integer>> in(Path broker) throws IOException {
    Path folder = broker.resolve(FOLDER);
    if (!Files.isDirectory(folder)) {
      return Map.of();
    }
    DeclaredTopics topics = new DeclaredTopics();
    for (Path file : files(folder)) {
      topics.read(file);
    }
    Map<String, Set<Integer>> declared = new HashMap<>();
    topics.names.forEach(
        (id, name) -> declared.put(name, topics.partitions.getOrDefault(id, Set.of())));
    return declared;
  }

  /** Snapshots first: what was removed after one stands in a log file. */
  private static List<Path> files(Path folder) throws IOException {
    try (Stream<Path> files = Files.list(folder)) {
      return files
          .filter(file -> file.toString().endsWith(".checkpoint") || isLog(file))
          .sorted(
              Comparator.comparing(DeclaredTopics::isLog).thenComparing(Comparator.naturalOrder()))
          .toList();
    }
  }

  private static boolean isLog(Path file) {
    return file.toString().endsWith(".log");
  }

  private void read(Path file) throws IOException {
    try (FileRecords records = FileRecords.open(file.toFile(), false)) {
      for (FileChannelRecordBatch batch : records.batches()) {
        if (!batch.isControlBatch()) {
          batch.forEach(this::take);
        }
      }
    } catch (RuntimeException unreadable) {
      LOG.warn("{} cannot be read to its end: {}", file, unreadable.toString());
    }
  }

  private void take(Record record) {
    var message =
        MetadataRecordSerde.INSTANCE
            .read(new ByteBufferAccessor(record.value()), record.valueSize())
            .message();
    if (message instanceof TopicRecord topic) {
      names.put(topic.topicId(), topic.name());
    } else if (message instanceof PartitionRecord partition) {
      partitions
          .computeIfAbsent(partition.topicId(), id -> new TreeSet<>())
          .add(partition.partitionId());
    } else if (message instanceof RemoveTopicRecord removed) {
      names.remove(removed.topicId());
    }
  }
}
