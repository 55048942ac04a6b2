package org.kornspur.api.kafka;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import org.apache.kafka.clients.admin.Admin;
import org.apache.kafka.clients.admin.NewTopic;
import org.apache.kafka.clients.admin.TopicDescription;
import org.apache.kafka.common.config.TopicConfig;
import org.apache.kafka.common.errors.TopicExistsException;
import org.apache.kafka.common.errors.UnknownTopicOrPartitionException;
import org.kornspur.processors.stream.Topics;

/** Creates the topics that do not exist yet, and refuses to start on ones that do not fit. */
final class TopicSetup {
  private static final long TIMEOUT_S = 60;
  private static final String ONE_DAY_MS = "86400000";

  private TopicSetup() {}

  static void createMissing(BrokerAndRegistry brokerAndRegistry, EngineSettings settings)
      throws InterruptedException, ExecutionException, TimeoutException {
    short replication = brokerAndRegistry.embedded() ? 1 : settings.replication();
    try (Admin admin = Admin.create(brokerAndRegistry.clientSettings())) {
      Set<String> existing = admin.listTopics().names().get(TIMEOUT_S, TimeUnit.SECONDS);
      List<NewTopic> missing =
          Topics.all().stream()
              .filter(topic -> !existing.contains(topic.topicName()))
              .map(topic -> newTopic(topic, settings.partitions(), replication))
              .toList();
      try {
        admin.createTopics(missing).all().get(TIMEOUT_S, TimeUnit.SECONDS);
      } catch (ExecutionException failed) {
        if (!(failed.getCause() instanceof TopicExistsException)) {
          throw failed;
        }
      }
      EarlierTopicSettings.make(admin, existing, settings.applicationId());
      checkPartitions(admin);
    }
  }

  private static NewTopic newTopic(Topics topic, int partitions, short replication) {
    return new NewTopic(topic.topicName(), partitions, replication)
        .configs(configs(topic, replication));
  }

  /** Nothing is ever dropped by age or size; of a compacted topic the latest of each key stays. */
  static Map<String, String> configs(Topics topic, short replication) {
    Map<String, String> configs = new HashMap<>();
    configs.put(
        TopicConfig.CLEANUP_POLICY_CONFIG,
        topic.compacted() ? TopicConfig.CLEANUP_POLICY_COMPACT : TopicConfig.CLEANUP_POLICY_DELETE);
    configs.put(TopicConfig.RETENTION_MS_CONFIG, "-1");
    configs.put(TopicConfig.RETENTION_BYTES_CONFIG, "-1");
    configs.putAll(EarlierTopicSettings.needed(topic));
    configs.put(TopicConfig.MIN_IN_SYNC_REPLICAS_CONFIG, replication > 2 ? "2" : "1");
    if (topic == Topics.PEOPLE || topic == Topics.NOTIFICATION_CHOICES) {
      // a name or address that was forgotten leaves the disk within days
      configs.put(TopicConfig.SEGMENT_MS_CONFIG, ONE_DAY_MS);
      configs.put(TopicConfig.MAX_COMPACTION_LAG_MS_CONFIG, ONE_DAY_MS);
    }
    return configs;
  }

  private static void checkPartitions(Admin admin)
      throws InterruptedException, ExecutionException, TimeoutException {
    Set<Integer> counts =
        described(admin).values().stream()
            .map(topic -> topic.partitions().size())
            .collect(java.util.stream.Collectors.toSet());
    if (counts.size() > 1) {
      throw new IllegalStateException(
          "The topics kornspur.* have different numbers of partitions, "
              + counts
              + ". Equal keys would not meet: recreate them with one number.");
    }
  }

  /** A broker may take a moment to hear of a topic that the controller has just created. */
  private static Map<String, TopicDescription> described(Admin admin)
      throws InterruptedException, ExecutionException, TimeoutException {
    List<String> names = Topics.all().stream().map(Topics::topicName).toList();
    long end = System.nanoTime() + TimeUnit.SECONDS.toNanos(TIMEOUT_S);
    while (true) {
      try {
        return admin.describeTopics(names).allTopicNames().get(TIMEOUT_S, TimeUnit.SECONDS);
      } catch (ExecutionException failed) {
        boolean notHeardYet = failed.getCause() instanceof UnknownTopicOrPartitionException;
        if (!notHeardYet || System.nanoTime() > end) {
          throw failed;
        }
        TimeUnit.MILLISECONDS.sleep(100);
      }
    }
  }
}
