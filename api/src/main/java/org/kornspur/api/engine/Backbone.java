package org.kornspur.api.engine;

import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import org.apache.kafka.clients.CommonClientConfigs;
import org.kornspur.api.runtime.EmbeddedBroker;
import org.kornspur.api.runtime.EmbeddedRegistry;
import org.kornspur.ingest.registry.RegistryConfig;

/**
 * Broker and registry that this process works with: those of a cluster where settings name them,
 * else its own on loopback.
 *
 * @param bootstrapServers brokers
 * @param registryUrl schema registry
 * @param clientSettings settings for every Kafka client
 * @param embedded whether the broker is this process's own
 */
record Backbone(
    String bootstrapServers,
    String registryUrl,
    Map<String, Object> clientSettings,
    boolean embedded,
    Optional<EmbeddedBroker> broker,
    Optional<EmbeddedRegistry> registry)
    implements AutoCloseable {

  static Backbone start(EngineSettings settings) {
    Optional<EmbeddedBroker> broker =
        settings.bootstrapServers().isPresent()
            ? Optional.empty()
            : Optional.of(
                EmbeddedBroker.start(
                    settings.dataFolder().resolve("broker"), settings.brokerPort()));
    String bootstrap =
        settings
            .bootstrapServers()
            .orElseGet(() -> broker.map(EmbeddedBroker::bootstrapServers).orElseThrow());
    Optional<EmbeddedRegistry> registry =
        settings.schemaRegistryUrl().isPresent()
            ? Optional.empty()
            : Optional.of(EmbeddedRegistry.start(bootstrap, settings.registryPort()));
    String registryUrl =
        settings
            .schemaRegistryUrl()
            .orElseGet(() -> registry.map(EmbeddedRegistry::url).orElseThrow());
    Map<String, Object> client = new HashMap<>(settings.kafka());
    client.put(CommonClientConfigs.BOOTSTRAP_SERVERS_CONFIG, bootstrap);
    client.put(RegistryConfig.URL, registryUrl);
    return new Backbone(bootstrap, registryUrl, client, broker.isPresent(), broker, registry);
  }

  @Override
  public void close() {
    registry.ifPresent(EmbeddedRegistry::close);
    broker.ifPresent(EmbeddedBroker::close);
  }
}
