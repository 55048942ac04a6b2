package org.kornspur.processors.plan;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import org.kornspur.processors.statistics.TriangularRange;

/**
 * Measures a plan of invented hybrids over eight harvests, with ten lots of each of five components
 * a hybrid: requirements, optimisation and 10,000 simulated seasons, without a limit of ground and
 * with one that is short.
 *
 * <pre>{@code
 * java -cp "processors/target/test-classes:processors/target/classes:$(cat processors/target/benchmark.cp)" \
 *     org.kornspur.processors.plan.PlanBenchmark 20 100 500
 * }</pre>
 */
public final class PlanBenchmark {
  private static final int YEARS = 8;
  private static final int RUNS = 10_000;

  private PlanBenchmark() {}

  public static void main(String[] sizes) {
    for (String size : sizes) {
      int hybrids = Integer.parseInt(size);
      measure(hybrids, 0);
      measure(hybrids, 25.0 * hybrids);
    }
  }

  private static void measure(int hybrids, double groundHa) {
    PlanTask task = task(hybrids, groundHa);
    long start = System.nanoTime();
    Requirements needed = Requirements.of(task);
    long required = System.nanoTime();
    SeedPlan plan = PlanSolver.solve(task);
    long solved = System.nanoTime();
    PlanSimulation.of(task, plan, RUNS, 1);
    long simulated = System.nanoTime();
    System.out.printf(
        Locale.ROOT,
        "%d hybrids, %s: requirements %.3f s (%.0f kg missing), optimisation %.1f s (%.0f kg short,"
            + " ground shared out: %s), %d seasons %.1f s%n",
        hybrids,
        groundHa == 0 ? "ground not limited" : "ground limited",
        (required - start) / 1e9,
        needed.missingKg(),
        (solved - required) / 1e9,
        plan.shortKg(),
        plan.isGroundShared(),
        RUNS,
        (simulated - solved) / 1e9);
  }

  private static PlanTask task(int hybrids, double groundHa) {
    Random random = new Random(1);
    List<SeedDemand> demands = new ArrayList<>();
    List<SupplyLot> lots = new ArrayList<>();
    for (int hybrid = 1; hybrid <= hybrids; hybrid++) {
      for (int year = Invented.NOW; year <= Invented.NOW + YEARS; year++) {
        double tonnes = 50.0 + random.nextInt(200);
        demands.add(
            new SeedDemand(
                "H-" + hybrid, year, TriangularRange.exactly(tonnes), 1.0 + random.nextInt(3)));
      }
      for (String component : List.of("A-", "M-", "B-", "C-", "SC-")) {
        for (int lot = 0; lot < 10; lot++) {
          lots.add(
              Invented.lot(
                  "L" + lots.size(),
                  component + hybrid,
                  random.nextInt(component.equals("SC-") ? 400 : 40)));
        }
      }
    }
    List<AreaLimit> limits = new ArrayList<>();
    for (int year = Invented.NOW + 1; groundHa > 0 && year <= Invented.NOW + YEARS; year++) {
      limits.add(new AreaLimit(Optional.empty(), year, groundHa));
    }
    return PlanTask.of(
        new PlanTask.Question(
            Invented.NOW,
            Invented.NOW + YEARS,
            PlanInputs.commonPractice(),
            demands,
            SeedDemand.Level.EXPECTED,
            limits,
            List.of()),
        Invented.chain(hybrids),
        lots,
        Map.of());
  }
}
