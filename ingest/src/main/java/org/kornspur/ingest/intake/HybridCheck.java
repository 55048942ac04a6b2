package org.kornspur.ingest.intake;

import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.kornspur.contract.Component;
import org.kornspur.contract.Cross;
import org.kornspur.contract.HybridDeclared;

/** The crossing scheme is made of the components named, and ends in the hybrid. */
final class HybridCheck {

  private HybridCheck() {}

  static void check(HybridDeclared hybrid, Problems into) {
    Set<String> known = components(hybrid, into);
    crosses(hybrid, known, into);
    double shareLessTolerance =
        hybrid.getPollinatorSharePercent() - hybrid.getTolerancePercentPoints();
    if (shareLessTolerance < 0) {
      into.add(
          "tolerancePercentPoints",
          hybrid.getTolerancePercentPoints(),
          "at most pollinatorSharePercent ("
              + Problem.plain(hybrid.getPollinatorSharePercent())
              + " %)",
          "Take share and tolerance from the breeder's description of the hybrid");
    }
  }

  private static Set<String> components(HybridDeclared hybrid, Problems into) {
    Set<String> known = new HashSet<>();
    List<Component> components = hybrid.getComponents();
    for (int index = 0; index < components.size(); index++) {
      String path = "components[" + index + "].componentId";
      String id = components.get(index).getComponentId();
      if (!known.add(id)) {
        into.add(path, id, "a component named once", "Give each line or cross one entry");
      }
      if (id.equals(hybrid.getHybridId())) {
        into.add(
            path, id, "a component, not the hybrid itself", "Give the component an id of its own");
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
        into.add(
            path + "seedComponentId",
            seed,
            "one cross for each seed",
            "Keep the cross that the breeder's description gives");
      }
    }
    if (!seeds.contains(hybrid.getHybridId())) {
      into.addDescribed(
          "crosses",
          Counted.of(crosses.size(), "cross(|es)"),
          "one cross whose seed is the hybrid (" + hybrid.getHybridId() + ")",
          "Add the last cross: sterile seed parent by restorer pollinator");
    }
  }

  private static void mustBeKnown(String path, String id, Set<String> known, Problems into) {
    if (!known.contains(id)) {
      into.add(
          path, id, "a component that this fact lists", "Add it to components, or mend the id");
    }
  }
}
