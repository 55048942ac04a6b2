package org.kornspur.processors.plan;

import java.time.Instant;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.kornspur.contract.Component;
import org.kornspur.contract.ComponentKind;
import org.kornspur.contract.Cross;
import org.kornspur.contract.FactHeader;
import org.kornspur.contract.HybridDeclared;
import org.kornspur.contract.ShareBasis;
import org.kornspur.processors.statistics.TriangularRange;

/** Hybrids, lots and round numbers, all invented, that are easy to follow by hand. */
final class Invented {
  static final int NOW = 2026;

  /** Clean yields 1 t/ha of lines, 2 t/ha of single crosses, 5 t/ha of hybrid seed. */
  static final PlanInputs ROUND = round(1, 1);

  private Invented() {}

  /** A x B, kept by M, with the pollinator C; each component bears the number of the hybrid. */
  static HybridDeclared hybrid(int number, String pollinator, double percent, ShareBasis basis) {
    String a = "A-" + number;
    String m = "M-" + number;
    String b = "B-" + number;
    String sc = "SC-" + number;
    String hybrid = "H-" + number;
    return HybridDeclared.newBuilder()
        .setHeader(
            FactHeader.newBuilder()
                .setFactId("hybrid-" + number)
                .setRecordedBy("breeder")
                .setHappenedAt(Instant.EPOCH)
                .setRecordedAt(Instant.EPOCH)
                .setSourceDocument("invented")
                .build())
        .setHybridId(hybrid)
        .setComponents(
            List.of(
                new Component(a, ComponentKind.STERILE_LINE),
                new Component(m, ComponentKind.MAINTAINER_LINE),
                new Component(b, ComponentKind.FERTILE_LINE),
                new Component(sc, ComponentKind.STERILE_SINGLE_CROSS),
                new Component(pollinator, ComponentKind.RESTORER_POLLINATOR)))
        .setCrosses(
            List.of(new Cross(a, a, m), new Cross(sc, a, b), new Cross(hybrid, sc, pollinator)))
        .setPollinatorSharePercent(percent)
        .setShareBasis(basis)
        .setTolerancePercentPoints(2)
        .build();
  }

  static HybridDeclared hybrid(int number) {
    return hybrid(number, "C-" + number, 5, ShareBasis.VIABLE_KERNELS);
  }

  static MultiplicationChain chain(int hybrids) {
    List<HybridDeclared> declared = new ArrayList<>();
    for (int number = 1; number <= hybrids; number++) {
      declared.add(hybrid(number));
    }
    return MultiplicationChain.of(declared);
  }

  /** 200 viable kernels a square metre of 30 g at 100 % are 60 kg/ha; three quarters are female. */
  static PlanInputs round(int lineInterval, double kept) {
    Map<Generation, SeedInputs> inputs = new EnumMap<>(Generation.class);
    for (Generation generation : Generation.values()) {
      double yield =
          switch (generation) {
            case F1_SEED -> 6250;
            case STERILE_SINGLE_CROSS -> 2500;
            default -> 1250;
          };
      inputs.put(
          generation,
          new SeedInputs(
              new TriangularRange(yield * 0.6, yield, yield * 1.2),
              0.2,
              30,
              1,
              200,
              0.75,
              0,
              generation.isLine() ? lineInterval : 1,
              1 - kept));
    }
    return new PlanInputs(inputs, Map.of());
  }

  static SupplyLot lot(String lotId, String seedId, double kg) {
    return new SupplyLot(lotId, seedId, kg, NOW, Optional.empty());
  }

  static SeedDemand demand(String hybridId, int year, double tonnes) {
    return new SeedDemand(hybridId, year, TriangularRange.exactly(tonnes), 1);
  }

  static PlanTask.Question question(int lastYear, PlanInputs inputs, List<SeedDemand> demands) {
    return new PlanTask.Question(
        NOW, lastYear, inputs, demands, SeedDemand.Level.EXPECTED, List.of(), List.of());
  }

  static PlanTask task(int lastYear, List<SeedDemand> demands, List<SupplyLot> lots) {
    return PlanTask.of(question(lastYear, ROUND, demands), chain(1), lots, Map.of());
  }
}
