package org.kornspur.api.packaged;

import java.time.Duration;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ExecutionException;
import java.util.stream.Collectors;
import org.apache.kafka.clients.admin.Admin;
import org.apache.kafka.clients.admin.ListOffsetsOptions;
import org.apache.kafka.clients.admin.OffsetSpec;
import org.apache.kafka.common.IsolationLevel;
import org.apache.kafka.common.TopicPartition;
import org.kornspur.processors.stream.Topics;

/** How far the processors are behind, as the brokers know it: committed positions against ends. */
final class Backlog implements AutoCloseable {

  /** Where the brokers do not tell, as while a lost one's partitions move. */
  static final long UNKNOWN = Long.MAX_VALUE;

  private static final String GROUP = "kornspur";
  private static final int ANSWER_LIMIT_MS = 5_000;

  private final Map<String, Object> settings;
  private Admin admin;

  /**
   * @param clientSettings with which every group and topic may be read
   */
  Backlog(Map<String, ?> clientSettings) {
    this.settings = new HashMap<>(clientSettings);
    settings.put("request.timeout.ms", ANSWER_LIMIT_MS / 2);
    settings.put("default.api.timeout.ms", ANSWER_LIMIT_MS);
    this.admin = Admin.create(settings);
  }

  /** Records that are stored and whose outcome is not committed yet, or {@link #UNKNOWN}. */
  long records() throws InterruptedException {
    try {
      Map<TopicPartition, Long> read = new HashMap<>();
      // of facts that the processors have not begun with all wait
      factPartitions().forEach(partition -> read.put(partition, 0L));
      admin
          .listConsumerGroupOffsets(GROUP)
          .partitionsToOffsetAndMetadata()
          .get()
          .forEach((partition, committed) -> read.put(partition, committed.offset()));
      Map<TopicPartition, OffsetSpec> latest =
          read.keySet().stream()
              .collect(Collectors.toMap(partition -> partition, partition -> OffsetSpec.latest()));
      var ends =
          admin
              .listOffsets(latest, new ListOffsetsOptions(IsolationLevel.READ_COMMITTED))
              .all()
              .get();
      return read.entrySet().stream()
          .mapToLong(entry -> ends.get(entry.getKey()).offset() - entry.getValue())
          .sum();
    } catch (ExecutionException e) {
      // A client may hold on to a broker that is gone; a new one asks afresh who leads.
      admin.close(Duration.ZERO);
      admin = Admin.create(settings);
      return UNKNOWN;
    }
  }

  private List<TopicPartition> factPartitions() throws ExecutionException, InterruptedException {
    String facts = Topics.FACTS.topicName();
    return admin
        .describeTopics(List.of(facts))
        .allTopicNames()
        .get()
        .get(facts)
        .partitions()
        .stream()
        .map(partition -> new TopicPartition(facts, partition.partition()))
        .toList();
  }

  @Override
  public void close() {
    admin.close(Duration.ZERO);
  }
}
