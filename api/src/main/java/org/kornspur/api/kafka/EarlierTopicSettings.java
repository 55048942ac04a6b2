package org.kornspur.api.kafka;

import java.time.Duration;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import org.apache.kafka.clients.admin.Admin;
import org.apache.kafka.clients.admin.AlterConfigOp;
import org.apache.kafka.clients.admin.Config;
import org.apache.kafka.clients.admin.ConfigEntry;
import org.apache.kafka.common.config.ConfigResource;
import org.apache.kafka.common.config.TopicConfig;
import org.jboss.logging.Logger;
import org.kornspur.ingest.publish.RecordSize;
import org.kornspur.processors.stream.Topics;

/**
 * Settings of topics that are there already, as an earlier version made them: room for our records,
 * where they take one megabyte only, and what protects readers. Whoever gave a topic more room
 * keeps it.
 */
public final class EarlierTopicSettings {
  private static final Logger LOG = Logger.getLogger(EarlierTopicSettings.class);
  private static final long TIMEOUT_S = 60;

  /** How the processors pack what only they write. */
  static final String COMPRESSION = "zstd";

  /**
   * What others may write to or verify is kept unpacked: a broker holds the size of a batch against
   * the topic's limit when it takes it in and, only where it unpacked it itself, once more as it is
   * kept (Kafka 4.1, {@code UnifiedLog.append}). A few kB could else unpack to more than a reader's
   * memory holds.
   */
  private static final String UNPACKED = "uncompressed";

  /**
   * What topics of ours need besides room: the time of a record is that at which the broker took
   * it, whatever the sender says. The processors judge by it what has not happened yet, and Kafka's
   * own readers stop at a record without any.
   */
  private static Map<String, String> asReadersNeed(Topics topic) {
    String compression =
        switch (topic) {
          case FACTS, QUARANTINE, PEOPLE, CHAIN, CHECKPOINTS -> UNPACKED;
          case BY_SUBJECT,
              REVOCATIONS,
              REPORTS,
              PLOTS,
              STANDINGS,
              EDGES,
              PLANS,
              CAUSE_NOTES,
              NOTIFICATION_CHOICES,
              NOTIFICATION_MESSAGES ->
              COMPRESSION;
        };
    Map<String, String> settings = new HashMap<>();
    settings.put(TopicConfig.COMPRESSION_TYPE_CONFIG, compression);
    settings.put(TopicConfig.MESSAGE_TIMESTAMP_TYPE_CONFIG, "LogAppendTime");
    if (topic == Topics.STANDINGS) {
      settings.put(
          TopicConfig.DELETE_RETENTION_MS_CONFIG, Long.toString(TOLD_OF_REMOVAL.toMillis()));
    }
    return settings;
  }

  /**
   * How long a topic tells at least that a standing was taken out. Who knows what the topic held
   * then, and reads on within that time, hears of it.
   */
  public static final Duration TOLD_OF_REMOVAL = Duration.ofDays(8);

  private EarlierTopicSettings() {}

  /** What a topic of ours is to have, whoever made it: room, and what protects readers. */
  static Map<String, String> needed(Topics topic) {
    return with(
        topic == Topics.FACTS ? RecordSize.MOST_FACT_BYTES : RecordSize.MOST_BYTES,
        asReadersNeed(topic));
  }

  /**
   * Raises what topics take where that is too little, and sets what readers need. A cluster that
   * does not let us is warned of in the log, with the settings to change by hand.
   *
   * @param existing names of all topics
   * @param applicationId what the names of the stores' topics begin with
   */
  static void make(Admin admin, Collection<String> existing, String applicationId)
      throws InterruptedException, TimeoutException {
    Map<ConfigResource, Map<String, String>> needed = new HashMap<>();
    for (Topics topic : Topics.all()) {
      if (existing.contains(topic.topicName())) {
        needed.put(named(topic.topicName()), needed(topic));
      }
    }
    for (String name : existing) {
      if (name.startsWith(applicationId + "-") && name.endsWith("-changelog")) {
        needed.put(
            named(name),
            with(RecordSize.MOST_BYTES, Map.of(TopicConfig.COMPRESSION_TYPE_CONFIG, COMPRESSION)));
      }
    }
    try {
      Map<ConfigResource, Config> configs =
          admin.describeConfigs(needed.keySet()).all().get(TIMEOUT_S, TimeUnit.SECONDS);
      Map<ConfigResource, Collection<AlterConfigOp>> changes = new HashMap<>();
      needed.forEach(
          (topic, settings) -> changes.put(topic, changes(configs.get(topic), settings)));
      changes.values().removeIf(Collection::isEmpty);
      admin.incrementalAlterConfigs(changes).all().get(TIMEOUT_S, TimeUnit.SECONDS);
    } catch (ExecutionException failed) {
      LOG.warnf(
          "Topics could not be given the settings they need: %s. Set by hand %s of %d on them, and"
              + " %s on the topics kornspur.*",
          failed.getCause().getMessage(),
          TopicConfig.MAX_MESSAGE_BYTES_CONFIG,
          RecordSize.MOST_BYTES,
          asReadersNeed(Topics.FACTS));
    }
  }

  private static Map<String, String> with(int bytes, Map<String, String> further) {
    Map<String, String> settings = new HashMap<>(further);
    settings.put(TopicConfig.MAX_MESSAGE_BYTES_CONFIG, Integer.toString(bytes));
    return settings;
  }

  private static List<AlterConfigOp> changes(Config topic, Map<String, String> needed) {
    return needed.entrySet().stream()
        .filter(setting -> !isEnough(topic.get(setting.getKey()).value(), setting))
        .map(
            setting ->
                new AlterConfigOp(
                    new ConfigEntry(setting.getKey(), setting.getValue()),
                    AlterConfigOp.OpType.SET))
        .toList();
  }

  private static boolean isEnough(String now, Map.Entry<String, String> needed) {
    return switch (needed.getKey()) {
      case TopicConfig.MAX_MESSAGE_BYTES_CONFIG, TopicConfig.DELETE_RETENTION_MS_CONFIG ->
          Long.parseLong(now) >= Long.parseLong(needed.getValue());
      default -> now.equals(needed.getValue());
    };
  }

  private static ConfigResource named(String topicName) {
    return new ConfigResource(ConfigResource.Type.TOPIC, topicName);
  }
}
