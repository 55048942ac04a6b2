package org.kornspur.processors.benchmark;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.kornspur.processors.ground.GeoPosition;
import org.kornspur.processors.ground.IsolationIndex;
import org.kornspur.processors.ground.IsolationIndex.Entry;
import org.kornspur.processors.ground.Outline;
import org.kornspur.processors.ground.OutlineDistance;
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
import org.openjdk.jmh.annotations.Warmup;

/**
 * One new pollen source among 100,000 invented fields: which of them lie within 1,000 m? The index
 * beside two ways without it, in the same run: every field measured, and every field first compared
 * by the degrees of its first corner (what one would write in an afternoon). Before anything is
 * timed, all three must find the same fields for every source.
 *
 * <p>Run from the root of the project:
 *
 * <pre>{@code
 * mvn -q -pl ingest,processors test-compile dependency:build-classpath -Dmdep.outputFile=target/benchmark.cp
 * java -cp "processors/target/test-classes:processors/target/classes:$(cat processors/target/benchmark.cp)" \
 *     org.openjdk.jmh.Main IsolationBenchmark
 * }</pre>
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Fork(value = 1, jvmArgs = "-Xmx1g")
@Warmup(iterations = 2, time = 3)
@Measurement(iterations = 3, time = 5)
public class IsolationBenchmark {
  private static final int CROP_YEAR = 2026;
  private static final double REACH_M = 1_000;
  private static final int SOURCES = 16;

  /** No corner of an invented field lies farther than this from its first corner. */
  private static final double WIDEST_FIELD_M = 1_000;

  private static final double LEAST_METRES_IN_DEGREE = 110_574;

  @Param("100000")
  public int fields;

  private final List<Entry> entries = new ArrayList<>();
  private final List<Outline> sources = new ArrayList<>();
  private IsolationIndex index;
  private int next;

  /** Fields of 1 to 60 ha strewn over 5° of latitude and 8° of longitude. */
  @Setup
  public void strewFields() {
    Random random = new Random(20_260_612);
    for (int i = 0; i < fields; i++) {
      entries.add(new Entry("crop:F" + i, CROP_YEAR, field(random)));
    }
    for (int i = 0; i < SOURCES; i++) {
      sources.add(field(random));
    }
    index = IsolationIndex.of(entries);
    for (Outline source : sources) {
      List<String> expected = everyFieldMeasured(source);
      if (!expected.equals(byIndex(source)) || !expected.equals(degreesFirst(source))) {
        throw new IllegalStateException("The three ways find different fields near " + source);
      }
    }
  }

  private static Outline field(Random random) {
    double lat = 50 + 5 * random.nextDouble();
    double lon = 8 + 8 * random.nextDouble();
    double metresByLonDegree = 111_320 * Math.cos(Math.toRadians(lat));
    List<GeoPosition> corners = new ArrayList<>();
    for (int corner = 0; corner < 6; corner++) {
      double angle = 2 * Math.PI * corner / 6;
      double radiusM = 60 + 380 * random.nextDouble();
      corners.add(
          new GeoPosition(
              lon + radiusM * Math.cos(angle) / metresByLonDegree,
              lat + radiusM * Math.sin(angle) / LEAST_METRES_IN_DEGREE));
    }
    return Outline.ofPositions(corners);
  }

  private Outline nextSource() {
    next = (next + 1) % SOURCES;
    return sources.get(next);
  }

  @Benchmark
  public List<String> index() {
    return byIndex(nextSource());
  }

  @Benchmark
  public List<String> bruteForce() {
    return everyFieldMeasured(nextSource());
  }

  @Benchmark
  public List<String> bruteForceByDegrees() {
    return degreesFirst(nextSource());
  }

  private List<String> byIndex(Outline source) {
    return index.near(source, REACH_M, CROP_YEAR).near().stream()
        .map(near -> near.entry().id())
        .sorted()
        .toList();
  }

  private List<String> everyFieldMeasured(Outline source) {
    return entries.stream().filter(entry -> isNear(source, entry)).map(Entry::id).sorted().toList();
  }

  private List<String> degreesFirst(Outline source) {
    GeoPosition here = source.corners().get(0);
    double reachM = REACH_M + 2 * WIDEST_FIELD_M;
    double latDeg = reachM / LEAST_METRES_IN_DEGREE;
    double lonDeg = latDeg / Math.cos(Math.toRadians(Math.abs(here.lat()) + latDeg));
    return entries.stream()
        .filter(
            entry -> {
              GeoPosition there = entry.outline().corners().get(0);
              return Math.abs(there.lat() - here.lat()) <= latDeg
                  && Math.abs(there.lon() - here.lon()) <= lonDeg;
            })
        .filter(entry -> isNear(source, entry))
        .map(Entry::id)
        .sorted()
        .toList();
  }

  private static boolean isNear(Outline source, Entry entry) {
    return entry.cropYear() == CROP_YEAR
        && OutlineDistance.between(source, entry.outline()).distanceM() <= REACH_M;
  }
}
