package org.kornspur.processors.recall;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import org.apache.avro.specific.SpecificRecord;
import org.assertj.core.data.Offset;
import org.assertj.core.groups.Tuple;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.contract.Category;
import org.kornspur.contract.CropRole;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.contract.SubjectsNamed;
import org.kornspur.processors.balance.LotAccount;
import org.kornspur.processors.balance.MassBalance;
import org.kornspur.processors.balance.MassBalance.Tolerance;
import org.kornspur.processors.fixture.Draft;
import org.kornspur.processors.fixture.Facts;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.pedigree.Edges;
import org.kornspur.processors.pedigree.Pedigree;

/**
 * A drill against an example that was worked by hand.
 *
 * <pre>
 * A declared 1000 ── sown 100 ──► crop C ── harvest 2000 ──► R ── conditioned 2000 ──► L 1800,
 *                                                            screenings 195, so 5 are on no record
 * L ── split ──► P 600 ── to X 400 (N-1, N-2), to Y 100 (N-3)
 * L 1000 and B 200 (declared 210) ── merged ──► M 1200 ── to Y 1150 (N-9)
 *
 * left:  A 1000 - 100 = 900    R 0    L 1800 - 600 - 1000 = 200    P 600 - 500 = 100    M 50
 *
 * From R: in 2000 harvested + 200 of B; out 400 + 100 + 1150 = 1650; loss 195
 *         and 5 on no record; stock 200 + 100 + 50 = 350; 2200 - 1650 - 200 - 350 = 0.
 *         0.5 % of 2200 = 11.
 * </pre>
 */
class RecallDrillTest {
  /** Source: common practice, no source; as in the rulebook of practice. */
  private static final Tolerance HALF_A_PERCENT = new Tolerance(0.5, "common practice, no source");

  private static final Offset<Double> A_GRAM = within(0.001);

  private final List<SpecificRecord> facts = new ArrayList<>();

  private RecallDrillTest with(Draft<?>... drafts) {
    for (Draft<?> draft : drafts) {
      facts.add(draft.fact());
    }
    return this;
  }

  private RecallDrillTest example() {
    return with(
        Facts.declared("A", Facts.SINGLE_CROSS, Category.BASIC, 1000),
        Facts.crop("C", CropRole.F1_MIXTURE),
        Facts.sowing("C").of("A", 100),
        Facts.harvest("C", "R", 2000),
        Facts.conditioning().id("K").from("R", 2000).into("L", 1800).screenings(195),
        Facts.declared("B", Facts.HYBRID, Category.CERTIFIED, 210),
        Facts.split("L").into("P", 600),
        Facts.merge("M").of("L", 1000).of("B", 200),
        dispatch("P", "X", 400, "N-1", "N-2"),
        dispatch("P", "Y", 100, "N-3"),
        dispatch("M", "Y", 1150, "N-9"));
  }

  private static Draft<?> dispatch(String lot, String customer, double kg, String... labels) {
    return Facts.dispatch(lot, kg)
        .id("to-" + customer + "-" + String.join("-", labels))
        .with(dispatch -> dispatch.setCustomerId(customer).setLabelNumbers(List.of(labels)));
  }

  private RecallDrill drill(Subject start, Map<String, Double> countedStockKg) {
    return RecallDrill.of(
        new PedigreeOfFacts(facts),
        subject -> facts.stream().filter(fact -> SubjectsNamed.of(fact).contains(subject)).toList(),
        start,
        100,
        countedStockKg,
        HALF_A_PERCENT);
  }

  private record PedigreeOfFacts(List<SpecificRecord> facts) implements Pedigree {
    @Override
    public List<Edge> edgesInto(Subject child) {
      return edges().stream().filter(edge -> edge.child().equals(child)).toList();
    }

    @Override
    public List<Edge> edgesOutOf(Subject parent) {
      return edges().stream().filter(edge -> edge.parent().equals(parent)).toList();
    }

    private List<Edge> edges() {
      return facts.stream().flatMap(fact -> Edges.of(fact).stream()).toList();
    }
  }

  @Test
  void theMassesAreThoseOfTheHandWorkedExample() {
    MassBalance balance = example().drill(Subject.lot("R"), Map.of()).balance();
    assertThat(balance.harvestedKg()).isEqualTo(2000, A_GRAM);
    assertThat(balance.fromOtherLotsKg()).isEqualTo(200, A_GRAM);
    assertThat(balance.inKg()).isEqualTo(2200, A_GRAM);
    assertThat(balance.toCustomersKg()).isEqualTo(1650, A_GRAM);
    assertThat(balance.toOtherLotsKg()).isZero();
    assertThat(balance.lossKg()).isEqualTo(200, A_GRAM);
    assertThat(balance.unrecordedLossKg()).isEqualTo(5, A_GRAM);
    assertThat(balance.stockKg()).isEqualTo(350, A_GRAM);
    assertThat(balance.differenceKg()).isEqualTo(0, A_GRAM);
    assertThat(balance.allowedKg()).isEqualTo(11, A_GRAM);
    assertThat(balance.balances()).isTrue();
    assertThat(balance.lots())
        .extracting(LotAccount::lotId, LotAccount::stockKg)
        .containsExactly(tuple("L", 200), tuple("M", 50), tuple("P", 100), tuple("R", 0));
  }

  private static Tuple tuple(String lotId, double kg) {
    return Tuple.tuple(lotId, kg);
  }

  /** By hand: in 1000 + 2000 + 200, out 1650 + 100 sown, stock 350 + 900, loss 200. */
  @Test
  void aGenerationOfSowingAndHarvestIsWithinTheBalance() {
    MassBalance balance = example().drill(Subject.lot("A"), Map.of()).balance();
    assertThat(balance.inKg()).isEqualTo(3200, A_GRAM);
    assertThat(balance.outKg()).isEqualTo(1750, A_GRAM);
    assertThat(balance.stockKg()).isEqualTo(1250, A_GRAM);
    assertThat(balance.differenceKg()).isEqualTo(0, A_GRAM);
  }

  @Test
  void customersStandWithTheirKilogramsAndLabels() {
    RecallDrill drill = example().drill(Subject.lot("R"), Map.of());
    assertThat(drill.kgByCustomer()).containsExactly(Map.entry("X", 400.0), Map.entry("Y", 1250.0));
    assertThat(drill.deliveries())
        .extracting(Delivery::customerId, Delivery::lotId, Delivery::labelNumbers)
        .containsExactly(
            Tuple.tuple("X", "P", List.of("N-1", "N-2")),
            Tuple.tuple("Y", "M", List.of("N-9")),
            Tuple.tuple("Y", "P", List.of("N-3")));
  }

  @Test
  void theWayBackReachesTheDeclaredSeedAndIsComplete() {
    RecallDrill drill = example().drill(Subject.lot("M"), Map.of());
    assertThat(drill.back().steps().keySet())
        .containsExactlyInAnyOrder(
            Subject.lot("M"),
            Subject.lot("L"),
            Subject.lot("B"),
            Subject.lot("R"),
            Subject.crop("C"),
            Subject.lot("A"));
    assertThat(drill.looseEnds()).isEmpty();
    assertThat(drill.back().complete()).isTrue();
    assertThat(drill.forward().complete()).isTrue();
  }

  /** By hand: in 600 of L, out 500, left 100; what became of the rest of L is not P's business. */
  @Test
  void thePartOfASplitAnswersForItselfAlone() {
    MassBalance balance = example().drill(Subject.lot("P"), Map.of()).balance();
    assertThat(balance.fromOtherLotsKg()).isEqualTo(600, A_GRAM);
    assertThat(balance.toCustomersKg()).isEqualTo(500, A_GRAM);
    assertThat(balance.stockKg()).isEqualTo(100, A_GRAM);
    assertThat(balance.toOtherLotsKg()).isZero();
    assertThat(balance.differenceKg()).isEqualTo(0, A_GRAM);
  }

  /** By hand: 30 kg of L are missing; 30 is more than 11. */
  @Test
  void aCountedStockThatIsShortBreaksTheBalanceAndNamesTheLot() {
    MassBalance balance = example().drill(Subject.lot("R"), Map.of("L", 170.0)).balance();
    assertThat(balance.differenceKg()).isEqualTo(30, A_GRAM);
    assertThat(balance.balances()).isFalse();
    assertThat(balance.lotsOff()).extracting(LotAccount::lotId).containsExactly("L");
    assertThat(balance.lotsCounted()).isEqualTo(1);
  }

  @Test
  void whatOneLotLacksIsNotMadeUpForByWhatAnotherHasTooMuch() {
    MassBalance balance =
        example().drill(Subject.lot("R"), Map.of("L", 170.0, "P", 130.0)).balance();
    assertThat(balance.differenceKg()).isEqualTo(0, A_GRAM);
    assertThat(balance.balances()).isFalse();
    assertThat(balance.lotsOff()).extracting(LotAccount::lotId).containsExactly("L", "P");
  }

  /** By hand: P has 600, gives 500 and 200 more; no store holds less than nothing, so -100. */
  @Test
  void aLotThatGaveOutMoreThanItHeldBreaksTheBalance() {
    MassBalance balance =
        example().with(dispatch("P", "Z", 200, "N-4")).drill(Subject.lot("P"), Map.of()).balance();
    assertThat(balance.lots().get(0).countedStockKg()).isEqualTo(OptionalDouble.empty());
    assertThat(balance.differenceKg()).isEqualTo(-100, A_GRAM);
    assertThat(balance.balances()).isFalse();
  }

  /** The gate of mass balance takes what dries off without a record; so does the drill. */
  @ParameterizedTest(name = "1,000 kg give {0} kg and {1} kg dried off: balances {2}")
  @CsvSource({"850, , true", "850, 100, true", "1100, , false", "950, 100, false"})
  void aConditioningIsOutOfBalanceWhereMoreCameOut(
      double outKg, Double dryingLossKg, boolean balances) {
    MassBalance balance =
        with(
                Facts.declared("G", Facts.HYBRID, Category.CERTIFIED, 1000),
                Facts.conditioning().from("G", 1000).into("H", outKg).driedOff(dryingLossKg))
            .drill(Subject.lot("G"), Map.of())
            .balance();
    assertThat(balance.balances()).isEqualTo(balances);
  }

  /** By hand: 1,015 kg of dressed seed from 1,000 kg; 26 kg would be more than 20 and 5 beyond. */
  @ParameterizedTest(name = "1,000 kg, {1}, give {0} kg: balances {2}")
  @CsvSource({
    "1015, invented dressing, true",
    "1020, invented dressing, true",
    "1026, invented dressing, false",
    "1015, , false"
  })
  void aDressingIsNoSeedThatIsTooMuch(double outKg, String treatment, boolean balances) {
    MassBalance balance =
        with(
                Facts.declared("G", Facts.HYBRID, Category.CERTIFIED, 1000),
                Facts.conditioning().from("G", 1000).into("H", outKg).treatedWith(treatment))
            .drill(Subject.lot("G"), Map.of())
            .balance();
    assertThat(balance.balances()).isEqualTo(balances);
  }

  @Test
  void whatLeadsNowhereIsNamedAndMakesTheDrillIncomplete() {
    RecallDrill drill =
        with(
                Facts.sowing("C").of("A", 100),
                Facts.harvest("C", "R", 900),
                Facts.sowing("D").of("R", 50),
                Facts.crop("D", CropRole.F1_MIXTURE),
                dispatch("R", "X", 100))
            .drill(Subject.lot("R"), Map.of());
    assertThat(drill.looseEnds())
        .containsExactly(
            new LooseEnd(Subject.lot("R"), LooseEnd.Kind.NO_LABELS, "to-X-"),
            new LooseEnd(Subject.crop("C"), LooseEnd.Kind.NOT_DECLARED, ""),
            new LooseEnd(Subject.lot("A"), LooseEnd.Kind.NO_ORIGIN, ""),
            new LooseEnd(Subject.crop("D"), LooseEnd.Kind.NO_HARVEST, ""));
    assertThat(drill.unresolved()).hasSize(3);
  }

  @Test
  void aWalkThatStoppedAtItsBoundIsIncompleteAndItsMassesGoToOtherLots() {
    RecallDrill drill =
        RecallDrill.of(
            new PedigreeOfFacts(example().facts),
            subject ->
                facts.stream().filter(fact -> SubjectsNamed.of(fact).contains(subject)).toList(),
            Subject.lot("R"),
            2,
            Map.of(),
            HALF_A_PERCENT);
    assertThat(drill.forward().complete()).isFalse();
    assertThat(drill.balance().toOtherLotsKg()).isEqualTo(1800, A_GRAM);
  }
}
