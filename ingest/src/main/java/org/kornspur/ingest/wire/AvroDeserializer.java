package org.kornspur.ingest.wire;

import java.util.Map;
import org.apache.avro.specific.SpecificRecord;
import org.apache.kafka.common.serialization.Deserializer;
import org.kornspur.ingest.registry.HttpSchemaRegistry;
import org.kornspur.ingest.registry.RegistryConfig;
import org.kornspur.ingest.registry.SchemaRegistry;

/**
 * Kafka deserializer of the {@linkplain WireFormat wire format}, with the errors of {@link
 * WireFormat#decode}. Made by Kafka, it needs {@value RegistryConfig#URL}. Null stays null, as a
 * tombstone.
 */
public final class AvroDeserializer implements Deserializer<SpecificRecord> {

  private WireFormat wireFormat;

  /** To be configured by Kafka. */
  public AvroDeserializer() {}

  /** Ready for use with this registry. */
  public AvroDeserializer(SchemaRegistry registry) {
    this.wireFormat = new WireFormat(registry);
  }

  @Override
  public void configure(Map<String, ?> configs, boolean isKey) {
    if (wireFormat == null) {
      wireFormat = new WireFormat(new HttpSchemaRegistry(RegistryConfig.of(configs)));
    }
  }

  @Override
  public SpecificRecord deserialize(String topic, byte[] bytes) {
    return bytes == null ? null : wireFormat.decode(bytes);
  }
}
