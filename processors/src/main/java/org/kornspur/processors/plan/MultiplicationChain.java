package org.kornspur.processors.plan;

import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.kornspur.contract.Component;
import org.kornspur.contract.Cross;
import org.kornspur.contract.HybridDeclared;

/**
 * The seed of all hybrids that are planned together, each with what it is grown from. A line that
 * several hybrids use stands in it once.
 *
 * @param steps in such an order that all seed comes before what it is grown from
 */
public record MultiplicationChain(List<Step> steps) {

  /**
   * Seed of one kind.
   *
   * @param seedId component, or the hybrid's own id for the seed that is sold
   */
  public record Step(String seedId, Generation generation, GrowingMethod grown) {

    /** The only pollen that is wanted where it grows; empty for seed that is not grown. */
    public Optional<String> pollenId() {
      if (grown instanceof GrowingMethod.Strips strips) {
        return Optional.of(strips.pollenId());
      } else if (grown instanceof GrowingMethod.Mixture mixture) {
        return Optional.of(mixture.pollenId());
      }
      return grown instanceof GrowingMethod.Alone ? Optional.of(seedId) : Optional.empty();
    }

    /** Other seed that is sown for it, and itself where it keeps itself. */
    List<String> parents() {
      if (grown instanceof GrowingMethod.Strips strips) {
        return List.of(strips.femaleId(), strips.pollenId());
      } else if (grown instanceof GrowingMethod.Mixture mixture) {
        return List.of(mixture.femaleId(), mixture.pollenId());
      }
      return grown instanceof GrowingMethod.Alone ? List.of(seedId) : List.of();
    }
  }

  /**
   * The chain of hybrids as their breeders declare them.
   *
   * @throws PlanRefusedException where a declaration cannot be grown by
   */
  public static MultiplicationChain of(Collection<HybridDeclared> hybrids) {
    Map<String, Step> steps = new TreeMap<>();
    Map<String, String> toldBy = new HashMap<>();
    for (HybridDeclared hybrid : hybrids) {
      for (Step step : stepsOf(hybrid)) {
        Step told = steps.putIfAbsent(step.seedId(), step);
        if (told != null && !told.equals(step)) {
          throw new PlanRefusedException(
              new PlanRefusal.ToldDifferently(
                  step.seedId(), toldBy.get(step.seedId()), hybrid.getHybridId()));
        }
        toldBy.putIfAbsent(step.seedId(), hybrid.getHybridId());
      }
    }
    return new MultiplicationChain(ordered(steps));
  }

  /** Ids of all seed in it. */
  public Set<String> ids() {
    return steps.stream().map(Step::seedId).collect(Collectors.toSet());
  }

  /** The step of seed that is part of it. */
  Step step(String seedId) {
    return steps.stream().filter(step -> step.seedId().equals(seedId)).findFirst().orElseThrow();
  }

  private static List<Step> stepsOf(HybridDeclared hybrid) {
    Map<String, Cross> crosses = new HashMap<>();
    hybrid.getCrosses().forEach(cross -> crosses.put(cross.getSeedComponentId(), cross));
    List<Step> steps = new ArrayList<>();
    for (Component component : hybrid.getComponents()) {
      Generation generation = Generation.of(component.getKind());
      steps.add(
          new Step(
              component.getComponentId(),
              generation,
              Optional.ofNullable(crosses.get(component.getComponentId()))
                  .map(MultiplicationChain::strips)
                  .orElse(
                      generation.isSterile()
                          ? new GrowingMethod.NotGrown()
                          : new GrowingMethod.Alone())));
    }
    Cross last = crosses.get(hybrid.getHybridId());
    if (last == null) {
      throw new PlanRefusedException(new PlanRefusal.NoCrossOfHybrid(hybrid.getHybridId()));
    }
    steps.add(
        new Step(
            hybrid.getHybridId(),
            Generation.F1_SEED,
            new GrowingMethod.Mixture(
                last.getFemaleComponentId(),
                last.getPollenComponentId(),
                hybrid.getPollinatorSharePercent() / 100,
                hybrid.getShareBasis())));
    Set<String> declared = new HashSet<>();
    steps.forEach(step -> declared.add(step.seedId()));
    for (Step step : steps) {
      for (String parent : step.parents()) {
        if (!declared.contains(parent)) {
          throw new PlanRefusedException(
              new PlanRefusal.UndeclaredComponent(hybrid.getHybridId(), parent));
        }
      }
    }
    return steps;
  }

  private static GrowingMethod strips(Cross cross) {
    return new GrowingMethod.Strips(cross.getFemaleComponentId(), cross.getPollenComponentId());
  }

  /** Seed before what it is grown from; that a line is sown for itself is no circle. */
  private static List<Step> ordered(Map<String, Step> steps) {
    Set<String> done = new HashSet<>();
    List<Step> parentsFirst = new ArrayList<>();
    for (Step step : steps.values()) {
      visit(step, steps, new HashSet<>(), done, parentsFirst);
    }
    List<Step> ordered = new ArrayList<>();
    for (int i = parentsFirst.size() - 1; i >= 0; i--) {
      ordered.add(parentsFirst.get(i));
    }
    return ordered;
  }

  private static void visit(
      Step step,
      Map<String, Step> steps,
      Set<String> onTheWay,
      Set<String> done,
      List<Step> parentsFirst) {
    if (done.contains(step.seedId())) {
      return;
    }
    if (!onTheWay.add(step.seedId())) {
      throw new PlanRefusedException(new PlanRefusal.Circle(step.seedId()));
    }
    for (String parent : step.parents()) {
      if (!parent.equals(step.seedId())) {
        visit(steps.get(parent), steps, onTheWay, done, parentsFirst);
      }
    }
    onTheWay.remove(step.seedId());
    done.add(step.seedId());
    parentsFirst.add(step);
  }
}
