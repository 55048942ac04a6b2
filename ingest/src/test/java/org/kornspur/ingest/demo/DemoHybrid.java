package org.kornspur.ingest.demo;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.kornspur.contract.Component;
import org.kornspur.contract.ComponentKind;
import org.kornspur.contract.Cross;
import org.kornspur.contract.HybridDeclared;
import org.kornspur.contract.ShareBasis;

/**
 * An invented hybrid: an A line kept by its maintainer, crossed with B to a sterile single cross,
 * which takes the pollen of C.
 *
 * @param number 1 to 7
 * @param rulebookId rulebook that its production is judged under
 * @param sharePercent share of pollinator that the breeder states
 * @param tolerancePoints percentage points to either side
 * @param pollinatorOf number of the hybrid whose C line it uses: its own, or another's
 */
record DemoHybrid(
    int number,
    String rulebookId,
    double sharePercent,
    ShareBasis basis,
    double tolerancePoints,
    int pollinatorOf) {

  static final List<DemoHybrid> ALL =
      List.of(
          new DemoHybrid(1, "EU", 5, ShareBasis.VIABLE_KERNELS, 2, 1),
          new DemoHybrid(2, "EU", 5, ShareBasis.VIABLE_KERNELS, 2, 1),
          new DemoHybrid(3, "DE", 6, ShareBasis.MASS, 2, 3),
          new DemoHybrid(4, "EU", 5, ShareBasis.KERNELS, 2, 4),
          new DemoHybrid(5, "HOUSE", 5, ShareBasis.VIABLE_KERNELS, 2, 5),
          new DemoHybrid(6, "EU", 4, ShareBasis.VIABLE_KERNELS, 1.5, 6),
          new DemoHybrid(7, "US", 8, ShareBasis.VIABLE_KERNELS, 2, 7));

  static DemoHybrid numbered(int number) {
    return ALL.get(number - 1);
  }

  String id() {
    return "HYB-0" + number;
  }

  String sterileLine() {
    return "A-0" + number;
  }

  String maintainer() {
    return "M-0" + number;
  }

  String fertileLine() {
    return "B-0" + number;
  }

  String singleCross() {
    return "SC-0" + number;
  }

  String pollinator() {
    return "C-0" + pollinatorOf;
  }

  boolean ownsPollinator() {
    return pollinatorOf == number;
  }

  /** Whether quality is kept clear of the limits because the rulebook is stricter than the law. */
  boolean strict() {
    return rulebookId.equals("HOUSE") || rulebookId.equals("US");
  }

  /** Writes the master data of all hybrids, as the breeder described them in 2022. */
  static void declareAll(Book book) {
    for (DemoHybrid hybrid : ALL) {
      book.addNested(hybrid.declared());
    }
  }

  private HybridDeclared declared() {
    List<Component> components = new ArrayList<>();
    components.add(new Component(sterileLine(), ComponentKind.STERILE_LINE));
    components.add(new Component(maintainer(), ComponentKind.MAINTAINER_LINE));
    components.add(new Component(fertileLine(), ComponentKind.FERTILE_LINE));
    components.add(new Component(singleCross(), ComponentKind.STERILE_SINGLE_CROSS));
    components.add(new Component(pollinator(), ComponentKind.RESTORER_POLLINATOR));
    return HybridDeclared.newBuilder()
        .setHeader(
            Heads.head(
                "hybrid-" + id(),
                "breeder-01",
                LocalDate.of(2022, 8, number),
                "invented breeder's description " + id()))
        .setHybridId(id())
        .setComponents(components)
        .setCrosses(
            List.of(
                new Cross(sterileLine(), sterileLine(), maintainer()),
                new Cross(singleCross(), sterileLine(), fertileLine()),
                new Cross(id(), singleCross(), pollinator())))
        .setPollinatorSharePercent(sharePercent)
        .setShareBasis(basis)
        .setTolerancePercentPoints(tolerancePoints)
        .build();
  }
}
