package org.kornspur.api.engine;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.ExecutionException;
import org.apache.kafka.clients.admin.Admin;
import org.apache.kafka.clients.admin.Config;
import org.apache.kafka.clients.admin.NewTopic;
import org.apache.kafka.common.config.ConfigResource;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kornspur.api.runtime.EmbeddedBroker;
import org.kornspur.processors.stream.Topics;

/**
 * Topics of a site that ran before, on a real broker. Kafka takes 1,048,588 bytes if not told
 * otherwise: Apache Kafka Documentation, "Topic Configs", max.message.bytes.
 */
class TopicRoomTest {
  private static final String ROOM = "max.message.bytes";
  private static final String STORE = "kornspur-dossiers-changelog";
  private static final String FOREIGN = "another-dossiers-changelog";

  @Test
  void earlierTopicsAreGivenRoomAndNoneIsTakenAway(@TempDir Path folder) throws Exception {
    String facts = Topics.FACTS.topicName();
    String chain = Topics.CHAIN.topicName();
    String people = Topics.PEOPLE.topicName();
    try (EmbeddedBroker broker = EmbeddedBroker.start(folder, 0);
        Admin admin = Admin.create(Map.of("bootstrap.servers", broker.bootstrapServers()))) {
      admin
          .createTopics(
              List.of(
                  topic(facts, Map.of("retention.ms", "-1")),
                  topic(chain, Map.of(ROOM, "67108864")),
                  topic(people, Map.of("cleanup.policy", "compact")),
                  topic(STORE, Map.of("cleanup.policy", "compact")),
                  topic(FOREIGN, Map.of())))
          .all()
          .get();
      assertThat(setting(admin, facts, ROOM)).isEqualTo("1048588");

      Set<String> existing = admin.listTopics().names().get();
      TopicRoom.make(admin, existing, "kornspur");

      assertThat(setting(admin, facts, ROOM)).isEqualTo(Integer.toString(4 * 1024 * 1024));
      assertThat(setting(admin, people, ROOM)).isEqualTo(Integer.toString(16 * 1024 * 1024));
      assertThat(setting(admin, STORE, ROOM)).isEqualTo(Integer.toString(16 * 1024 * 1024));
      assertThat(setting(admin, chain, ROOM)).as("what was set higher").isEqualTo("67108864");
      assertThat(setting(admin, FOREIGN, ROOM)).as("not ours").isEqualTo("1048588");
      assertThat(setting(admin, facts, "retention.ms")).isEqualTo("-1");
      assertThat(setting(admin, people, "cleanup.policy")).isEqualTo("compact");
    }
  }

  private static NewTopic topic(String name, Map<String, String> settings) {
    return new NewTopic(name, 1, (short) 1).configs(settings);
  }

  private static String setting(Admin admin, String topicName, String key)
      throws InterruptedException, ExecutionException {
    ConfigResource topic = new ConfigResource(ConfigResource.Type.TOPIC, topicName);
    Config config = admin.describeConfigs(List.of(topic)).all().get().get(topic);
    return config.get(key).value();
  }
}
