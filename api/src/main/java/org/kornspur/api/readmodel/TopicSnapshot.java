package org.kornspur.api.readmodel;

import java.util.Map;
import org.apache.kafka.clients.consumer.Consumer;
import org.apache.kafka.common.TopicPartition;

/** Gives back what an earlier run made of a topic. */
interface TopicSnapshot {
  /** Nothing is given back. */
  TopicSnapshot NONE = consumer -> Map.of();

  /**
   * Gives back what was made of the first records of a topic.
   *
   * @param consumer to which all partitions are assigned; it may be moved
   * @return where to go on in each partition; one that is not named is read from its beginning
   */
  Map<TopicPartition, Long> recall(Consumer<String, byte[]> consumer);
}
