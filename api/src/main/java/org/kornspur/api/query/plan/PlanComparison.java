package org.kornspur.api.query.plan;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.processors.plan.PlanSimulation;
import org.kornspur.processors.plan.SeedPlan;

/** Plans side by side, each calculated from the standings of the moment. */
@Schema(description = "Plans side by side, each calculated from the standings of the moment")
public record PlanComparison(
    List<Column> plans, @Schema(description = "Each demand of any of them") List<Row> demands) {

  @Schema(description = "One plan in a few numbers")
  public record Column(
      PlanView.Head head,
      double wantedKg,
      double metKg,
      double shortKg,
      @Schema(description = "Demands of which something is short") int demandsShort,
      @Schema(description = "Of all crops in all years, hectares") double areaHa,
      @Schema(description = "Of all seed in all years, kilograms") double sownKg,
      @Schema(description = "The least chance of any demand to be met; 1 without demand")
          double leastChance,
      @Schema(
              description =
                  "What is met in all but a tenth of simulated seasons, each demand by itself")
          double kg10) {}

  @Schema(description = "One demand in each plan")
  public record Row(
      String hybridId,
      int year,
      @Schema(description = "In the order of the plans; nothing wanted where it is no demand of it")
          List<Cell> cells) {}

  @Schema(description = "One demand in one plan")
  public record Cell(double wantedKg, double metKg, double shortKg, double chanceMet) {
    static final Cell NOT_WANTED = new Cell(0, 0, 0, 1);
  }

  private record Key(String hybridId, int year) implements Comparable<Key> {
    @Override
    public int compareTo(Key other) {
      int byHybrid = hybridId.compareTo(other.hybridId);
      return byHybrid == 0 ? Integer.compare(year, other.year) : byHybrid;
    }
  }

  /** These plans in this order. */
  public static PlanComparison of(List<CalculatedPlan> plans) {
    List<Map<Key, Cell>> cells = plans.stream().map(PlanComparison::cells).toList();
    TreeSet<Key> keys = new TreeSet<>();
    cells.forEach(plan -> keys.addAll(plan.keySet()));
    return new PlanComparison(
        plans.stream().map(PlanComparison::column).toList(),
        keys.stream()
            .map(
                key -> {
                  List<Cell> row = new ArrayList<>();
                  cells.forEach(plan -> row.add(plan.getOrDefault(key, Cell.NOT_WANTED)));
                  return new Row(key.hybridId(), key.year(), row);
                })
            .toList());
  }

  private static Map<Key, Cell> cells(CalculatedPlan plan) {
    Map<Object, PlanSimulation.Chance> chances = new HashMap<>();
    plan.simulation().demands().forEach(one -> chances.put(one.wanted(), one));
    Map<Key, Cell> cells = new HashMap<>();
    for (SeedPlan.Met met : plan.plan().demands()) {
      cells.put(
          new Key(met.wanted().hybridId(), met.wanted().year()),
          new Cell(
              met.wanted().kg(),
              met.soldKg(),
              met.shortKg(),
              chances.get(met.wanted()).chanceMet()));
    }
    return cells;
  }

  private static Column column(CalculatedPlan calculated) {
    SeedPlan plan = calculated.plan();
    return new Column(
        PlanView.Head.of(calculated.version()),
        plan.demands().stream().mapToDouble(met -> met.wanted().kg()).sum(),
        plan.demands().stream().mapToDouble(SeedPlan.Met::soldKg).sum(),
        plan.shortKg(),
        (int) plan.demands().stream().filter(met -> met.shortKg() > 0).count(),
        plan.areaHa(),
        plan.crops().stream()
            .flatMap(crop -> crop.sownKg().values().stream())
            .mapToDouble(Double::doubleValue)
            .sum(),
        calculated.simulation().demands().stream()
            .mapToDouble(PlanSimulation.Chance::chanceMet)
            .min()
            .orElse(1),
        calculated.simulation().demands().stream().mapToDouble(PlanSimulation.Chance::kg10).sum());
  }
}
