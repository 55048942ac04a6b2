package org.kornspur.processors.stream;

import org.apache.kafka.common.errors.SerializationException;
import org.apache.kafka.common.serialization.Deserializer;
import org.kornspur.ingest.publish.RecordSize;

/**
 * Reads only what the processors could have written: a larger record would not fit into the log of
 * the store that it goes to, and who may not write there stops.
 */
final class BoundedRecords {

  private BoundedRecords() {}

  static <T> Deserializer<T> deserializer(Deserializer<T> whole) {
    return (topic, bytes) -> {
      if (bytes != null && bytes.length > RecordSize.MOST_ON_ITS_WAY_BYTES) {
        throw new SerializationException(
            bytes.length + " bytes; the processors write " + RecordSize.MOST_ON_ITS_WAY_BYTES);
      }
      return whole.deserialize(topic, bytes);
    };
  }
}
