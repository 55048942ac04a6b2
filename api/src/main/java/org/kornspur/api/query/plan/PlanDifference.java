package org.kornspur.api.query.plan;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.processors.plan.Supply;

@Schema(description = "How the plan differs now from what it was when it was approved")
public record PlanDifference(
    @Schema(description = "Demands of which more or less is met") List<OfDemand> demands,
    @Schema(description = "Crops of which another area is sown") List<OfCrop> crops,
    @Schema(description = "Lots that are counted otherwise") List<OfLot> lots) {
  private static final double LEAST_KG = 1;
  private static final double LEAST_HA = 0.01;

  @Schema(description = "One demand, kilograms met then and now")
  public record OfDemand(
      String hybridId, int year, double wantedKg, double metThenKg, double metNowKg) {}

  @Schema(description = "One crop, hectares then and now")
  public record OfCrop(String seedId, int year, double thenHa, double nowHa) {}

  @Schema(description = "One lot, kilograms counted then and now")
  public record OfLot(
      String lotId,
      double thenKg,
      double nowKg,
      @Schema(
              nullable = true,
              description = "Why the plan does not count on it now; null where it does")
          Supply.Reason reason) {}

  private record Key(String id, int year) {}

  static PlanDifference of(PlanOutcome then, PlanOutcome now, Supply supply) {
    return new PlanDifference(demands(then, now), crops(then, now), lots(then, now, supply));
  }

  /** Whether all is as it was approved. */
  public boolean isNone() {
    return demands.isEmpty() && crops.isEmpty() && lots.isEmpty();
  }

  private static List<OfDemand> demands(PlanOutcome then, PlanOutcome now) {
    Map<Key, PlanOutcome.Met> before = new HashMap<>();
    then.demands().forEach(met -> before.put(new Key(met.hybridId(), met.year()), met));
    return now.demands().stream()
        .map(
            met -> {
              double metThen =
                  Optional.ofNullable(before.get(new Key(met.hybridId(), met.year())))
                      .map(PlanOutcome.Met::metKg)
                      .orElse(0.0);
              return new OfDemand(met.hybridId(), met.year(), met.wantedKg(), metThen, met.metKg());
            })
        .filter(one -> Math.abs(one.metThenKg() - one.metNowKg()) >= LEAST_KG)
        .toList();
  }

  private static List<OfCrop> crops(PlanOutcome then, PlanOutcome now) {
    Map<Key, Double> before = areas(then);
    Map<Key, Double> after = areas(now);
    List<OfCrop> changed = new ArrayList<>();
    TreeSet<Key> keys = new TreeSet<>(Comparator.comparingInt(Key::year).thenComparing(Key::id));
    keys.addAll(before.keySet());
    keys.addAll(after.keySet());
    for (Key key : keys) {
      double thenHa = before.getOrDefault(key, 0.0);
      double nowHa = after.getOrDefault(key, 0.0);
      if (Math.abs(thenHa - nowHa) >= LEAST_HA) {
        changed.add(new OfCrop(key.id(), key.year(), thenHa, nowHa));
      }
    }
    return changed;
  }

  private static Map<Key, Double> areas(PlanOutcome outcome) {
    Map<Key, Double> areas = new HashMap<>();
    outcome.crops().forEach(crop -> areas.put(new Key(crop.seedId(), crop.year()), crop.areaHa()));
    return areas;
  }

  private static List<OfLot> lots(PlanOutcome then, PlanOutcome now, Supply supply) {
    Map<String, Supply.Reason> reasons = new HashMap<>();
    supply.leftOut().forEach(lot -> reasons.put(lot.lotId(), lot.reason()));
    TreeSet<String> ids = new TreeSet<>(then.lots().keySet());
    ids.addAll(now.lots().keySet());
    List<OfLot> changed = new ArrayList<>();
    for (String lotId : ids) {
      double thenKg = then.lots().getOrDefault(lotId, 0.0);
      double nowKg = now.lots().getOrDefault(lotId, 0.0);
      if (Math.abs(thenKg - nowKg) >= LEAST_KG) {
        changed.add(new OfLot(lotId, thenKg, nowKg, reasons.get(lotId)));
      }
    }
    return changed;
  }
}
