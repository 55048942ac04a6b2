package org.kornspur.api.readmodel;

import java.nio.ByteBuffer;
import java.util.HashSet;
import java.util.Set;
import java.util.function.Predicate;
import org.apache.avro.specific.SpecificRecord;
import org.apache.kafka.clients.consumer.ConsumerRecord;
import org.kornspur.api.kafka.Engine;

/**
 * Takes the facts of some types from the topic of all. Facts of other types are passed by at their
 * schema's id, undecoded, once one of them was seen.
 */
final class FactTypeFilter implements TopicFollower.Receiver {
  private static final int SCHEMA_ID_AT = 1;

  private final Engine engine;
  private final Predicate<SpecificRecord> taker;
  private final Set<Integer> otherSchemas = new HashSet<>();

  /**
   * @param taker takes a fact and says that it did; false for a type that it never takes
   */
  FactTypeFilter(Engine engine, Predicate<SpecificRecord> taker) {
    this.engine = engine;
    this.taker = taker;
  }

  @Override
  public void receive(ConsumerRecord<String, byte[]> record) {
    byte[] value = record.value();
    if (value == null || value.length < SCHEMA_ID_AT + Integer.BYTES) {
      return;
    }
    int schemaId = ByteBuffer.wrap(value).getInt(SCHEMA_ID_AT);
    if (!otherSchemas.contains(schemaId) && !taker.test(engine.wire().decode(value))) {
      otherSchemas.add(schemaId);
    }
  }
}
