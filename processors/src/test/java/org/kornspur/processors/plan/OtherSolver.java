package org.kornspur.processors.plan;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.apache.commons.math3.optim.MaxIter;
import org.apache.commons.math3.optim.linear.LinearConstraint;
import org.apache.commons.math3.optim.linear.LinearConstraintSet;
import org.apache.commons.math3.optim.linear.LinearObjectiveFunction;
import org.apache.commons.math3.optim.linear.NonNegativeConstraint;
import org.apache.commons.math3.optim.linear.Relationship;
import org.apache.commons.math3.optim.linear.SimplexSolver;
import org.apache.commons.math3.optim.nonlinear.scalar.GoalType;

/**
 * The least weighted shortage by another library and another model: hectares and sold tonnes alone,
 * with what is left in store written out as their sum over all years before.
 */
final class OtherSolver {
  private final PlanTask task;
  private final List<String> names = new ArrayList<>();
  private final List<LinearConstraint> constraints = new ArrayList<>();

  private OtherSolver(PlanTask task) {
    this.task = task;
  }

  static double leastWeightedShortKg(PlanTask task) {
    return new OtherSolver(task).solve();
  }

  private double solve() {
    for (GrownSeed seed : task.seeds()) {
      seed.harvestYears().forEach(year -> names.add("area " + seed.seedId() + " " + year));
    }
    task.demands().forEach(one -> names.add("sold " + one.hybridId() + " " + one.year()));
    Map<String, Double> inStore = task.inStoreKg();
    for (GrownSeed seed : task.seeds()) {
      double[] left = new double[names.size()];
      double constant = inStore.getOrDefault(seed.seedId(), 0.0) / 1000;
      for (int year = task.firstYear(); year <= task.lastYear(); year++) {
        add(left, "area " + seed.seedId() + " " + year, seed.cleanKgPerHa() / 1000);
        add(left, "sold " + seed.seedId() + " " + year, -1);
        for (GrownSeed child : task.seeds()) {
          add(
              left,
              "area " + child.seedId() + " " + (year + 1),
              -child.sownKgPerHa(seed.seedId()) / 1000);
        }
        constraints.add(new LinearConstraint(left.clone(), Relationship.GEQ, -constant));
        for (int i = 0; i < left.length; i++) {
          left[i] *= seed.kept();
        }
        constant *= seed.kept();
      }
    }
    double[] weights = new double[names.size()];
    double all = 0;
    for (PlanTask.Wanted one : task.demands()) {
      double[] sold = new double[names.size()];
      add(sold, "sold " + one.hybridId() + " " + one.year(), 1);
      add(weights, "sold " + one.hybridId() + " " + one.year(), one.weight());
      constraints.add(new LinearConstraint(sold, Relationship.LEQ, one.kg() / 1000));
      all += one.kg() / 1000 * one.weight();
    }
    for (AreaLimit limit : task.limits()) {
      double[] used = new double[names.size()];
      for (GrownSeed seed : task.seeds()) {
        if (limit.holds(seed)) {
          add(used, "area " + seed.seedId() + " " + limit.year(), 1);
        }
      }
      constraints.add(new LinearConstraint(used, Relationship.LEQ, limit.mostHa()));
    }
    double met =
        new SimplexSolver()
            .optimize(
                new MaxIter(100_000),
                new LinearObjectiveFunction(weights, 0),
                new LinearConstraintSet(constraints),
                GoalType.MAXIMIZE,
                new NonNegativeConstraint(true))
            .getValue();
    return (all - met) * 1000;
  }

  private void add(double[] row, String name, double value) {
    int at = names.indexOf(name);
    if (at >= 0) {
      row[at] += value;
    }
  }
}
