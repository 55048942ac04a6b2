package org.kornspur.processors.plan;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.kornspur.contract.Category;
import org.kornspur.processors.dossier.Material;
import org.kornspur.processors.verdict.Fitness;
import org.kornspur.processors.verdict.Gate;

/**
 * The seed in store that a plan may count on, and the rest with its reason. A lot that is not fit
 * is never counted on. A lot that is fit and released counts in full; one that is not released, or
 * that evidence is owed for, by its chance. Raw harvest counts as what cleaning will leave of it. A
 * technical mixture counts as the two components that it is mixed from, in the breeder's ratio.
 *
 * <p>Seed that is sown must be basic seed or higher.
 *
 * @param lots oldest first
 */
public record Supply(List<SupplyLot> lots, List<LeftOut> leftOut) {

  /**
   * A lot as it stands.
   *
   * @param state empty where nothing is known of it
   * @param isReleased whether a person released it, and no later fact suspended that
   * @param isRawHarvest whether it was not cleaned yet
   * @param leftKg in store
   * @param owed gates that evidence is owed for
   * @param notMet gates that are not met
   */
  public record LotInStore(
      String lotId,
      Optional<Material> material,
      Optional<Fitness> state,
      boolean isReleased,
      boolean isRawHarvest,
      double leftKg,
      List<String> owed,
      List<String> notMet,
      Optional<String> grower) {

    private FitChanceEstimator.Group group() {
      return new FitChanceEstimator.Group(material.orElseThrow().kind(), grower.orElse(""));
    }
  }

  /** A lot that a plan does not count on. */
  public record LeftOut(String lotId, double leftKg, Reason reason) {}

  /** Why a lot is not counted on. */
  public enum Reason {
    NOT_FIT,
    /** Its material or its state is not known. */
    UNKNOWN,
    /** Certified seed of a component, which is not sown for another generation. */
    TOO_LOW_A_CATEGORY,
    /** A person left it out of this plan. */
    BY_A_PERSON
  }

  /**
   * What the record of all lots, those that are used up too, says of gates. A gate bears on the
   * kinds of seed of which some lot did not meet it or owed it. Raw harvest is left out: it is
   * judged once it is cleaned.
   */
  public static FitChanceEstimator record(Collection<LotInStore> everyLot) {
    List<LotInStore> judged =
        everyLot.stream()
            .filter(lot -> lot.material().isPresent() && lot.state().isPresent())
            .filter(lot -> !lot.isRawHarvest())
            .toList();
    Map<Material.Kind, Set<String>> gates = new EnumMap<>(Material.Kind.class);
    for (LotInStore lot : judged) {
      Set<String> ofKind = gates.computeIfAbsent(lot.group().seed(), kind -> new TreeSet<>());
      ofKind.addAll(lot.owed());
      ofKind.addAll(lot.notMet());
    }
    List<FitChanceEstimator.Decided> decided = new ArrayList<>();
    for (LotInStore lot : judged) {
      gates.get(lot.group().seed()).stream()
          .filter(gate -> !lot.owed().contains(gate))
          .map(
              gate ->
                  new FitChanceEstimator.Decided(gate, lot.group(), !lot.notMet().contains(gate)))
          .forEach(decided::add);
    }
    return new FitChanceEstimator(decided);
  }

  /**
   * What can be counted on of the seed of a chain.
   *
   * @param record of lots that are decided
   * @param byAPerson lots that a person left out
   */
  public static Supply of(
      Collection<LotInStore> store,
      MultiplicationChain chain,
      PlanInputs inputs,
      FitChanceEstimator record,
      Set<String> byAPerson) {
    List<SupplyLot> lots = new ArrayList<>();
    List<LeftOut> leftOut = new ArrayList<>();
    for (LotInStore lot : store) {
      if (lot.leftKg() <= 0) {
        continue;
      }
      Optional<Reason> reason =
          byAPerson.contains(lot.lotId()) ? Optional.of(Reason.BY_A_PERSON) : whyNot(lot);
      if (reason.isPresent()) {
        leftOut.add(new LeftOut(lot.lotId(), lot.leftKg(), reason.get()));
      } else {
        lots.addAll(counted(lot, chain, inputs, record));
      }
    }
    lots.sort(Comparator.comparingInt(SupplyLot::harvestYear).thenComparing(SupplyLot::lotId));
    return new Supply(lots, leftOut);
  }

  private static Optional<Reason> whyNot(LotInStore lot) {
    if (lot.material().isEmpty() || lot.state().isEmpty()) {
      return Optional.of(Reason.UNKNOWN);
    }
    if (lot.state().get() == Fitness.NOT_FIT) {
      return Optional.of(Reason.NOT_FIT);
    }
    Material material = lot.material().get();
    boolean isSown = material.kind() != Material.Kind.F1_SEED;
    return isSown && material.category() == Category.CERTIFIED
        ? Optional.of(Reason.TOO_LOW_A_CATEGORY)
        : Optional.empty();
  }

  private static List<SupplyLot> counted(
      LotInStore lot, MultiplicationChain chain, PlanInputs inputs, FitChanceEstimator record) {
    Material material = lot.material().orElseThrow();
    boolean isAvailable =
        lot.isReleased() && !lot.isRawHarvest() && lot.state().orElseThrow() == Fitness.FIT;
    Optional<FitChance> waiting =
        isAvailable ? Optional.empty() : Optional.of(record.chance(owed(lot), lot.group()));
    return chain.steps().stream()
        .filter(step -> step.seedId().equals(material.seedId()))
        .findFirst()
        .stream()
        .flatMap(
            step ->
                parts(material, step, chain, inputs).entrySet().stream()
                    .map(
                        part ->
                            new SupplyLot(
                                lot.lotId(),
                                part.getKey(),
                                lot.leftKg() * part.getValue() * cleaned(lot, step, inputs),
                                material.cropYear(),
                                waiting)))
        .toList();
  }

  /** Raw harvest owes no test of its seed yet; it will once it is cleaned. */
  private static Set<String> owed(LotInStore lot) {
    Set<String> owed = new TreeSet<>(lot.owed());
    if (owed.isEmpty() && lot.state().orElseThrow() != Fitness.FIT) {
      owed.add(lot.state().get().name()); // what it waits for is not told, so nothing speaks for it
    }
    if (lot.isRawHarvest()) {
      Stream.of(Gate.values())
          .filter(gate -> gate.reach() == Gate.Reach.UNTIL_CONDITIONED)
          .forEach(gate -> owed.add(gate.name()));
    }
    return owed;
  }

  private static double cleaned(LotInStore lot, MultiplicationChain.Step step, PlanInputs inputs) {
    return lot.isRawHarvest() ? 1 - inputs.of(step).cleaningLoss() : 1;
  }

  /** What a lot is seed of, each as a part of its mass. */
  private static Map<String, Double> parts(
      Material material,
      MultiplicationChain.Step step,
      MultiplicationChain chain,
      PlanInputs inputs) {
    if (material.kind() != Material.Kind.TECHNICAL_MIXTURE) {
      return Map.of(material.seedId(), 1.0);
    }
    Map<String, Double> rates = SowingRates.kgPerHa(step, inputs, id -> inputs.of(chain.step(id)));
    double all = rates.values().stream().mapToDouble(Double::doubleValue).sum();
    rates.replaceAll((seedId, kgPerHa) -> kgPerHa / all);
    return rates;
  }
}
