package org.kornspur.processors.plan.field;

import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Random;

/**
 * Measures the fields of one season: invented fields of 4 to 25 ha, three on a square kilometre, a
 * third of them with rye in one of the years before, and the crops of many hybrids. Arguments:
 * fields and hybrids, as in {@code 5000 500}.
 */
public final class FieldBenchmark {
  private static final int YEAR = 2027;
  private static final ThreadMXBean CPU = ManagementFactory.getThreadMXBean();

  private FieldBenchmark() {}

  public static void main(String[] sizes) {
    for (int i = 0; i + 1 < sizes.length; i += 2) {
      measure(Integer.parseInt(sizes[i]), Integer.parseInt(sizes[i + 1]));
    }
  }

  private static void measure(int number, int hybrids) {
    Random random = new Random(1);
    double acrossM = Math.sqrt(number / 3.0) * 1000;
    List<KnownField> fields = new ArrayList<>();
    List<RyeStand> known = new ArrayList<>();
    for (int i = 0; i < number; i++) {
      double east = random.nextDouble() * acrossM;
      double north = random.nextDouble() * acrossM;
      double side = 200 + random.nextInt(300);
      fields.add(InventedGround.field("E" + i % 200, "F" + i, east, north, side));
      if (i % 3 == 0) {
        known.add(InventedGround.seen("R" + i, YEAR - 1 - i % 2, east, north, side));
      } else if (i % 50 == 1) {
        known.add(InventedGround.seen("S" + i, YEAR, east + 300, north, side));
      }
    }
    List<SeasonTask.Wanted> wanted = new ArrayList<>();
    for (int hybrid = 1; hybrid <= hybrids; hybrid++) {
      wanted.add(new SeasonTask.Wanted(InventedGround.mixture(hybrid, YEAR, "DE"), 30));
      wanted.add(new SeasonTask.Wanted(InventedGround.singleCross(hybrid, YEAR, "DE"), 4));
      wanted.add(new SeasonTask.Wanted(InventedGround.pollinator(hybrid, YEAR, "DE"), 1));
    }
    long start = System.nanoTime();
    long startCpu = CPU.getCurrentThreadCpuTime();
    SeasonFields found =
        FieldProposal.of(
            new SeasonTask(YEAR, wanted, fields, known, List.of(), Map.of(), Optional.empty()));
    System.out.printf(
        Locale.ROOT,
        "%d fields, %d crops: %.1f s (%.1f s of one processor), %d placed, %.0f ha without a field%n",
        number,
        wanted.size(),
        (System.nanoTime() - start) / 1e9,
        (CPU.getCurrentThreadCpuTime() - startCpu) / 1e9,
        found.placed().size(),
        found.unplacedHa());
  }
}
