package org.kornspur.processors.stream;

import org.apache.kafka.common.serialization.Deserializer;
import org.apache.kafka.common.serialization.Serde;
import org.apache.kafka.common.serialization.Serializer;

/**
 * A sink, the topic behind it, and how its values are written.
 *
 * @param goneReader reads what is kept to be sent when an addressee is no longer written to
 */
record Route<V>(
    String sink, String topic, Serializer<V> values, Deserializer<? extends V> goneReader) {

  /** A route on which a record of its own says that an earlier one no longer holds. */
  static <V> Route<V> withEndRecord(String sink, Topics topic, Serde<V> values) {
    return new Route<>(sink, topic.topicName(), values.serializer(), values.deserializer());
  }

  /** A route to a compacted topic, on which the end of a record is told by a tombstone. */
  static <V> Route<V> withTombstone(String sink, Topics topic, Serializer<V> values) {
    return new Route<>(sink, topic.topicName(), values, (name, nothing) -> null);
  }

  byte[] write(V value) {
    return values.serialize(topic, value);
  }

  V readGone(byte[] bytes) {
    return goneReader.deserialize(topic, bytes);
  }
}
