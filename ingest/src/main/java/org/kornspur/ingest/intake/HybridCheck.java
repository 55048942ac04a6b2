package org.kornspur.ingest.intake;

import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.kornspur.contract.Component;
import org.kornspur.contract.ComponentKind;
import org.kornspur.contract.Cross;
import org.kornspur.contract.HybridDeclared;
import org.kornspur.ingest.problem.Given;
import org.kornspur.ingest.problem.HybridProblem;
import org.kornspur.ingest.problem.NumberProblem;
import org.kornspur.ingest.statement.Value.Amount;

/** The crossing scheme is made of the components named, and ends in the hybrid. */
final class HybridCheck {

  private static final Set<ComponentKind> STERILE =
      EnumSet.of(ComponentKind.STERILE_LINE, ComponentKind.STERILE_SINGLE_CROSS);

  private HybridCheck() {}

  static void check(HybridDeclared hybrid, Problems into) {
    Set<String> known = components(hybrid, into);
    crosses(hybrid, known, into);
    lastCross(hybrid, into);
    double shareLessTolerance =
        hybrid.getPollinatorSharePercent() - hybrid.getTolerancePercentPoints();
    if (shareLessTolerance < 0) {
      into.add(
          "tolerancePercentPoints",
          hybrid.getTolerancePercentPoints(),
          new NumberProblem.ToleranceAboveShare(
              Amount.percent(hybrid.getPollinatorSharePercent())));
    }
  }

  private static Set<String> components(HybridDeclared hybrid, Problems into) {
    Set<String> known = new HashSet<>();
    List<Component> components = hybrid.getComponents();
    for (int index = 0; index < components.size(); index++) {
      String path = "components[" + index + "].componentId";
      String id = components.get(index).getComponentId();
      if (!known.add(id)) {
        into.add(path, id, new HybridProblem.ComponentTwice());
      }
      if (id.equals(hybrid.getHybridId())) {
        into.add(path, id, new HybridProblem.ComponentIsHybrid());
      }
    }
    return known;
  }

  private static void crosses(HybridDeclared hybrid, Set<String> known, Problems into) {
    Set<String> seeds = new HashSet<>();
    List<Cross> crosses = hybrid.getCrosses();
    for (int index = 0; index < crosses.size(); index++) {
      Cross cross = crosses.get(index);
      String path = "crosses[" + index + "].";
      String seed = cross.getSeedComponentId();
      if (!seed.equals(hybrid.getHybridId())) {
        mustBeKnown(path + "seedComponentId", seed, known, into);
      }
      mustBeKnown(path + "femaleComponentId", cross.getFemaleComponentId(), known, into);
      mustBeKnown(path + "pollenComponentId", cross.getPollenComponentId(), known, into);
      if (!seeds.add(seed)) {
        into.add(path + "seedComponentId", seed, new HybridProblem.SecondCross());
      }
    }
    if (!seeds.contains(hybrid.getHybridId())) {
      into.add(
          "crosses",
          new Given.Crosses(crosses.size()),
          new HybridProblem.NoCrossOfHybrid(hybrid.getHybridId()));
    }
  }

  /** A fertile female would make her own seed, and pollen without restorer gives sterile rye. */
  private static void lastCross(HybridDeclared hybrid, Problems into) {
    Map<String, ComponentKind> kinds =
        hybrid.getComponents().stream()
            .collect(
                Collectors.toMap(
                    Component::getComponentId, Component::getKind, (first, twice) -> first));
    List<Cross> crosses = hybrid.getCrosses();
    for (int index = 0; index < crosses.size(); index++) {
      Cross cross = crosses.get(index);
      if (cross.getSeedComponentId().equals(hybrid.getHybridId())) {
        ComponentKind female = kinds.get(cross.getFemaleComponentId());
        if (female != null && !STERILE.contains(female)) {
          into.add(
              "crosses[" + index + "].femaleComponentId",
              cross.getFemaleComponentId(),
              new HybridProblem.FemaleNotSterile());
        }
        ComponentKind pollen = kinds.get(cross.getPollenComponentId());
        if (pollen != null && pollen != ComponentKind.RESTORER_POLLINATOR) {
          into.add(
              "crosses[" + index + "].pollenComponentId",
              cross.getPollenComponentId(),
              new HybridProblem.PollenNoRestorer());
        }
      }
    }
  }

  private static void mustBeKnown(String path, String id, Set<String> known, Problems into) {
    if (!known.contains(id)) {
      into.add(path, id, new HybridProblem.UnknownComponent());
    }
  }
}
