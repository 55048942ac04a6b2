package org.kornspur.processors.plan;

import java.util.ArrayList;
import java.util.Collection;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * What an enterprise's own crops of one generation brought, to stand beside what is common
 * practice. Told only where there are three seasons or more (common practice, no source): a single
 * good or bad year says little.
 *
 * <p>The quantiles are linear between the ordered crops (R. J. Hyndman and Y. Fan, Sample quantiles
 * in statistical packages, The American Statistician 50 (1996) 361-365, definition 7).
 *
 * @param seasons years of harvest
 * @param crops that were sown and harvested
 * @param kgPerHa10 kilograms a hectare before cleaning that a tenth of the crops did not reach
 * @param kgPerHa50 median
 * @param kgPerHa90 that a tenth of the crops exceeded
 */
public record OwnYields(
    Generation generation,
    int seasons,
    int crops,
    double kgPerHa10,
    double kgPerHa50,
    double kgPerHa90) {

  /** Fewer say nothing. */
  public static final int LEAST_SEASONS = 3;

  /** A crop that was harvested. */
  public record Grown(Generation generation, int year, double areaHa, double harvestKg) {}

  /** By generation; none of those with too few seasons. */
  public static List<OwnYields> of(Collection<Grown> crops) {
    Map<Generation, List<Grown>> byGeneration = new EnumMap<>(Generation.class);
    for (Grown crop : crops) {
      if (crop.areaHa() > 0 && crop.harvestKg() > 0) {
        byGeneration.computeIfAbsent(crop.generation(), one -> new ArrayList<>()).add(crop);
      }
    }
    List<OwnYields> yields = new ArrayList<>();
    byGeneration.forEach(
        (generation, grown) -> {
          Set<Integer> seasons = new HashSet<>();
          grown.forEach(crop -> seasons.add(crop.year()));
          double[] sorted =
              grown.stream()
                  .mapToDouble(crop -> crop.harvestKg() / crop.areaHa())
                  .sorted()
                  .toArray();
          if (seasons.size() >= LEAST_SEASONS) {
            yields.add(
                new OwnYields(
                    generation,
                    seasons.size(),
                    grown.size(),
                    quantile(sorted, 0.1),
                    quantile(sorted, 0.5),
                    quantile(sorted, 0.9)));
          }
        });
    return yields;
  }

  private static double quantile(double[] sorted, double part) {
    double at = part * (sorted.length - 1);
    int below = (int) at;
    int above = Math.min(below + 1, sorted.length - 1);
    return sorted[below] + (at - below) * (sorted[above] - sorted[below]);
  }
}
