package org.kornspur.ingest.wire;

import java.util.Map;
import org.apache.avro.specific.SpecificRecord;
import org.apache.kafka.common.serialization.Deserializer;
import org.kornspur.ingest.registry.HttpSchemaRegistry;
import org.kornspur.ingest.registry.RegistryConfig;
import org.kornspur.ingest.registry.SchemaRegistry;

/**
 * Kafka deserializer of the {@linkplain WireFormat wire format}, with the errors of {@link
 * WireFormat#decode}. Made by Kafka, it needs {@value RegistryConfig#URL} and reads every type of
 * the project; made with a class, it takes only that one. Null stays null, as a tombstone.
 */
public final class AvroDeserializer<T extends SpecificRecord> implements Deserializer<T> {

  private final Class<? extends SpecificRecord> expected;
  private WireFormat wireFormat;

  /** To be configured by Kafka. */
  public AvroDeserializer() {
    this.expected = SpecificRecord.class;
  }

  /** To be configured by Kafka; takes records of one class only. */
  public AvroDeserializer(Class<T> expected) {
    this.expected = expected;
  }

  /** Ready for use with this registry. */
  public AvroDeserializer(Class<T> expected, SchemaRegistry registry) {
    this.expected = expected;
    this.wireFormat = new WireFormat(registry);
  }

  @Override
  public void configure(Map<String, ?> configs, boolean isKey) {
    if (wireFormat == null) {
      wireFormat = new WireFormat(new HttpSchemaRegistry(RegistryConfig.of(configs)));
    }
  }

  @Override
  public T deserialize(String topic, byte[] bytes) {
    if (bytes == null) {
      return null;
    }
    SpecificRecord fact = wireFormat.decode(bytes);
    if (!expected.isInstance(fact)) {
      throw new UnknownRecordType(fact.getSchema().getFullName(), expected.getName());
    }
    // Without a class to expect, the caller's type is SpecificRecord or its own promise.
    @SuppressWarnings("unchecked")
    T typed = (T) fact;
    return typed;
  }
}
