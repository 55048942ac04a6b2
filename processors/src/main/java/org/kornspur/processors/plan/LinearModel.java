package org.kornspur.processors.plan;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Stream;
import org.ojalgo.optimisation.Expression;
import org.ojalgo.optimisation.ExpressionsBasedModel;
import org.ojalgo.optimisation.Optimisation;
import org.ojalgo.optimisation.Variable;

/**
 * A task as a linear programme. For each seed and year: what was kept, less the loss of a year, and
 * what is harvested, are what is sown for the next harvest, sold, and kept. It is solved in turn
 * for what comes first: as little as can be under minimum stocks and pinned areas; then the least
 * weighted shortage; then the least area. What one stage has reached the next ones hold.
 *
 * <p>Masses are in tonnes and areas in hectares, so that the numbers are of one size.
 */
final class LinearModel {
  private static final double KG_PER_T = 1000;

  /**
   * By what part a later stage may fall behind an earlier one; more only where rounding asks it.
   */
  private static final double[] SLACKS = {1e-7, 1e-6, 1e-5, 1e-4};

  private final PlanTask task;
  private final List<GrownSeed> seeds;
  private final ExpressionsBasedModel model = new ExpressionsBasedModel();
  private final Map<String, Variable[]> areas = new HashMap<>();
  private final Map<String, Variable[]> kept = new HashMap<>();
  private final Map<String, Variable[]> sold = new HashMap<>();
  private final Map<String, Expression[]> balances = new HashMap<>();
  private final List<Variable> unders = new ArrayList<>();
  private final List<Variable> shorts = new ArrayList<>();
  private final List<Double> weights = new ArrayList<>();
  private final List<Held> held = new ArrayList<>();

  /** What a stage has reached. */
  private record Held(Expression sum, double least) {}

  /**
   * The model of one connected group of seed.
   *
   * @param inStoreKg counted seed of each kind in store
   * @param limits limits of area that bear on it
   */
  LinearModel(
      PlanTask task, List<GrownSeed> seeds, Map<String, Double> inStoreKg, List<AreaLimit> limits) {
    this.task = task;
    this.seeds = seeds;
    seeds.forEach(this::grow);
    for (GrownSeed seed : seeds) {
      for (int i = 0; i < task.years(); i++) {
        balance(seed, i, inStoreKg.getOrDefault(seed.seedId(), 0.0) / KG_PER_T);
      }
    }
    limits.forEach(this::limit);
    task.pins().stream().filter(pin -> areas.containsKey(pin.seedId())).forEach(this::pin);
    seeds.stream().filter(seed -> seed.minimumStockKg() > 0).forEach(this::minimum);
    task.demands().stream()
        .filter(wanted -> sold.containsKey(wanted.hybridId()))
        .forEach(this::want);
  }

  private void grow(GrownSeed seed) {
    Variable[] area = new Variable[task.years()];
    Variable[] store = new Variable[task.years()];
    for (int i = 0; i < task.years(); i++) {
      if (seed.harvestYears().contains(task.firstYear() + i)) {
        area[i] = variable("area", seed, i);
      }
      store[i] = variable("kept", seed, i);
    }
    areas.put(seed.seedId(), area);
    kept.put(seed.seedId(), store);
    sold.put(seed.seedId(), new Variable[task.years()]);
  }

  private Variable variable(String what, GrownSeed seed, int i) {
    return model.addVariable(what + " " + seed.seedId() + " " + i).lower(0);
  }

  private void want(PlanTask.Wanted wanted) {
    int i = wanted.year() - task.firstYear();
    Variable missing = model.addVariable("short " + wanted.hybridId() + " " + i).lower(0);
    Variable given = model.addVariable("sold " + wanted.hybridId() + " " + i).lower(0);
    sold.get(wanted.hybridId())[i] = given;
    model
        .addExpression("wanted " + wanted.hybridId() + " " + i)
        .level(wanted.kg() / KG_PER_T)
        .set(given, 1)
        .set(missing, 1);
    balances.get(wanted.hybridId())[i].set(given, -1);
    shorts.add(missing);
    weights.add(wanted.weight());
  }

  private void balance(GrownSeed seed, int i, double inStoreT) {
    Expression balance =
        model.addExpression("balance " + seed.seedId() + " " + i).level(i == 0 ? -inStoreT : 0);
    balances.computeIfAbsent(seed.seedId(), id -> new Expression[task.years()])[i] = balance;
    balance.set(kept.get(seed.seedId())[i], -1);
    if (i > 0) {
      balance.set(kept.get(seed.seedId())[i - 1], seed.kept());
      if (areas.get(seed.seedId())[i] != null) {
        balance.set(areas.get(seed.seedId())[i], seed.cleanKgPerHa() / KG_PER_T);
      }
    }
    if (i + 1 < task.years()) {
      for (GrownSeed child : seeds) {
        Variable area = areas.get(child.seedId())[i + 1];
        if (area != null && child.sownKgPerHa(seed.seedId()) > 0) {
          balance.set(area, -child.sownKgPerHa(seed.seedId()) / KG_PER_T);
        }
      }
    }
  }

  private void limit(AreaLimit limit) {
    Expression used =
        model
            .addExpression("ground " + limit.generation() + " " + limit.year())
            .upper(limit.mostHa());
    for (GrownSeed seed : seeds) {
      Variable area = areas.get(seed.seedId())[limit.year() - task.firstYear()];
      if (limit.holds(seed) && area != null) {
        used.set(area, 1);
      }
    }
  }

  private void pin(PinnedArea pin) {
    Variable area = areas.get(pin.seedId())[pin.year() - task.firstYear()];
    if (area == null) {
      return;
    }
    Variable under = model.addVariable("not sown " + pin.seedId() + " " + pin.year()).lower(0);
    model
        .addExpression("pin " + pin.seedId() + " " + pin.year())
        .level(pin.areaHa())
        .set(area, 1)
        .set(under, 1);
    unders.add(under);
  }

  private void minimum(GrownSeed seed) {
    for (int i = 0; i < task.years(); i++) {
      Variable under = variable("under", seed, i);
      model
          .addExpression("minimum " + seed.seedId() + " " + i)
          .lower(seed.minimumStockKg() / KG_PER_T)
          .set(kept.get(seed.seedId())[i], 1)
          .set(under, 1);
      unders.add(under);
    }
  }

  /** The best choices. */
  PlanAmounts solve() {
    if (!unders.isEmpty()) {
      hold("under", unders, unders.stream().map(under -> 1.0).toList());
    }
    if (!shorts.isEmpty()) {
      hold("short", shorts, weights);
    }
    for (Variable[] area : areas.values()) {
      Stream.of(area).filter(Objects::nonNull).forEach(one -> one.weight(1));
    }
    optimal();
    return amounts();
  }

  /** Minimises a weighted sum, and has all later stages keep what it came to. */
  private void hold(String name, List<Variable> variables, List<Double> by) {
    for (int i = 0; i < variables.size(); i++) {
      variables.get(i).weight(by.get(i));
    }
    double least = optimal();
    Expression sum = model.addExpression(name);
    for (int i = 0; i < variables.size(); i++) {
      sum.set(variables.get(i), by.get(i));
      variables.get(i).weight(null);
    }
    held.add(new Held(sum, least));
  }

  private double optimal() {
    Optimisation.Result result = null;
    for (double slack : SLACKS) {
      held.forEach(one -> one.sum().upper(one.least() + slack * Math.max(1, one.least())));
      result = model.minimise();
      if (result.getState().isOptimal()) {
        return result.getValue();
      }
    }
    throw new IllegalStateException("The solver ended " + result.getState());
  }

  private PlanAmounts amounts() {
    PlanAmounts amounts = new PlanAmounts(task.years());
    for (GrownSeed seed : seeds) {
      for (int i = 0; i < task.years(); i++) {
        amounts.areaHa(seed.seedId())[i] = value(areas.get(seed.seedId())[i]);
        amounts.soldKg(seed.seedId())[i] = value(sold.get(seed.seedId())[i]) * KG_PER_T;
      }
    }
    return amounts;
  }

  private static double value(Variable variable) {
    return variable == null || variable.getValue() == null
        ? 0
        : Math.max(0, variable.getValue().doubleValue());
  }
}
