package org.kornspur.processors.benchmark;

import java.util.concurrent.TimeUnit;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.pedigree.Trace;
import org.kornspur.processors.stream.PedigreeReader;
import org.kornspur.processors.stream.StateStores;
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
 * Tracing a lot back through six steps to 1,000 ancestors, in the store that answers the API, on
 * disk and in memory, beside the edges of other lots.
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

  /** Where the store of edges is kept. */
  @Param({"disk", "memory"})
  public String pedigreeKept;

  private PedigreeStore store;
  private PedigreeReader pedigree;

  @Setup
  public void fill() {
    long before = usedBytes();
    store = new PedigreeStore(stores());
    PedigreeStore.thousandAncestorsInSixSteps().forEach(store::put);
    for (int i = 0; i < otherEdges; i++) {
      store.put(PedigreeStore.merged("other" + i / 3, "parent" + i));
    }
    store.flush();
    System.out.printf(
        "Java heap for each of %d edges: %d bytes%n",
        ANCESTORS + otherEdges, (usedBytes() - before) / (ANCESTORS + otherEdges));
    pedigree = store.reader();
    Trace trace = traceBack();
    if (trace.steps().size() != ANCESTORS + 1
        || trace.steps().values().stream().mapToInt(Integer::intValue).max().orElse(0) != STEPS) {
      throw new IllegalStateException("The pedigree is not as described: " + trace.steps().size());
    }
  }

  @TearDown
  public void close() {
    store.close();
  }

  @Benchmark
  public Trace traceBack() {
    return Trace.walk(pedigree, Subject.lot("start"), Trace.Direction.BACK, 100_000);
  }

  private StateStores stores() {
    return switch (pedigreeKept) {
      case "disk" -> StateStores.onDisk();
      case "memory" -> StateStores.onDisk().withPedigreeInMemory();
      default -> throw new IllegalArgumentException("Not a place for edges: " + pedigreeKept);
    };
  }

  private static long usedBytes() {
    System.gc();
    return Runtime.getRuntime().totalMemory() - Runtime.getRuntime().freeMemory();
  }
}
