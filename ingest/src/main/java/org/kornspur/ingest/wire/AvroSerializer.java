package org.kornspur.ingest.wire;

import java.util.Map;
import org.apache.avro.specific.SpecificRecord;
import org.apache.kafka.common.serialization.Serializer;
import org.kornspur.ingest.registry.HttpSchemaRegistry;
import org.kornspur.ingest.registry.RegistryConfig;
import org.kornspur.ingest.registry.SchemaRegistry;

/**
 * Kafka serializer of the {@linkplain WireFormat wire format}. Made by Kafka, it needs {@value
 * RegistryConfig#URL} and takes the other keys of {@link RegistryConfig}; null stays null, as a
 * tombstone.
 */
public final class AvroSerializer implements Serializer<SpecificRecord> {

  private WireFormat wireFormat;

  /** To be configured by Kafka. */
  public AvroSerializer() {}

  /** Ready for use with this registry. */
  public AvroSerializer(SchemaRegistry registry) {
    this.wireFormat = new WireFormat(registry);
  }

  @Override
  public void configure(Map<String, ?> configs, boolean isKey) {
    if (wireFormat == null) {
      RegistryConfig config = RegistryConfig.of(configs);
      wireFormat = new WireFormat(new HttpSchemaRegistry(config), config.autoRegister());
    }
  }

  @Override
  public byte[] serialize(String topic, SpecificRecord fact) {
    return fact == null ? null : wireFormat.encode(topic, fact);
  }
}
