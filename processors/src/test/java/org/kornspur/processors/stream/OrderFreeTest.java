package org.kornspur.processors.stream;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import java.util.stream.IntStream;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.ShrinkingMode;
import net.jqwik.api.Tag;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.Category;
import org.kornspur.contract.CondemnationGround;
import org.kornspur.contract.Correction;
import org.kornspur.contract.FactHeader;
import org.kornspur.contract.Signature;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.processors.dossier.Entry;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.standing.LotStanding;

/**
 * Facts and acts arrive late, twice and out of order: whatever the order, the standings with their
 * releases, the dossiers and the pedigree come out the same.
 */
@Tag("slow")
class OrderFreeTest {
  private static final String[] LOTS = {"L1", "L2", "L3", "L4", "L5", "L6"};
  private static final String[] CROPS = {"C1", "C2", "C3"};

  @Property(tries = 100, shrinking = ShrinkingMode.BOUNDED)
  void standingsAreAFunctionOfTheSetOfFacts(
      @ForAll("productions") List<SpecificRecord> facts, @ForAll Random random) {
    List<SpecificRecord> shuffled = new ArrayList<>(facts);
    facts.stream().filter(fact -> random.nextInt(4) == 0).forEach(shuffled::add);
    Collections.shuffle(shuffled, random);

    assertTimeoutPreemptively(
        DrivenTopology.LONGEST_UNREST,
        () -> {
          Outcome expected = outcomeOf(facts);
          assertThat(outcomeOf(shuffled)).isEqualTo(expected);
          assertThat(outcomeAtOnceOf(shuffled)).as("all at once").isEqualTo(expected);
        });
  }

  private record Outcome(
      Map<String, LotStanding> standings, Map<String, List<Edge>> pedigree, List<Entry> dossier) {}

  private static Outcome outcomeOf(List<SpecificRecord> facts) {
    try (DrivenTopology topology = new DrivenTopology()) {
      return outcomeOf(topology.acceptAsSent(facts.toArray(SpecificRecord[]::new)));
    }
  }

  private static Outcome outcomeAtOnceOf(List<SpecificRecord> facts) {
    try (DrivenTopology topology = new DrivenTopology()) {
      return outcomeOf(topology.acceptAtOnce(facts));
    }
  }

  private static Outcome outcomeOf(DrivenTopology topology) {
    assertThat(topology.quarantine()).isEmpty();
    Map<String, List<Edge>> pedigree = new TreeMap<>();
    List<Entry> dossiers = new ArrayList<>();
    for (String lot : LOTS) {
      var subject = org.kornspur.ingest.contract.Subject.lot(lot);
      pedigree.put(lot, topology.pedigree().edgesInto(subject));
      dossiers.addAll(topology.dossiers().entriesOf(subject));
    }
    return new Outcome(topology.standings(), pedigree, dossiers);
  }

  /** Twenty facts or so about few lots and crops, a third of them corrected or withdrawn. */
  @Provide
  Arbitrary<List<SpecificRecord>> productions() {
    return Arbitraries.randomValue(OrderFreeTest::production);
  }

  private static List<SpecificRecord> production(Random random) {
    List<SpecificRecord> facts = new ArrayList<>();
    int size = 8 + random.nextInt(16);
    for (int i = 0; i < size; i++) {
      String id = "f" + i;
      FactHeader head = InventedFacts.head(id, random.nextInt(400));
      boolean corrects = i > 0 && random.nextInt(5) == 0;
      if (corrects) {
        head = InventedFacts.correcting(id, random.nextInt(400), "f" + random.nextInt(i));
      }
      facts.add(fact(random, head, id));
    }
    int acts = random.nextInt(8);
    for (int i = 0; i < acts; i++) {
      facts.add(act(random, "a" + i, size));
    }
    if (random.nextBoolean()) {
      facts.add(InventedFacts.withdrawal("undo", 500, "f" + random.nextInt(size)));
    }
    if (random.nextBoolean()) {
      facts.add(InventedFacts.withdrawal("undo-act", 500, "a" + random.nextInt(8)));
    }
    return sent(facts, random);
  }

  /** Each as it was sent: by whom is proven or not, and some come by two ways. */
  private static List<SpecificRecord> sent(List<SpecificRecord> facts, Random random) {
    List<SpecificRecord> sent = new ArrayList<>();
    for (SpecificRecord fact : facts) {
      int ways = random.nextInt(4) == 0 ? 2 : 1;
      for (int way = 0; way < ways; way++) {
        sent.add(FactType.of(fact).isAct() ? fact : sent(fact, random));
      }
    }
    return sent;
  }

  private static SpecificRecord sent(SpecificRecord fact, Random random) {
    return switch (random.nextInt(4)) {
      case 0 -> fact;
      case 1 -> DrivenTopology.by(DrivenTopology.grower("E" + random.nextInt(2)), fact);
      default -> DrivenTopology.by(DrivenTopology.QUALITY, fact);
    };
  }

  private static SpecificRecord act(Random random, String id, int facts) {
    String lot = LOTS[random.nextInt(2)];
    List<String> sealed =
        IntStream.range(0, facts).filter(i -> random.nextBoolean()).mapToObj(i -> "f" + i).toList();
    Signature signature =
        InventedActs.signed(
            random.nextInt(400),
            "p-" + random.nextInt(2),
            1 + random.nextInt(2),
            random.nextBoolean() ? "a" : "b",
            sealed);
    return switch (random.nextInt(8)) {
      case 0 ->
          InventedActs.suspension(
              id, lot, signature, new Correction(otherThan(id, random), "by mistake"));
      case 1 -> InventedActs.suspension(id, lot, signature, null);
      case 2 ->
          InventedActs.condemnation(
              id, lot, CondemnationGround.values()[random.nextInt(2)], signature);
      case 3 -> InventedActs.downgrade(id, lot, Category.CERTIFIED, signature);
      case 4 -> InventedActs.refused(id, lot, random.nextInt(400));
      default -> InventedActs.release(id, lot, signature);
    };
  }

  private static String otherThan(String id, Random random) {
    String other = "a" + random.nextInt(8);
    return other.equals(id) ? "a8" : other;
  }

  private static SpecificRecord fact(Random random, FactHeader head, String id) {
    int day = random.nextInt(400);
    int from = random.nextInt(LOTS.length - 1);
    String lot = LOTS[from];
    String later = LOTS[from + 1 + random.nextInt(LOTS.length - from - 1)];
    String crop = CROPS[random.nextInt(CROPS.length)];
    return switch (random.nextInt(8)) {
      case 0 -> InventedFacts.lot(id, lot, 100 + random.nextInt(900));
      case 1 -> InventedFacts.sowing(id, day, crop, lot);
      case 2 -> InventedFacts.harvest(head, crop, later, 1_000 + random.nextInt(9_000));
      case 3 -> InventedFacts.conditioning(id, day, lot, later);
      case 4 -> InventedFacts.postControl(head, lot, random.nextInt(3) > 0);
      case 5 ->
          InventedFacts.crop(head, crop, "pollen-" + random.nextInt(3), 400.0 * random.nextInt(8));
      case 6 -> InventedFacts.source(id, "S" + random.nextInt(2), 400.0 * random.nextInt(8));
      default -> InventedFacts.blend(id, day, later, lot, "POLLINATOR");
    };
  }
}
