package org.kornspur.processors.stream;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.kornspur.contract.PollenSourceKind;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.ground.GeoPosition;
import org.kornspur.processors.ground.Plot;
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
 * One plot changes in a cell full of plots: who is near whom now? The finder measures the changed
 * plot against the others; beside it, in the same run, every pair of the cell is measured anew. A
 * quarter of the plots are seen sources, the rest seed crops with three kinds of pollen.
 *
 * <p>Run as the benchmarks in {@code org.kornspur.processors.benchmark}.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 2, time = 2)
@Measurement(iterations = 3, time = 2)
@Fork(1)
public class DenseCellBenchmark {
  private static final double CELL_DEG = 0.045;

  @Param("200")
  public int plotsInCell;

  private final List<Plot> plots = new ArrayList<>();
  private IsolationCellIndex ground;
  private Plot elsewhere;
  private boolean moved;

  @Setup
  public void strewPlots() {
    Random random = new Random(20_260_615);
    for (int i = 0; i < plotsInCell; i++) {
      plots.add(plot(random, i));
    }
    ground = IsolationCellIndex.of(2024, plots);
    elsewhere = plot(random, 0);
    ground.change(elsewhere.subject(), Optional.of(elsewhere));
    ground.change(plots.get(0).subject(), Optional.of(plots.get(0)));
    IsolationCellIndex anew = IsolationCellIndex.of(2024, plots);
    for (Plot crop : plots) {
      if (!ground.near(crop.subject()).equals(anew.near(crop.subject()))) {
        throw new IllegalStateException("The two ways differ for " + crop.subject());
      }
    }
  }

  @Benchmark
  public int changedPlotOnly() {
    moved = !moved;
    Plot now = moved ? elsewhere : plots.get(0);
    int neighbours = 0;
    for (Subject crop : ground.change(now.subject(), Optional.of(now))) {
      neighbours += ground.near(crop).size();
    }
    return neighbours;
  }

  @Benchmark
  public int everyPair() {
    IsolationCellIndex anew = IsolationCellIndex.of(2024, plots);
    int neighbours = 0;
    for (Plot crop : plots) {
      neighbours += anew.near(crop.subject()).size();
    }
    return neighbours;
  }

  private static Plot plot(Random random, int number) {
    boolean source = number % 4 == 0;
    double west = 13 + CELL_DEG * random.nextDouble();
    double south = InventedFacts.LATITUDE + CELL_DEG * random.nextDouble();
    return new Plot(
        source ? Subject.source("S" + number) : Subject.crop("C" + number),
        2025,
        List.of(
            new GeoPosition(west, south),
            new GeoPosition(west + 0.003, south),
            new GeoPosition(west + 0.003, south + 0.002),
            new GeoPosition(west, south + 0.002)),
        source ? Optional.empty() : Optional.of("pollen-" + number % 3),
        source ? Optional.of(PollenSourceKind.RYE_CROP) : Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        "f" + number,
        Optional.empty(),
        Optional.empty(),
        Optional.empty());
  }
}
