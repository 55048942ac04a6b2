package org.kornspur.api.packaged;

import java.time.Duration;
import java.util.HashMap;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.concurrent.ExecutionException;
import java.util.stream.Collectors;
import org.apache.kafka.clients.admin.Admin;
import org.apache.kafka.clients.admin.ListOffsetsOptions;
import org.apache.kafka.clients.admin.OffsetSpec;
import org.apache.kafka.clients.consumer.OffsetAndMetadata;
import org.apache.kafka.common.IsolationLevel;
import org.apache.kafka.common.TopicPartition;

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
    return byTopic().values().stream().mapToLong(Long::longValue).sum();
  }

  /** The same by topic; one entry of {@link #UNKNOWN} where the brokers do not tell. */
  SortedMap<String, Long> byTopic() throws InterruptedException {
    try {
      Map<TopicPartition, OffsetAndMetadata> committed =
          admin.listConsumerGroupOffsets(GROUP).partitionsToOffsetAndMetadata().get();
      Map<TopicPartition, OffsetSpec> latest =
          committed.keySet().stream()
              .collect(Collectors.toMap(partition -> partition, partition -> OffsetSpec.latest()));
      var ends =
          admin
              .listOffsets(latest, new ListOffsetsOptions(IsolationLevel.READ_COMMITTED))
              .all()
              .get();
      return committed.entrySet().stream()
          .collect(
              Collectors.groupingBy(
                  entry -> entry.getKey().topic(),
                  TreeMap::new,
                  Collectors.summingLong(
                      entry -> ends.get(entry.getKey()).offset() - entry.getValue().offset())));
    } catch (ExecutionException e) {
      // A client may hold on to a broker that is gone; a new one asks afresh who leads.
      admin.close(Duration.ZERO);
      admin = Admin.create(settings);
      return new TreeMap<>(Map.of("unknown", UNKNOWN));
    }
  }

  @Override
  public void close() {
    admin.close(Duration.ZERO);
  }
}
