package org.kornspur.api.kafka;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.apache.kafka.common.acl.AclOperation;
import org.kornspur.processors.stream.Topics;

/**
 * A topic that programs beside this one may write to or read.
 *
 * @param mayBeWritten whether they may write to it
 * @param mayBeRead whether they may read it
 * @param settings that this program makes it with and keeps it at, as Kafka names them
 */
public record PublicTopic(
    Topics topic, boolean mayBeWritten, boolean mayBeRead, Map<String, String> settings) {
  private static final short ONE_MACHINE = 1;

  /** Each of them, as it is on one machine. */
  public static List<PublicTopic> all() {
    return Arrays.stream(Topics.values())
        .filter(topic -> !TopicRights.on(topic).isEmpty())
        .map(
            topic ->
                new PublicTopic(
                    topic,
                    TopicRights.on(topic).contains(AclOperation.WRITE),
                    TopicRights.on(topic).contains(AclOperation.READ),
                    TopicSetup.configs(topic, ONE_MACHINE)))
        .toList();
  }
}
