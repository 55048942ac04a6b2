package org.kornspur.api.kafka;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.apache.kafka.clients.CommonClientConfigs;
import org.apache.kafka.clients.admin.Admin;
import org.kornspur.api.kafka.embedded.BrokerLogins;
import org.kornspur.api.kafka.embedded.EmbeddedBroker;
import org.kornspur.api.kafka.embedded.EmbeddedRegistry;
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
record BrokerAndRegistry(
    String bootstrapServers,
    String registryUrl,
    Map<String, Object> clientSettings,
    boolean embedded,
    Optional<EmbeddedBroker> broker,
    Optional<EmbeddedRegistry> registry)
    implements AutoCloseable {

  /**
   * Starts what no setting names.
   *
   * @throws org.kornspur.api.storage.CannotStart if it cannot be started
   */
  static BrokerAndRegistry start(EngineSettings settings) throws Exception {
    BrokerLogins logins = BrokerLogins.in(settings.dataFolder());
    Optional<EmbeddedBroker> broker = broker(settings, logins);
    try {
      return start(settings, logins, broker);
    } catch (Exception | Error failed) {
      broker.ifPresent(EmbeddedBroker::close);
      throw failed;
    }
  }

  private static Optional<EmbeddedBroker> broker(EngineSettings settings, BrokerLogins logins) {
    return settings.bootstrapServers().isPresent()
        ? Optional.empty()
        : Optional.of(
            EmbeddedBroker.start(
                settings.dataFolder().resolve("broker"), settings.brokerPort(), logins));
  }

  private static BrokerAndRegistry start(
      EngineSettings settings, BrokerLogins logins, Optional<EmbeddedBroker> broker)
      throws Exception {
    String bootstrap =
        settings
            .bootstrapServers()
            .orElseGet(() -> broker.map(EmbeddedBroker::bootstrapServers).orElseThrow());
    Map<String, Object> program = new HashMap<>(settings.kafka());
    program.put(CommonClientConfigs.BOOTSTRAP_SERVERS_CONFIG, bootstrap);
    Map<String, Object> client = new HashMap<>(program);
    if (broker.isPresent()) {
      program.putAll(logins.program().brokerSettings());
      client.putAll(logins.client().brokerSettings());
    }
    giveRights(settings, logins, program);
    Optional<EmbeddedRegistry> registry =
        settings.schemaRegistryUrl().isPresent()
            ? Optional.empty()
            : Optional.of(EmbeddedRegistry.start(program, settings.registryPort(), logins));
    String registryUrl =
        settings
            .schemaRegistryUrl()
            .orElseGet(() -> registry.map(EmbeddedRegistry::url).orElseThrow());
    program.put(RegistryConfig.URL, registryUrl);
    client.put(RegistryConfig.URL, registryUrl);
    if (registry.isPresent()) {
      program.putAll(logins.program().registrySettings());
      client.putAll(logins.client().registrySettings());
    }
    if (broker.isPresent()) {
      BrokerLogins.writeClientFile(settings.dataFolder(), client);
    }
    return new BrokerAndRegistry(
        bootstrap, registryUrl, program, broker.isPresent(), broker, registry);
  }

  private static void giveRights(
      EngineSettings settings, BrokerLogins logins, Map<String, Object> program) throws Exception {
    List<String> users =
        settings.bootstrapServers().isPresent()
            ? settings.clients().orElse(List.of())
            : List.of("User:" + logins.client().user());
    if (!users.isEmpty()) {
      try (Admin admin = Admin.create(program)) {
        TopicRights.grant(admin, users);
      }
    }
  }

  @Override
  public void close() {
    registry.ifPresent(EmbeddedRegistry::close);
    broker.ifPresent(EmbeddedBroker::close);
  }
}
