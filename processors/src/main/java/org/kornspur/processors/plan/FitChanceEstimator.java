package org.kornspur.processors.plan;

import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.apache.commons.statistics.distribution.BetaDistribution;
import org.kornspur.processors.dossier.Material;
import org.kornspur.processors.statistics.Interval;

/**
 * How often what a lot still waits for was met, by the record: of the same gate, kind of seed and
 * grower.
 *
 * <p>Few results say little, so the rate of a group is drawn to the rate of the gate over all
 * groups: with the chances of the groups taken as drawn from a beta distribution, the chance of one
 * is also beta, with mean (s·m + k) / (s + n) for k met of n. Here m is the rate over all groups,
 * (K + ½) / (N + 1), and s how alike they are: 1/ρ − 1, where ρ is the part of the variance that
 * lies between groups. With p = K/N, n of a group, g groups and S = Σ n (k/n − p)², the expectation
 * of S in the beta-binomial model is p (1 − p) [(g − 1) + ρ (N − Σn²/N − (g − 1))], which is solved
 * for ρ. s is held from 2 to 20, for an interval from few groups is easily too narrow; with fewer
 * than three groups, or nothing but one answer, it is 10.
 *
 * <p>What a lot waits for several gates for, is taken to be met or not independently.
 */
public final class FitChanceEstimator {
  private static final double CONFIDENCE = 0.9;
  private static final double LEAST_STRENGTH = 2;
  private static final double MOST_STRENGTH = 20;
  private static final double USUAL_STRENGTH = 10;
  private static final int LEAST_GROUPS = 3;

  /**
   * Lots that are alike.
   *
   * @param seed kind of seed
   * @param grower enterprise; an empty text where nobody is named
   */
  public record Group(Material.Kind seed, String grower) {}

  /** One decided gate of one lot. */
  public record Decided(String gate, Group group, boolean met) {}

  private record Count(int met, int decided) {
    Count plus(boolean isMet) {
      return new Count(met + (isMet ? 1 : 0), decided + 1);
    }
  }

  private static final Count NONE = new Count(0, 0);

  private final Map<String, Map<Group, Count>> byGate = new HashMap<>();

  public FitChanceEstimator(Collection<Decided> record) {
    for (Decided one : record) {
      Map<Group, Count> groups = byGate.computeIfAbsent(one.gate(), gate -> new HashMap<>());
      groups.put(one.group(), groups.getOrDefault(one.group(), NONE).plus(one.met()));
    }
  }

  /**
   * The chance that all of these gates will be met; 1 where nothing is owed. The interval holds all
   * gates at once with a probability of 90 % or more.
   */
  public FitChance chance(Collection<String> gates, Group group) {
    double chance = 1;
    double lower = 1;
    double upper = 1;
    double tail = (1 - CONFIDENCE) / 2 / Math.max(1, gates.size());
    for (String gate : gates) {
      BetaDistribution one = chance(gate, group);
      chance *= one.getMean();
      lower *= one.inverseCumulativeProbability(tail);
      upper *= one.inverseSurvivalProbability(tail);
    }
    return new FitChance(chance, new Interval(lower, upper, CONFIDENCE));
  }

  private BetaDistribution chance(String gate, Group group) {
    Map<Group, Count> groups = byGate.getOrDefault(gate, Map.of());
    List<Count> counts = new ArrayList<>(groups.values());
    int met = counts.stream().mapToInt(Count::met).sum();
    int decided = counts.stream().mapToInt(Count::decided).sum();
    double mean = (met + 0.5) / (decided + 1);
    double strength = strength(counts, met, decided);
    Count own = groups.getOrDefault(group, NONE);
    return BetaDistribution.of(
        strength * mean + own.met(), strength * (1 - mean) + own.decided() - own.met());
  }

  private static double strength(List<Count> counts, int met, int decided) {
    if (counts.size() < LEAST_GROUPS || met == 0 || met == decided) {
      return USUAL_STRENGTH;
    }
    double p = (double) met / decided;
    double spread = 0;
    double squares = 0;
    for (Count count : counts) {
      double off = (double) count.met() / count.decided() - p;
      spread += count.decided() * off * off;
      squares += (double) count.decided() * count.decided();
    }
    double free = counts.size() - 1.0;
    double between = decided - squares / decided - free;
    if (between <= 0) {
      return USUAL_STRENGTH;
    }
    double rho = (spread / (p * (1 - p)) - free) / between;
    return rho <= 0
        ? MOST_STRENGTH
        : Math.max(LEAST_STRENGTH, Math.min(MOST_STRENGTH, 1 / rho - 1));
  }
}
