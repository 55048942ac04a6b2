package org.kornspur.processors.plan;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;
import org.junit.jupiter.api.Test;
import org.kornspur.processors.statistics.Interval;

/** Lots are invented. */
class AllotmentTest {
  private static final FitChance HALF = new FitChance(0.5, new Interval(0.2, 0.8, 0.9));

  /** 114 kg for 2 ha: the old lot first, then the young one, and the rest of the one that waits. */
  @Test
  void fitLotsAreTakenBeforeThoseThatWaitAndOldOnesFirst() {
    PlanTask task =
        Invented.task(
            2027,
            List.of(Invented.demand("H-1", 2027, 10)),
            List.of(
                new SupplyLot("waits", "SC-1", 200, 2024, Optional.of(HALF)),
                new SupplyLot("young", "SC-1", 40, 2026, Optional.empty()),
                new SupplyLot("old", "SC-1", 60, 2025, Optional.empty()),
                Invented.lot("C", "C-1", 100)));
    List<Allotment> allotted = Allotment.of(task, PlanSolver.solve(task));
    Map<String, Double> kg = new TreeMap<>();
    allotted.forEach(one -> kg.put(one.lotId(), one.kg()));
    assertThat(kg).containsOnlyKeys("old", "young", "waits", "C");
    assertThat(kg.get("old")).isCloseTo(60, within(1e-3));
    assertThat(kg.get("young")).isCloseTo(40, within(1e-3));
    assertThat(kg.get("waits")).isCloseTo(14, within(0.01));
    assertThat(kg.get("C")).isCloseTo(6, within(0.01));
    assertThat(allotted)
        .filteredOn(Allotment::isWaiting)
        .extracting(Allotment::lotId)
        .containsExactly("waits");
  }

  @Property(tries = 12)
  void noKilogramIsPromisedTwice(
      @ForAll @Size(6) List<@IntRange(min = 0, max = 400) Integer> numbers) {
    PlanTask task = PlanSolverTest.whole(numbers, 1);
    SeedPlan plan = PlanSolver.solve(task);
    Map<String, Double> promised = new TreeMap<>();
    for (Allotment one : Allotment.of(task, plan)) {
      promised.merge(one.lotId(), one.kg(), Double::sum);
    }
    for (SupplyLot lot : task.lots()) {
      assertThat(promised.getOrDefault(lot.lotId(), 0.0))
          .isLessThanOrEqualTo(lot.countedKg() + 1e-6);
    }
    double soldAndSown =
        plan.stores().stream()
            .filter(store -> store.year() == task.firstYear())
            .mapToDouble(store -> store.sownKg() + store.soldKg())
            .sum();
    double taken =
        Allotment.of(task, plan).stream()
            .filter(one -> one.year() == task.firstYear())
            .mapToDouble(Allotment::kg)
            .sum();
    assertThat(taken).isCloseTo(soldAndSown, within(0.1));
  }
}
