package org.kornspur.api.kafka;

import static java.util.stream.Collectors.toCollection;
import static java.util.stream.Collectors.toMap;

import java.time.Duration;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.ExecutionException;
import org.apache.kafka.clients.admin.Admin;
import org.apache.kafka.clients.admin.ListOffsetsOptions;
import org.apache.kafka.clients.admin.ListTopicsOptions;
import org.apache.kafka.clients.admin.OffsetSpec;
import org.apache.kafka.common.IsolationLevel;
import org.apache.kafka.common.TopicPartition;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.BackupDetail;
import org.kornspur.ingest.publish.FactPublisher;

/** Finds out that the processors write nothing, by the ends of all topics that they write to. */
final class IdleDetection implements AutoCloseable {
  private static final Duration STILL = Duration.ofSeconds(1);
  private static final Duration LONGEST_WAIT = Duration.ofMinutes(2);
  private static final Set<String> WRITTEN_BY_OTHERS =
      Set.of(
          FactPublisher.FACTS_TOPIC,
          FactPublisher.QUARANTINE_TOPIC,
          FactPublisher.PEOPLE_TOPIC,
          FactPublisher.PLANS_TOPIC,
          FactPublisher.CAUSE_NOTES_TOPIC,
          FactPublisher.NOTIFICATION_CHOICES_TOPIC,
          FactPublisher.NOTIFICATION_MESSAGES_TOPIC,
          "kornspur.schemas");

  private final Admin admin;

  IdleDetection(Map<String, Object> clientSettings) {
    admin = Admin.create(clientSettings);
  }

  /** Where the topics of the processors end. */
  Map<TopicPartition, Long> ends() throws ExecutionException, InterruptedException {
    return ends(IsolationLevel.READ_UNCOMMITTED);
  }

  /**
   * Waits until no transaction is open and nothing has been written for a second.
   *
   * @return where the topics of the processors end
   * @throws ApiProblem if that takes longer than two minutes
   */
  Map<TopicPartition, Long> await() throws ExecutionException, InterruptedException {
    long end = System.nanoTime() + LONGEST_WAIT.toNanos();
    Map<TopicPartition, Long> before = Map.of();
    Set<TopicPartition> moving = Set.of();
    while (System.nanoTime() - end < 0) {
      Map<TopicPartition, Long> committed = ends(IsolationLevel.READ_COMMITTED);
      Map<TopicPartition, Long> now = ends();
      moving = different(now, before);
      moving.addAll(different(now, committed));
      if (moving.isEmpty()) {
        return now;
      }
      before = now;
      Thread.sleep(STILL.toMillis());
    }
    throw Backup.refused(
        new BackupDetail.StillWriting(
            moving.stream().map(TopicPartition::toString).sorted().toList(),
            LONGEST_WAIT.toSeconds()));
  }

  private static Set<TopicPartition> different(
      Map<TopicPartition, Long> now, Map<TopicPartition, Long> before) {
    return now.entrySet().stream()
        .filter(end -> !end.getValue().equals(before.get(end.getKey())))
        .map(Map.Entry::getKey)
        .collect(toCollection(HashSet::new));
  }

  private Map<TopicPartition, Long> ends(IsolationLevel isolation)
      throws ExecutionException, InterruptedException {
    Set<String> topics =
        new HashSet<>(admin.listTopics(new ListTopicsOptions().listInternal(true)).names().get());
    topics.removeAll(WRITTEN_BY_OTHERS);
    Map<TopicPartition, OffsetSpec> latest =
        admin.describeTopics(topics).allTopicNames().get().values().stream()
            .flatMap(
                topic ->
                    topic.partitions().stream()
                        .map(one -> new TopicPartition(topic.name(), one.partition())))
            .collect(toMap(place -> place, place -> OffsetSpec.latest()));
    return admin
        .listOffsets(latest, new ListOffsetsOptions(isolation))
        .all()
        .get()
        .entrySet()
        .stream()
        .collect(toMap(Map.Entry::getKey, entry -> entry.getValue().offset()));
  }

  @Override
  public void close() {
    admin.close(Duration.ZERO);
  }
}
