package org.kornspur.processors.benchmark;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Properties;
import java.util.TreeMap;
import org.apache.avro.specific.SpecificRecord;
import org.apache.kafka.common.serialization.ByteArrayDeserializer;
import org.apache.kafka.common.serialization.ByteArraySerializer;
import org.apache.kafka.common.serialization.StringDeserializer;
import org.apache.kafka.streams.StreamsConfig;
import org.apache.kafka.streams.TestInputTopic;
import org.apache.kafka.streams.TestOutputTopic;
import org.apache.kafka.streams.TopologyTestDriver;
import org.apache.kafka.streams.state.KeyValueStore;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.registry.LocalSchemaRegistry;
import org.kornspur.ingest.seal.SigningKey;
import org.kornspur.ingest.seal.TrustedKeys;
import org.kornspur.ingest.wire.WireFormat;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.gates.GateRule;
import org.kornspur.processors.gates.Gates;
import org.kornspur.processors.judging.Judge;
import org.kornspur.processors.standards.Rulebooks;
import org.kornspur.processors.stream.BoundedRocksDb;
import org.kornspur.processors.stream.ChainSettings;
import org.kornspur.processors.stream.DossierReader;
import org.kornspur.processors.stream.KornspurTopology;
import org.kornspur.processors.stream.PedigreeReader;
import org.kornspur.processors.stream.StateStores;
import org.kornspur.processors.stream.Topics;
import org.kornspur.standing.LotStanding;

/**
 * The whole topology with the real rules in Kafka's test driver: one thread, no broker, and every
 * record that follows from a fact is worked off before the next is taken.
 *
 * <p>The driver commits after each record, which the running system does not: it flushes stores on
 * disk and forces a file to disk after each edge of the pedigree. To leave that out of what is
 * measured, keep the stores in memory and set {@code java.io.tmpdir} to a folder in memory.
 */
final class DrivenDossiers implements AutoCloseable {
  static final ChainSettings SEAL =
      new ChainSettings(SigningKey.random(), 256, Duration.ofSeconds(10));

  private final WireFormat wire = new WireFormat(new LocalSchemaRegistry());
  private final Map<Subject, Dossier> dossiers = new TreeMap<>();
  private final TopologyTestDriver driver;
  private final TestInputTopic<String, byte[]> facts;
  private final TestOutputTopic<String, byte[]> standings;

  DrivenDossiers(StateStores stores) {
    List<GateRule> gates = new ArrayList<>(Gates.all());
    gates.add(
        (dossier, rulebook) -> {
          dossiers.put(dossier.subject(), dossier);
          return List.of();
        });
    Judge judge = Judge.by(Rulebooks.bundled(), gates);
    Properties config = new Properties();
    config.put(StreamsConfig.APPLICATION_ID_CONFIG, "benchmark");
    config.put(StreamsConfig.BOOTSTRAP_SERVERS_CONFIG, "none:1");
    config.put(StreamsConfig.STATE_DIR_CONFIG, temporaryFolder().toString());
    config.put(StreamsConfig.ROCKSDB_CONFIG_SETTER_CLASS_CONFIG, BoundedRocksDb.class);
    config.put(DossierReader.TRUST_PRODUCERS, true);
    driver =
        new TopologyTestDriver(
            KornspurTopology.build(wire, () -> judge, TrustedKeys.of(), stores, SEAL), config);
    facts =
        driver.createInputTopic(
            Topics.FACTS.topicName(),
            (topic, text) -> text.getBytes(StandardCharsets.UTF_8),
            new ByteArraySerializer());
    standings =
        driver.createOutputTopic(
            Topics.STANDINGS.topicName(), new StringDeserializer(), new ByteArrayDeserializer());
  }

  /** Takes a fact in and works off all that follows from it. */
  void accept(SpecificRecord fact) {
    facts.pipeInput(
        FactType.headerOf(fact).getFactId(), wire.encode(Topics.FACTS.topicName(), fact));
  }

  /** The standings that came out since the last call, the latest of each subject. */
  Map<String, Optional<LotStanding>> newStandings() {
    Map<String, Optional<LotStanding>> latest = new TreeMap<>();
    standings
        .readKeyValuesToList()
        .forEach(
            record ->
                latest.put(
                    record.key,
                    Optional.ofNullable(record.value)
                        .map(bytes -> (LotStanding) wire.decode(bytes))));
    return latest;
  }

  /** Every crop and lot whose material is known, with all that it was last judged by. */
  List<Dossier> dossiers() {
    return List.copyOf(dossiers.values());
  }

  PedigreeReader pedigree() {
    KeyValueStore<String, byte[]> edges = driver.getKeyValueStore(StateStores.PEDIGREE);
    return new PedigreeReader(wire, edges);
  }

  @Override
  public void close() {
    driver.close();
  }

  private static Path temporaryFolder() {
    try {
      return Files.createTempDirectory("kornspur-benchmark");
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
