package org.kornspur.processors.benchmark;

import java.util.List;
import java.util.concurrent.TimeUnit;
import org.kornspur.processors.statistics.Agreement;
import org.kornspur.processors.statistics.ExactBinomial;
import org.kornspur.processors.statistics.ExpectedHybridity;
import org.kornspur.processors.statistics.HybridityParameters;
import org.kornspur.processors.statistics.Interval;
import org.kornspur.processors.statistics.Replicate;
import org.kornspur.processors.statistics.ReplicateTolerance;
import org.kornspur.processors.statistics.SequentialPlan;
import org.kornspur.processors.statistics.SourceExtent;
import org.kornspur.processors.statistics.TriangularRange;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/**
 * Statistics that a gate asks for at every judgement, the acceptance number against a plain sum of
 * binomial terms as baseline, and the two slow ones: planning a sequential count and a forecast.
 *
 * <p>Run from the root of the project:
 *
 * <pre>{@code
 * mvn -q -pl ingest,processors test-compile dependency:build-classpath -Dmdep.outputFile=target/benchmark.cp
 * java -cp "processors/target/test-classes:processors/target/classes:$(cat processors/target/benchmark.cp)" \
 *     org.openjdk.jmh.Main StatisticsBenchmark
 * }</pre>
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Warmup(iterations = 2, time = 1)
@Measurement(iterations = 3, time = 1)
@Fork(1)
public class StatisticsBenchmark {

  private static final int PLANTS = 4500;
  private static final double STANDARD = 0.001;

  private final List<Replicate> replicates =
      List.of(
          new Replicate(100, 91),
          new Replicate(100, 88),
          new Replicate(100, 93),
          new Replicate(100, 90));
  private final HybridityParameters parameters = HybridityParameters.published();
  private final ExpectedHybridity.Crop crop =
      new ExpectedHybridity.Crop(
          3,
          1000,
          new TriangularRange(0.04, 0.05, 0.06),
          new TriangularRange(0.7, 0.9, 1),
          true,
          List.of(
              new ExpectedHybridity.ForeignSource(
                  new SourceExtent.Facing(600, 200, 300, 1), 1, new TriangularRange(0.5, 0.8, 1))));

  @Benchmark
  public Interval clopperPearson() {
    return ExactBinomial.interval(6, PLANTS, 0.95);
  }

  @Benchmark
  public int acceptanceNumber() {
    return ExactBinomial.acceptanceNumber(PLANTS, STANDARD, 0.95);
  }

  @Benchmark
  public int acceptanceNumberBySummingTerms() {
    double term = Math.pow(1 - STANDARD, PLANTS);
    double sum = term;
    int most = 0;
    while (sum < 0.95) {
      most++;
      term *= (PLANTS - most + 1.0) / most * STANDARD / (1 - STANDARD);
      sum += term;
    }
    return most;
  }

  @Benchmark
  public Agreement replicateRange() {
    return ReplicateTolerance.judge(replicates);
  }

  @Benchmark
  public SequentialPlan sequentialPlan() {
    return SequentialPlan.keepingRisks(0.002, 0.01, 0.05, 0.05);
  }

  @Benchmark
  public ExpectedHybridity forecastOfTenThousandRuns() {
    return ExpectedHybridity.forecast(crop, parameters, 10_000, 1, 0.95);
  }
}
