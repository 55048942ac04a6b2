package org.kornspur.api.cluster;

import java.util.Map;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.stream.Collectors;
import org.apache.kafka.clients.admin.Admin;
import org.apache.kafka.clients.admin.ListOffsetsOptions;
import org.apache.kafka.clients.admin.OffsetSpec;
import org.apache.kafka.clients.consumer.OffsetAndMetadata;
import org.apache.kafka.common.IsolationLevel;
import org.apache.kafka.common.TopicPartition;

/** How far the processors are behind, as the brokers know it: committed positions against ends. */
final class Backlog implements AutoCloseable {

  private static final String GROUP = "kornspur";
  private static final long ANSWER_LIMIT_S = 30;

  private final Admin admin;

  Backlog(Map<String, Object> clientSettings) {
    this.admin = Admin.create(clientSettings);
  }

  /** Records that are stored and whose outcome is not committed yet. */
  long records() throws InterruptedException {
    try {
      Map<TopicPartition, OffsetAndMetadata> committed =
          admin
              .listConsumerGroupOffsets(GROUP)
              .partitionsToOffsetAndMetadata()
              .get(ANSWER_LIMIT_S, TimeUnit.SECONDS);
      var ends =
          admin
              .listOffsets(
                  committed.keySet().stream()
                      .collect(Collectors.toMap(partition -> partition, p -> OffsetSpec.latest())),
                  new ListOffsetsOptions(IsolationLevel.READ_COMMITTED))
              .all()
              .get(ANSWER_LIMIT_S, TimeUnit.SECONDS);
      return committed.entrySet().stream()
          .mapToLong(entry -> ends.get(entry.getKey()).offset() - entry.getValue().offset())
          .sum();
    } catch (ExecutionException | TimeoutException e) {
      throw new IllegalStateException("The brokers do not tell the backlog: " + e, e);
    }
  }

  @Override
  public void close() {
    admin.close();
  }
}
