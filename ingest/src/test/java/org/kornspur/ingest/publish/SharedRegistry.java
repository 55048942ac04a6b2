package org.kornspur.ingest.publish;

import org.apache.avro.specific.SpecificRecord;
import org.apache.kafka.common.serialization.Serializer;
import org.kornspur.ingest.registry.LocalSchemaRegistry;
import org.kornspur.ingest.wire.AvroSerializer;

/** A serializer that a site names in its configuration; it asks one registry in this process. */
public final class SharedRegistry implements Serializer<SpecificRecord> {

  /** The registry of all serializers of this class. */
  public static final LocalSchemaRegistry REGISTRY = new LocalSchemaRegistry();

  private final AvroSerializer serializer = new AvroSerializer(REGISTRY);

  @Override
  public byte[] serialize(String topic, SpecificRecord value) {
    return serializer.serialize(topic, value);
  }
}
