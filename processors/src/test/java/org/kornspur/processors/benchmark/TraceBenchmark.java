package org.kornspur.processors.benchmark;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.Properties;
import java.util.concurrent.TimeUnit;
import org.apache.kafka.common.serialization.ByteArraySerializer;
import org.apache.kafka.common.serialization.StringSerializer;
import org.apache.kafka.streams.StreamsConfig;
import org.apache.kafka.streams.TestInputTopic;
import org.apache.kafka.streams.TopologyTestDriver;
import org.apache.kafka.streams.state.KeyValueStore;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.registry.LocalSchemaRegistry;
import org.kornspur.ingest.wire.WireFormat;
import org.kornspur.processors.judging.Judge;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.pedigree.Trace;
import org.kornspur.processors.stream.Keys;
import org.kornspur.processors.stream.KornspurTopology;
import org.kornspur.processors.stream.PedigreeReader;
import org.kornspur.processors.stream.Stores;
import org.kornspur.processors.stream.Topics;
import org.kornspur.standing.PedigreeEdge;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.TearDown;
import org.openjdk.jmh.annotations.Warmup;

/**
 * Tracing a lot back through six steps to 1,000 ancestors, in the store on disk that answers the
 * API, beside the edges of other lots.
 *
 * <p>Run from the root of the project:
 *
 * <pre>{@code
 * mvn -q -pl ingest,processors test-compile dependency:build-classpath -Dmdep.outputFile=target/benchmark.cp
 * java -cp "processors/target/test-classes:processors/target/classes:$(cat processors/target/benchmark.cp)" \
 *     org.openjdk.jmh.Main TraceBenchmark
 * }</pre>
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.SampleTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 3, time = 2)
@Measurement(iterations = 5, time = 3)
@Fork(1)
public class TraceBenchmark {
  private static final int ANCESTORS = 1_000;
  private static final int STEPS = 6;

  /** Edges of other lots in the same store. */
  @Param({"0", "200000"})
  public int otherEdges;

  private TopologyTestDriver driver;
  private PedigreeReader pedigree;
  private TestInputTopic<String, byte[]> edges;
  private WireFormat wire;

  @Setup
  public void fill() throws IOException {
    wire = new WireFormat(new LocalSchemaRegistry());
    Properties config = new Properties();
    config.put(StreamsConfig.APPLICATION_ID_CONFIG, "trace-benchmark");
    config.put(StreamsConfig.BOOTSTRAP_SERVERS_CONFIG, "none:1");
    Path state = Files.createTempDirectory("trace-benchmark");
    config.put(StreamsConfig.STATE_DIR_CONFIG, state.toString());
    driver =
        new TopologyTestDriver(
            KornspurTopology.build(
                wire, new Judge(id -> Optional.empty(), List.of()), Stores.onDisk()),
            config);
    edges =
        driver.createInputTopic(
            Topics.EDGES.topicName(), new StringSerializer(), new ByteArraySerializer());
    int perStep = ANCESTORS / STEPS;
    for (int step = 0; step < STEPS; step++) {
      int here = step == STEPS - 1 ? ANCESTORS - perStep * (STEPS - 1) : perStep;
      for (int i = 0; i < here; i++) {
        String child = step == 0 ? "start" : "a" + (step - 1) + "-" + i % perStep;
        put(child, "a" + step + "-" + i);
      }
    }
    for (int i = 0; i < otherEdges; i++) {
      put("other" + i / 3, "parent" + i);
    }
    KeyValueStore<String, byte[]> store = driver.getKeyValueStore(Stores.PEDIGREE);
    pedigree = new PedigreeReader(wire, store);
    Trace trace = traceBack();
    if (trace.steps().size() != ANCESTORS + 1
        || trace.steps().values().stream().mapToInt(Integer::intValue).max().orElse(0) != STEPS) {
      throw new IllegalStateException("The pedigree is not as described: " + trace.steps().size());
    }
  }

  @TearDown
  public void close() {
    driver.close();
  }

  @Benchmark
  public Trace traceBack() {
    return Trace.walk(pedigree, Subject.lot("start"), Trace.Direction.BACK, 100_000);
  }

  private void put(String childLot, String parentLot) {
    Edge edge =
        new Edge(
            Subject.lot(parentLot),
            Subject.lot(childLot),
            100,
            FactType.LOT_MERGE,
            "f-" + parentLot,
            Instant.EPOCH);
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
    edges.pipeInput(Keys.edgeUp(edge.child(), edge.parent(), edge.factId()), bytes);
    edges.pipeInput(Keys.edgeDown(edge.parent(), edge.child(), edge.factId()), bytes);
  }
}
