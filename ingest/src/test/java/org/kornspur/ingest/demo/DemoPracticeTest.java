package org.kornspur.ingest.demo;

import static java.util.stream.Collectors.toSet;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.apache.avro.specific.SpecificRecord;
import org.junit.jupiter.api.Test;
import org.kornspur.contract.Admixture;
import org.kornspur.contract.Blend;
import org.kornspur.contract.Conditioning;
import org.kornspur.contract.Dispatch;
import org.kornspur.contract.FactHeader;
import org.kornspur.contract.GerminationReplicate;
import org.kornspur.contract.GerminationTest;
import org.kornspur.contract.Harvest;
import org.kornspur.contract.HybridDeclared;
import org.kornspur.contract.KernelWeightTest;
import org.kornspur.contract.LotDeclared;
import org.kornspur.contract.LotMass;
import org.kornspur.contract.LotMerge;
import org.kornspur.contract.LotSplit;
import org.kornspur.contract.Sampling;
import org.kornspur.contract.Sowing;
import org.kornspur.contract.Withdrawal;
import org.kornspur.ingest.contract.FactType;

/** The invented work is done as it should be, save where a story says otherwise. */
class DemoPracticeTest {
  /** 7 CFR 201.55, four replicates of 100: largest range by mean germination, from mean 84. */
  private static final int[] LARGEST_RANGE_FROM_84 = {
    14, 14, 14, 13, 13, 12, 12, 11, 11, 10, 10, 9, 8, 7, 6, 5
  };

  private final List<SpecificRecord> facts = counting(DemoEvents.invented().facts());

  @Test
  void everyLotComesFromSomewhereAndOnlyOneGivesOutMoreThanItHolds() {
    Map<String, Double> inKg = new HashMap<>();
    Map<String, Double> outKg = new HashMap<>();
    for (SpecificRecord fact : facts) {
      move(fact, inKg, outKg);
    }

    assertThat(inKg.keySet()).containsAll(outKg.keySet());
    Set<String> overdrawn = new TreeSet<>();
    outKg.forEach(
        (lot, kg) -> {
          if (kg > inKg.get(lot) + 0.05) {
            overdrawn.add(lot);
          }
        });
    assertThat(overdrawn).containsExactly("L26-S09");
  }

  @Test
  void conditioningMakesNoSeedOutOfNothing() {
    assertThat(all(Conditioning.class))
        .allSatisfy(
            conditioning ->
                assertThat(total(conditioning.getOutputs()) + conditioning.getScreeningsKg())
                    .isLessThanOrEqualTo(total(conditioning.getInputs())));
  }

  @Test
  void everyBlendButOneLiesWithinTheBreedersTolerance() {
    Map<String, HybridDeclared> hybrids = new HashMap<>();
    all(HybridDeclared.class).forEach(hybrid -> hybrids.put(hybrid.getHybridId(), hybrid));
    Set<String> off = new TreeSet<>();
    for (Blend blend : all(Blend.class)) {
      HybridDeclared hybrid = hybrids.get(blend.getHybridId());
      double pollinators = amount(blend.getPollinators(), hybrid);
      double share = 100 * pollinators / (pollinators + amount(blend.getFemales(), hybrid));
      if (Math.abs(share - hybrid.getPollinatorSharePercent())
          > hybrid.getTolerancePercentPoints()) {
        off.add(blend.getBlendLotId());
      } else {
        assertThat(share).isCloseTo(hybrid.getPollinatorSharePercent(), within(0.1));
      }
    }

    assertThat(off).containsExactly("M25-S03");
  }

  @Test
  void germinationReplicatesLieWithinToleranceSaveInOneStory() {
    Set<String> apart = new TreeSet<>();
    for (GerminationTest test : all(GerminationTest.class)) {
      List<Integer> normal =
          test.getReplicates().stream().map(GerminationReplicate::getNormalSeedlings).toList();
      double mean = normal.stream().mapToInt(Integer::intValue).average().orElseThrow();
      int range = normal.stream().max(Integer::compare).orElseThrow();
      range -= normal.stream().min(Integer::compare).orElseThrow();
      assertThat(mean).as(test.getLotId()).isGreaterThanOrEqualTo(85);
      if (range > LARGEST_RANGE_FROM_84[Math.min((int) Math.round(mean), 99) - 84]) {
        apart.add(test.getHeader().getFactId());
      }
    }

    assertThat(apart).containsExactly("germination-L25-S04A", "germination-L25-S04B");
  }

  /**
   * Containers of 15 to 100 kg: Cereal Seed (Scotland) Regulations 2005, SSI 2005/328, Schedule 5,
   * paragraph 6. Bulk, from memory of the international sampling table.
   */
  @Test
  void enoughPrimarySamplesAreDrawnFromEveryLot() {
    for (Sampling sampling : all(Sampling.class)) {
      int drawn = sampling.getPrimarySamples();
      double massKg = sampling.getLotMassKg();
      if (sampling.getContainers() != null) {
        int containers = sampling.getContainers();
        assertThat(massKg / containers).isBetween(15.0, 100.0);
        int least =
            containers <= 4
                ? 3 * containers
                : containers <= 8
                    ? 2 * containers
                    : containers <= 15
                        ? containers
                        : containers <= 30 ? 15 : containers <= 59 ? 20 : 30;
        assertThat(drawn).as(sampling.getLotId()).isGreaterThanOrEqualTo(least);
      } else {
        int least = massKg <= 3_000 ? 5 : massKg <= 20_000 ? 10 : 40;
        double kgEach = massKg <= 500 ? 500 : massKg <= 3_000 ? 300 : massKg <= 20_000 ? 500 : 700;
        assertThat(drawn).as(sampling.getLotId()).isGreaterThanOrEqualTo(least);
        assertThat(drawn * kgEach).as(sampling.getLotId()).isGreaterThanOrEqualTo(massKg);
      }
      assertThat(massKg).as(sampling.getLotId()).isLessThanOrEqualTo(30_000);
    }
  }

  /** How much of the lots counts towards the breeder's share, by the tests of each lot. */
  private double amount(List<LotMass> lots, HybridDeclared hybrid) {
    double amount = 0;
    for (LotMass part : lots) {
      double kernels = part.getMassKg() / thousandKernelWeightG(part.getLotId());
      amount +=
          switch (hybrid.getShareBasis()) {
            case MASS -> part.getMassKg();
            case KERNELS -> kernels;
            case VIABLE_KERNELS -> kernels * germination(part.getLotId());
          };
    }
    return amount;
  }

  private double thousandKernelWeightG(String lotId) {
    KernelWeightTest test =
        all(KernelWeightTest.class).stream()
            .filter(weighed -> weighed.getLotId().equals(lotId))
            .findFirst()
            .orElseThrow();
    double massG = test.getReplicates().stream().mapToDouble(part -> part.getMassG()).sum();
    int kernels = test.getReplicates().stream().mapToInt(part -> part.getKernels()).sum();
    return 1000 * massG / kernels;
  }

  private double germination(String lotId) {
    GerminationTest test =
        all(GerminationTest.class).stream()
            .filter(tested -> tested.getLotId().equals(lotId))
            .findFirst()
            .orElseThrow();
    int normal =
        test.getReplicates().stream().mapToInt(GerminationReplicate::getNormalSeedlings).sum();
    int seeds = test.getReplicates().stream().mapToInt(GerminationReplicate::getSeeds).sum();
    return 100.0 * normal / seeds;
  }

  private static void move(
      SpecificRecord fact, Map<String, Double> inKg, Map<String, Double> outKg) {
    if (fact instanceof LotDeclared lot) {
      inKg.merge(lot.getLotId(), lot.getMassKg(), Double::sum);
    } else if (fact instanceof Harvest harvest) {
      inKg.merge(harvest.getLotId(), harvest.getMassKg(), Double::sum);
    } else if (fact instanceof Sowing sowing) {
      add(sowing.getSown(), outKg);
    } else if (fact instanceof Conditioning conditioning) {
      add(conditioning.getInputs(), outKg);
      add(conditioning.getOutputs(), inKg);
    } else if (fact instanceof LotSplit split) {
      outKg.merge(split.getFromLotId(), total(split.getParts()), Double::sum);
      add(split.getParts(), inKg);
    } else if (fact instanceof LotMerge merge) {
      add(merge.getInputs(), outKg);
      inKg.merge(merge.getIntoLotId(), total(merge.getInputs()), Double::sum);
    } else if (fact instanceof Blend blend) {
      combine(blend.getFemales(), blend.getPollinators(), blend.getBlendLotId(), inKg, outKg);
    } else if (fact instanceof Admixture mixed) {
      combine(
          mixed.getHybridLots(), mixed.getOpenPollinatedLots(), mixed.getIntoLotId(), inKg, outKg);
    } else if (fact instanceof Dispatch dispatch) {
      outKg.merge(dispatch.getLotId(), dispatch.getMassKg(), Double::sum);
    }
  }

  private static void combine(
      List<LotMass> one,
      List<LotMass> other,
      String into,
      Map<String, Double> inKg,
      Map<String, Double> outKg) {
    add(one, outKg);
    add(other, outKg);
    inKg.merge(into, total(one) + total(other), Double::sum);
  }

  private static void add(List<LotMass> parts, Map<String, Double> kg) {
    parts.forEach(part -> kg.merge(part.getLotId(), part.getMassKg(), Double::sum));
  }

  private static double total(List<LotMass> parts) {
    return parts.stream().mapToDouble(LotMass::getMassKg).sum();
  }

  private <T extends SpecificRecord> List<T> all(Class<T> type) {
    return facts.stream().filter(type::isInstance).map(type::cast).toList();
  }

  private static List<SpecificRecord> counting(List<SpecificRecord> facts) {
    Set<String> takenBack = facts.stream().flatMap(DemoPracticeTest::takesBack).collect(toSet());
    return facts.stream()
        .filter(fact -> !takenBack.contains(FactType.headerOf(fact).getFactId()))
        .toList();
  }

  private static Stream<String> takesBack(SpecificRecord fact) {
    FactHeader header = FactType.headerOf(fact);
    Stream<String> corrected =
        Stream.ofNullable(header.getCorrection()).map(correction -> correction.getSupersedes());
    return fact instanceof Withdrawal withdrawal
        ? Stream.concat(corrected, Stream.of(withdrawal.getWithdrawnFactId()))
        : corrected;
  }
}
