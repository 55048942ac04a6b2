package org.kornspur.processors.plan;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * What may become of a plan: many seasons, each with yields and lots drawn anew.
 *
 * <p>In each run a lot that waits becomes fit or not by its chance, as a whole. Crops of one
 * generation and year share their season, and so the place in the triangular distribution of their
 * yields; generations and years differ independently. What is sown in the first autumn is as
 * planned, as far as there is seed; after each harvest the plan is followed as far as the seed
 * allows, and where seed is short all that is sown of it is cut alike. Each demand takes what is
 * there in its year. So the first autumn is decided before anything is known, and the rest after
 * each harvest: a plan in stages with recourse, here by a fixed rule and not by an optimum. On
 * plans of this kind: J. R. Birge and F. Louveaux, Introduction to Stochastic Programming, section
 * 1.1.
 *
 * @param runs seasons simulated
 * @param demands what is met of each demand
 * @param lots that wait, those on which most rests first
 */
public record PlanSimulation(int runs, List<Chance> demands, List<LotRisk> lots) {
  /**
   * What becomes of one demand.
   *
   * @param chanceMet part of the runs in which it is met
   * @param kg10 kilograms below which a tenth of the runs stays, and so on
   */
  public record Chance(
      PlanTask.Wanted wanted, double chanceMet, double kg10, double kg50, double kg90) {}

  /**
   * What rests on a lot that waits.
   *
   * @param ifNotFitKg how much less of all demand is met, on average, where it does not become fit
   * @param riskKg the same by the chance that it does not
   */
  public record LotRisk(String lotId, double chance, double ifNotFitKg, double riskKg) {}

  /**
   * Simulates.
   *
   * @param seed the same seed gives the same answer
   */
  public static PlanSimulation of(PlanTask task, SeedPlan plan, int runs, long seed) {
    List<PlanSimulation> parts =
        PlanSolver.groups(task).parallelStream()
            .map(group -> new SimulatedGroup(task, plan, group, runs, seed).simulate())
            .toList();
    List<LotRisk> lots = new ArrayList<>();
    Map<PlanTask.Wanted, Chance> chances = new HashMap<>();
    for (PlanSimulation part : parts) {
      lots.addAll(part.lots());
      part.demands().forEach(chance -> chances.put(chance.wanted(), chance));
    }
    lots.sort(Comparator.comparingDouble(LotRisk::riskKg).reversed());
    return new PlanSimulation(runs, task.demands().stream().map(chances::get).toList(), lots);
  }
}
