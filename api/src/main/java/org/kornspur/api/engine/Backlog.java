package org.kornspur.api.engine;

import java.time.Duration;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.apache.kafka.clients.admin.Admin;
import org.apache.kafka.clients.admin.ListOffsetsOptions;
import org.apache.kafka.clients.admin.OffsetSpec;
import org.apache.kafka.clients.consumer.OffsetAndMetadata;
import org.apache.kafka.common.IsolationLevel;
import org.apache.kafka.common.TopicPartition;
import org.kornspur.processors.stream.Topics;

/**
 * Records that came in and whose outcome is not committed yet, over all instances, as the brokers
 * know it. The answer is kept for a moment, so that many questions at once ask the brokers once.
 */
final class Backlog implements AutoCloseable {
  private static final long KEPT_NANOS = TimeUnit.MILLISECONDS.toNanos(500);
  private static final long TIMEOUT_MS = 2_000;
  private static final List<Topics> READ =
      List.of(Topics.FACTS, Topics.REVOCATIONS, Topics.BY_SUBJECT, Topics.REPORTS, Topics.PLOTS);

  private final Admin admin;
  private final String group;
  private final List<TopicPartition> partitions;
  private Map<String, Long> kept = Map.of();
  private long keptUntil = Long.MIN_VALUE;

  Backlog(Map<String, Object> clientSettings, String group)
      throws InterruptedException, ExecutionException, TimeoutException {
    this.admin = Admin.create(clientSettings);
    this.group = group;
    this.partitions =
        admin
            .describeTopics(READ.stream().map(Topics::topicName).toList())
            .allTopicNames()
            .get(30, TimeUnit.SECONDS)
            .values()
            .stream()
            .flatMap(
                topic ->
                    topic.partitions().stream()
                        .map(part -> new TopicPartition(topic.name(), part.partition())))
            .toList();
  }

  /**
   * Records not processed yet, by topic.
   *
   * @throws NotReady where the brokers do not tell
   */
  synchronized Map<String, Long> byTopic() {
    if (keptUntil == Long.MIN_VALUE || System.nanoTime() - keptUntil > 0) {
      kept = ask();
      keptUntil = System.nanoTime() + KEPT_NANOS;
    }
    return kept;
  }

  private Map<String, Long> ask() {
    try {
      Map<TopicPartition, OffsetAndMetadata> committed =
          new HashMap<>(
              admin
                  .listConsumerGroupOffsets(group)
                  .partitionsToOffsetAndMetadata()
                  .get(TIMEOUT_MS, TimeUnit.MILLISECONDS));
      var ends =
          admin
              .listOffsets(
                  partitions.stream()
                      .collect(Collectors.toMap(Function.identity(), part -> OffsetSpec.latest())),
                  new ListOffsetsOptions(IsolationLevel.READ_COMMITTED))
              .all()
              .get(TIMEOUT_MS, TimeUnit.MILLISECONDS);
      Map<String, Long> waiting = new TreeMap<>();
      for (TopicPartition partition : partitions) {
        OffsetAndMetadata done = committed.get(partition);
        long behind = ends.get(partition).offset() - (done == null ? 0 : done.offset());
        waiting.merge(partition.topic(), Math.max(0, behind), Long::sum);
      }
      return Map.copyOf(waiting);
    } catch (ExecutionException | TimeoutException unanswered) {
      throw new NotReady("the brokers do not tell how far the processors are", 2);
    } catch (InterruptedException interrupted) {
      Thread.currentThread().interrupt();
      throw new NotReady("interrupted while asking how far the processors are", 2);
    }
  }

  @Override
  public void close() {
    admin.close(Duration.ofSeconds(1));
  }
}
