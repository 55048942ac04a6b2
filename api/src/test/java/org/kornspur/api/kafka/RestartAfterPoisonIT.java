package org.kornspur.api.kafka;

import static org.kornspur.api.Waiting.until;

import io.micrometer.core.instrument.simple.SimpleMeterRegistry;
import io.smallrye.config.PropertiesConfigSource;
import io.smallrye.config.SmallRyeConfig;
import io.smallrye.config.SmallRyeConfigBuilder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.apache.avro.specific.SpecificRecord;
import org.apache.kafka.clients.producer.KafkaProducer;
import org.apache.kafka.clients.producer.ProducerRecord;
import org.apache.kafka.common.serialization.ByteArraySerializer;
import org.apache.kafka.streams.state.HostInfo;
import org.apache.kafka.streams.state.ReadOnlyKeyValueStore;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kornspur.api.rest.InventedFacts;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.json.FactParser;
import org.kornspur.ingest.json.ReadResult;
import org.kornspur.processors.stream.RegisterEntry;
import org.kornspur.processors.stream.StateStores;
import org.kornspur.processors.stream.Topics;

/** Broker, registry and processors on one folder, stopped and started again after bad records. */
class RestartAfterPoisonIT {
  private static final List<String> GARBAGE = List.of("", "null", "{}", "no JSON", "\0\0\0\0\1x");

  @Test
  void itStartsAgainOnTheSameFolderAndGoesOn(@TempDir Path folder) throws Exception {
    EngineSettings settings = settings(folder);
    RulesInForce rules = new RulesInForce(settings);
    SiteKeys keys = new SiteKeys(settings);
    try (RunningProcessors first =
        RunningProcessors.start(
            settings, keys, new HostInfo("h", 1), rules, new SimpleMeterRegistry())) {
      until(first::isRunning);
      publish(first, InventedFacts.lot("f-1", "L-1", "SX", 500));
      writeGarbage(first.clientSettings());
      publish(first, InventedFacts.lot("f-2", "L-2", "SX", 500));
      until(() -> first.isRunning() && first.skipped().total() > 0);
    }
    try (RunningProcessors second =
        RunningProcessors.start(
            settings, keys, new HostInfo("h", 1), rules, new SimpleMeterRegistry())) {
      until(second::isRunning);
      publish(second, InventedFacts.lot("f-3", "L-3", "SX", 500));
    }
  }

  private static void publish(RunningProcessors processors, String json) {
    ReadResult read = FactParser.accept(json.getBytes(StandardCharsets.UTF_8));
    SpecificRecord fact = ((ReadResult.Fact) read).fact();
    String factId = FactType.headerOf(fact).getFactId();
    processors.publisher().publish(fact).join();
    until(() -> registered(processors, factId));
  }

  private static boolean registered(RunningProcessors processors, String factId) {
    try {
      int partition = processors.stores().placeOf(StateStores.FACT_REGISTER, factId).partition();
      ReadOnlyKeyValueStore<String, RegisterEntry> register =
          processors.stores().local(StateStores.FACT_REGISTER, partition);
      RegisterEntry entry = processors.stores().read(() -> register.get(factId));
      return entry != null && entry.fingerprint().isPresent();
    } catch (NotReady notYet) {
      return false;
    }
  }

  private static void writeGarbage(Map<String, Object> clientSettings) {
    Map<String, Object> settings = new HashMap<>(clientSettings);
    try (var producer =
        new KafkaProducer<>(settings, new ByteArraySerializer(), new ByteArraySerializer())) {
      for (String garbage : GARBAGE) {
        byte[] bytes = garbage.getBytes(StandardCharsets.UTF_8);
        for (Topics topic : Topics.all()) {
          for (byte[] key :
              new byte[][] {null, bytes, "lot:L-1".getBytes(StandardCharsets.UTF_8)}) {
            var unused = producer.send(new ProducerRecord<>(topic.topicName(), key, bytes));
          }
        }
        var unused = producer.send(new ProducerRecord<>("kornspur.schemas", 0, bytes, bytes));
      }
      producer.flush();
    }
  }

  private static EngineSettings settings(Path folder) {
    SmallRyeConfig config =
        new SmallRyeConfigBuilder()
            .addDiscoveredConverters()
            .withMapping(EngineSettings.class)
            .withSources(
                new PropertiesConfigSource(
                    Map.of(
                        "kornspur.data-folder",
                        folder.toString(),
                        "kornspur.broker-port",
                        "0",
                        "kornspur.registry-port",
                        "0",
                        "kornspur.partitions",
                        "2"),
                    "test",
                    100))
            .withValidateUnknown(false)
            .build();
    return config.getConfigMapping(EngineSettings.class);
  }
}
