package org.kornspur.processors.benchmark;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Properties;
import org.apache.kafka.streams.StreamsConfig;
import org.apache.kafka.streams.TopologyTestDriver;
import org.apache.kafka.streams.state.KeyValueStore;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.registry.LocalSchemaRegistry;
import org.kornspur.ingest.seal.TrustedKeys;
import org.kornspur.ingest.wire.WireFormat;
import org.kornspur.processors.judging.Judge;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.stream.BoundedRocksDb;
import org.kornspur.processors.stream.Keys;
import org.kornspur.processors.stream.KornspurTopology;
import org.kornspur.processors.stream.PedigreeReader;
import org.kornspur.processors.stream.StateStores;
import org.kornspur.processors.stream.Topics;
import org.kornspur.standing.PedigreeEdge;

/** The topology's own store of the pedigree, opened by Kafka's test driver and filled by hand. */
final class PedigreeStore implements AutoCloseable {
  private final WireFormat wire = new WireFormat(new LocalSchemaRegistry());
  private final TopologyTestDriver driver;
  private final KeyValueStore<String, byte[]> edges;

  PedigreeStore(StateStores stores) {
    Judge judge = new Judge(id -> Optional.empty(), List.of());
    Properties config = new Properties();
    config.put(StreamsConfig.APPLICATION_ID_CONFIG, "pedigree-benchmark");
    config.put(StreamsConfig.BOOTSTRAP_SERVERS_CONFIG, "none:1");
    config.put(StreamsConfig.STATE_DIR_CONFIG, temporaryFolder());
    config.put(StreamsConfig.ROCKSDB_CONFIG_SETTER_CLASS_CONFIG, BoundedRocksDb.class);
    driver =
        new TopologyTestDriver(
            KornspurTopology.build(
                wire, () -> judge, TrustedKeys.of(), stores, DrivenDossiers.SEAL),
            config);
    edges = driver.getKeyValueStore(StateStores.PEDIGREE);
  }

  /** Edges by which a lot called {@code start} came from 1,000 others in six steps. */
  static List<Edge> thousandAncestorsInSixSteps() {
    int ancestors = 1_000;
    int steps = 6;
    int aStep = ancestors / steps;
    List<Edge> edges = new ArrayList<>();
    for (int step = 0; step < steps; step++) {
      int here = step == steps - 1 ? ancestors - aStep * (steps - 1) : aStep;
      for (int i = 0; i < here; i++) {
        String child = step == 0 ? "start" : "a" + (step - 1) + "-" + i % aStep;
        edges.add(merged(child, "a" + step + "-" + i));
      }
    }
    return edges;
  }

  /** An edge by which one lot was merged into another. */
  static Edge merged(String childLot, String parentLot) {
    return new Edge(
        Subject.lot(parentLot),
        Subject.lot(childLot),
        100,
        FactType.LOT_MERGE,
        "f-" + parentLot,
        Instant.EPOCH);
  }

  /** Straight into the store: through its topic the driver would flush it after every edge. */
  void put(Edge edge) {
    byte[] bytes =
        wire.encode(
            Topics.EDGES.topicName(),
            new PedigreeEdge(
                edge.parent().toString(),
                edge.child().toString(),
                edge.massKg(),
                edge.by().contractName(),
                edge.factId(),
                edge.happenedAt()));
    edges.put(Keys.edgeUp(edge.child(), edge.parent(), edge.factId()), bytes);
    edges.put(Keys.edgeDown(edge.parent(), edge.child(), edge.factId()), bytes);
  }

  void flush() {
    edges.flush();
  }

  PedigreeReader reader() {
    return new PedigreeReader(wire, edges);
  }

  @Override
  public void close() {
    driver.close();
  }

  private static String temporaryFolder() {
    try {
      return Files.createTempDirectory("kornspur-pedigree").toString();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
