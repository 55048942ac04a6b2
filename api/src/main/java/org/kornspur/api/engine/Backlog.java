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
 *
 * <p>It is counted to the last record that was written (the high watermark), not to the last one
 * that may be read (the last stable offset): a record behind an open transaction has come in too.
 * Offsets are counted, markers of transactions among them; the processors commit past these, so
 * that nothing is left at rest.
 */
final class Backlog implements AutoCloseable {
  private static final long KEPT_NANOS = TimeUnit.MILLISECONDS.toNanos(500);
  private static final long TIMEOUT_MS = 2_000;
  private static final List<Topics> READ =
      List.of(Topics.FACTS, Topics.REVOCATIONS, Topics.BY_SUBJECT, Topics.REPORTS, Topics.PLOTS);

  /**
   * What was counted at one moment.
   *
   * @param waiting records not processed yet, by topic
   * @param heldBack facts among them that nobody may read yet, because a producer keeps a
   *     transaction open
   */
  record Counted(Map<String, Long> waiting, long heldBack) {}

  private final Admin admin;
  private final String group;
  private final List<TopicPartition> partitions;
  private Counted kept = new Counted(Map.of(), 0);
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
   * Records not processed yet.
   *
   * @throws NotReady where the brokers do not tell
   */
  synchronized Counted now() {
    if (keptUntil == Long.MIN_VALUE || System.nanoTime() - keptUntil > 0) {
      kept = ask();
      keptUntil = System.nanoTime() + KEPT_NANOS;
    }
    return kept;
  }

  private Counted ask() {
    try {
      Map<TopicPartition, OffsetAndMetadata> committed =
          new HashMap<>(
              admin
                  .listConsumerGroupOffsets(group)
                  .partitionsToOffsetAndMetadata()
                  .get(TIMEOUT_MS, TimeUnit.MILLISECONDS));
      Map<TopicPartition, Long> readable = ends(IsolationLevel.READ_COMMITTED);
      Map<TopicPartition, Long> written = ends(IsolationLevel.READ_UNCOMMITTED);
      Map<String, Long> waiting = new TreeMap<>();
      long heldBack = 0;
      for (TopicPartition partition : partitions) {
        OffsetAndMetadata done = committed.get(partition);
        long behind = written.get(partition) - (done == null ? 0 : done.offset());
        waiting.merge(partition.topic(), Math.max(0, behind), Long::sum);
        if (partition.topic().equals(Topics.FACTS.topicName())) {
          heldBack += Math.max(0, written.get(partition) - readable.get(partition));
        }
      }
      return new Counted(Map.copyOf(waiting), heldBack);
    } catch (ExecutionException | TimeoutException unanswered) {
      throw new NotReady("the brokers do not tell how far the processors are", 2);
    } catch (InterruptedException interrupted) {
      Thread.currentThread().interrupt();
      throw new NotReady("interrupted while asking how far the processors are", 2);
    }
  }

  private Map<TopicPartition, Long> ends(IsolationLevel isolation)
      throws InterruptedException, ExecutionException, TimeoutException {
    return admin
        .listOffsets(
            partitions.stream()
                .collect(Collectors.toMap(Function.identity(), part -> OffsetSpec.latest())),
            new ListOffsetsOptions(isolation))
        .all()
        .get(TIMEOUT_MS, TimeUnit.MILLISECONDS)
        .entrySet()
        .stream()
        .collect(Collectors.toMap(Map.Entry::getKey, end -> end.getValue().offset()));
  }

  @Override
  public void close() {
    admin.close(Duration.ofSeconds(1));
  }
}
