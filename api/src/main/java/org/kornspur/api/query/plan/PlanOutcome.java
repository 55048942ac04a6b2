package org.kornspur.api.query.plan;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.kornspur.processors.plan.SeedPlan;
import org.kornspur.processors.plan.SupplyLot;

/**
 * What a plan came to at one moment, to be held beside what it comes to later.
 *
 * @param demands what is met of each
 * @param crops what is sown
 * @param lots counted kilograms by lot
 */
public record PlanOutcome(List<Met> demands, List<Sown> crops, Map<String, Double> lots) {

  /** One demand, kilograms. */
  public record Met(String hybridId, int year, double wantedKg, double metKg) {}

  /** One crop, hectares. */
  public record Sown(String seedId, int year, double areaHa) {}

  /** What was met of a demand, kilograms; empty where it was none. */
  Optional<Double> metKg(String hybridId, int year) {
    return demands.stream()
        .filter(met -> met.year() == year && met.hybridId().equals(hybridId))
        .map(Met::metKg)
        .findFirst();
  }

  static PlanOutcome of(SeedPlan plan, List<SupplyLot> lots) {
    Map<String, Double> counted = new TreeMap<>();
    lots.forEach(lot -> counted.merge(lot.lotId(), lot.countedKg(), Double::sum));
    return new PlanOutcome(
        plan.demands().stream()
            .map(
                met ->
                    new Met(
                        met.wanted().hybridId(),
                        met.wanted().year(),
                        met.wanted().kg(),
                        met.soldKg()))
            .toList(),
        plan.crops().stream()
            .map(crop -> new Sown(crop.seedId(), crop.year(), crop.areaHa()))
            .toList(),
        counted);
  }
}
