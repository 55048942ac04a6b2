package org.kornspur.api.packaged;

import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.concurrent.ExecutionException;
import org.apache.kafka.clients.admin.Admin;
import org.apache.kafka.clients.consumer.KafkaConsumer;
import org.apache.kafka.common.TopicPartition;

/** What a load wrote to the topics of a machine. */
final class WrittenRecords {
  private WrittenRecords() {}

  /** Records and their bytes unpacked, of each topic that processors write to. */
  static void note(OneMachine machine, int facts, LoadReport report)
      throws ExecutionException, InterruptedException {
    SortedMap<String, long[]> byTopic = new TreeMap<>();
    try (Admin admin = Admin.create(machine.programSettings());
        KafkaConsumer<byte[], byte[]> reader = SingleFacts.reader(machine)) {
      List<TopicPartition> partitions =
          admin
              .describeTopics(
                  admin.listTopics().names().get().stream()
                      .filter(topic -> topic.startsWith("kornspur"))
                      .toList())
              .allTopicNames()
              .get()
              .values()
              .stream()
              .flatMap(
                  topic ->
                      topic.partitions().stream()
                          .map(part -> new TopicPartition(topic.name(), part.partition())))
              .toList();
      reader.assign(partitions);
      reader.seekToBeginning(partitions);
      Map<TopicPartition, Long> ends = reader.endOffsets(partitions);
      while (ends.entrySet().stream().anyMatch(e -> reader.position(e.getKey()) < e.getValue())) {
        reader
            .poll(Duration.ofSeconds(1))
            .forEach(
                record -> {
                  long[] sum = byTopic.computeIfAbsent(record.topic(), topic -> new long[2]);
                  sum[0]++;
                  sum[1] +=
                      Math.max(0, record.serializedKeySize())
                          + Math.max(0, record.serializedValueSize());
                });
      }
    }
    long records = 0;
    long bytes = 0;
    for (Map.Entry<String, long[]> topic : byTopic.entrySet()) {
      report.note(
          topic.getKey() + ", a fact",
          "%.2f records, %.0f bytes",
          topic.getValue()[0] / (double) facts,
          topic.getValue()[1] / (double) facts);
      if (!topic.getKey().equals("kornspur.facts")) {
        records += topic.getValue()[0];
        bytes += topic.getValue()[1];
      }
    }
    report.note("judgings a fact", "%.2f", byTopic.get(SingleFacts.STANDINGS)[0] / (double) facts);
    report.note("records written a fact", "%.1f", records / (double) facts);
    report.note("bytes written a fact", "%.0f", bytes / (double) facts);
  }
}
