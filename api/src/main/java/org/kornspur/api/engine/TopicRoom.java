package org.kornspur.api.engine;

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
 * Room for our records in topics that are there already: those of a site that an earlier version
 * made take one megabyte only. Whoever gave a topic more keeps it.
 */
final class TopicRoom {
  private static final Logger LOG = Logger.getLogger(TopicRoom.class);
  private static final long TIMEOUT_S = 60;

  private TopicRoom() {}

  /** What a topic of ours is to take, bytes. */
  static int mostBytes(Topics topic) {
    return topic == Topics.FACTS ? RecordSize.MOST_FACT_BYTES : RecordSize.MOST_BYTES;
  }

  /**
   * Raises what topics take where that is too little. A cluster that does not let us is warned of
   * in the log, with the setting to change by hand.
   *
   * @param existing names of all topics
   * @param applicationId what the names of the stores' topics begin with
   */
  static void make(Admin admin, Collection<String> existing, String applicationId)
      throws InterruptedException, TimeoutException {
    Map<ConfigResource, Integer> needed = new HashMap<>();
    for (Topics topic : Topics.all()) {
      if (existing.contains(topic.topicName())) {
        needed.put(named(topic.topicName()), mostBytes(topic));
      }
    }
    for (String name : existing) {
      if (name.startsWith(applicationId + "-") && name.endsWith("-changelog")) {
        needed.put(named(name), RecordSize.MOST_BYTES);
      }
    }
    try {
      Map<ConfigResource, Config> configs =
          admin.describeConfigs(needed.keySet()).all().get(TIMEOUT_S, TimeUnit.SECONDS);
      Map<ConfigResource, Collection<AlterConfigOp>> changes = new HashMap<>();
      needed.forEach(
          (topic, bytes) -> {
            if (taken(configs.get(topic)) < bytes) {
              changes.put(topic, List.of(taking(bytes)));
            }
          });
      admin.incrementalAlterConfigs(changes).all().get(TIMEOUT_S, TimeUnit.SECONDS);
    } catch (ExecutionException failed) {
      LOG.warnf(
          "Topics could not be told to take records of %d bytes: %s. Set %s on them by hand.",
          RecordSize.MOST_BYTES,
          failed.getCause().getMessage(),
          TopicConfig.MAX_MESSAGE_BYTES_CONFIG);
    }
  }

  private static ConfigResource named(String topicName) {
    return new ConfigResource(ConfigResource.Type.TOPIC, topicName);
  }

  private static int taken(Config topic) {
    return Integer.parseInt(topic.get(TopicConfig.MAX_MESSAGE_BYTES_CONFIG).value());
  }

  private static AlterConfigOp taking(int bytes) {
    return new AlterConfigOp(
        new ConfigEntry(TopicConfig.MAX_MESSAGE_BYTES_CONFIG, Integer.toString(bytes)),
        AlterConfigOp.OpType.SET);
  }
}
