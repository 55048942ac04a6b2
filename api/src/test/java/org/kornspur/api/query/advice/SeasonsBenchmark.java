package org.kornspur.api.query.advice;

import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Random;
import org.kornspur.api.readmodel.SeasonFilter;
import org.kornspur.api.readmodel.StandingIndex;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.statistics.ExpectedHybridity;
import org.kornspur.processors.statistics.HybridityParameters;
import org.kornspur.processors.statistics.TriangularRange;
import org.kornspur.standing.LotStanding;
import org.kornspur.standing.SeedMaterial;
import org.kornspur.standing.StandingState;

/**
 * Measures what the page of seasons asks for, of more and more invented standings: the totals and
 * forecasts as they are kept, beside a walk over all rows and the simulation of one forecast for
 * each crop, as who sees a part of the data has it. One standing in ten is a crop of F1 seed, with
 * one result.
 *
 * <pre>{@code
 * mvn -q -pl api -am test-compile dependency:build-classpath -Dmdep.outputFile=target/benchmark.cp
 * java -cp "api/target/test-classes:api/target/classes:$(cat api/target/benchmark.cp)" \
 *     org.kornspur.api.query.advice.SeasonsBenchmark 500 5000 50000
 * }</pre>
 */
public final class SeasonsBenchmark {
  private static final int ROUNDS = 50;
  private static final int CROP_ONE_IN = 10;
  private static final int FORECASTS = 100;
  private static final StandingState[] STATES = {
    StandingState.FIT, StandingState.NOT_FIT, StandingState.EVIDENCE_OWED
  };

  private SeasonsBenchmark() {}

  public static void main(String[] sizes) {
    System.out.printf(
        Locale.ROOT,
        "%10s %14s %14s %14s %18s  (ms, median)%n",
        "standings",
        "totals kept",
        "totals walked",
        "rows kept",
        "rows simulated");
    for (String size : sizes) {
      measure(Integer.parseInt(size));
    }
  }

  private static void measure(int size) {
    StandingIndex standings = new StandingIndex();
    CalibrationIndex calibrations = new CalibrationIndex();
    Random random = new Random(size);
    for (int at = 0; at < size; at++) {
      boolean isCrop = at % CROP_ONE_IN == 0;
      Subject subject = isCrop ? Subject.crop("C-" + at) : Subject.lot("L-" + at);
      standings.put(standing(subject, at), new byte[] {0}, Instant.EPOCH);
      if (isCrop) {
        calibrations.put(CalibrationIndexTest.invented(subject, random));
      }
    }
    double simulated = median(1, () -> simulate(FORECASTS)) / FORECASTS * (size / CROP_ONE_IN);
    System.out.printf(
        Locale.ROOT,
        "%10d %14.3f %14.3f %14.3f %18.1f%n",
        size,
        median(ROUNDS, () -> standings.seasons(Subject.Kind.LOT, SeasonFilter.ALL)),
        median(ROUNDS, () -> standings.seasons(Subject.Kind.LOT, SeasonFilter.ALL, row -> true)),
        median(ROUNDS, () -> calibrations.of(Optional.empty())),
        simulated);
  }

  private static void simulate(int forecasts) {
    for (int at = 0; at < forecasts; at++) {
      ExpectedHybridity.forecast(
          new ExpectedHybridity.Crop(
              2,
              100,
              new TriangularRange(0.03, 0.05, 0.1),
              new TriangularRange(0.7, 0.9, 1),
              true,
              List.of()),
          HybridityParameters.published(),
          10_000,
          at,
          0.95);
    }
  }

  private static double median(int rounds, Runnable question) {
    double[] ms = new double[rounds];
    question.run();
    for (int round = 0; round < rounds; round++) {
      long began = System.nanoTime();
      question.run();
      ms[round] = (System.nanoTime() - began) / 1e6;
    }
    Arrays.sort(ms);
    return ms[rounds / 2];
  }

  private static LotStanding standing(Subject subject, int at) {
    return LotStanding.newBuilder()
        .setSubject(subject.toString())
        .setState(STATES[at % STATES.length])
        .setMaterial(
            new SeedMaterial("H-" + at % 50, "S-1", "F1_SEED", "BASIC", 2016 + at % 8, "EU"))
        .setVerdicts(List.of())
        .setInherited(List.of())
        .setHeldKg(200)
        .setGivenOutKg(at % 200)
        .setParents(List.of())
        .build();
  }
}
