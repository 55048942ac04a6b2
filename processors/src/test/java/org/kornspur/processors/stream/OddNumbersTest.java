package org.kornspur.processors.stream;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;

import java.time.LocalDate;
import java.util.ArrayDeque;
import java.util.Collections;
import java.util.Deque;
import java.util.HashSet;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.function.Consumer;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.ShrinkingMode;
import org.apache.avro.LogicalTypes;
import org.apache.avro.Schema;
import org.apache.avro.specific.SpecificRecord;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.kornspur.contract.Blend;
import org.kornspur.contract.KernelWeightTest;
import org.kornspur.contract.LotMass;
import org.kornspur.contract.WeighedKernels;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.contract.SubjectsNamed;
import org.kornspur.ingest.intake.FieldLimits;
import org.kornspur.processors.dossier.Entry;
import org.kornspur.standing.GateVerdict;
import org.kornspur.standing.LotStanding;
import org.kornspur.standing.StandingState;

/**
 * Numbers that no field, scale or laboratory gives, at every numeric field: the intake refuses
 * them, and where an earlier release let them in, the stream goes on, everything is judged, and
 * nothing is fit that rests on them.
 */
@Tag("slow")
@net.jqwik.api.Tag("slow")
class OddNumbersTest {
  private static final double[] ODD = {
    0.0,
    -0.0,
    Double.MIN_VALUE,
    -Double.MIN_VALUE,
    Double.MIN_NORMAL,
    1e-310,
    1e-180,
    1e-170,
    1e-20,
    -1,
    Math.nextDown(0.001),
    1e15,
    1e180,
    Double.MAX_VALUE,
    -Double.MAX_VALUE,
    Double.NaN,
    Double.POSITIVE_INFINITY,
    Double.NEGATIVE_INFINITY
  };
  private static final int[] ODD_WHOLE = {
    Integer.MIN_VALUE, -1, 0, 1, 24, 401, 99_999_999, Integer.MAX_VALUE
  };

  /** Those of the chain that are as they were, as quality brings them; signed once. */
  private static final Map<SpecificRecord, SpecificRecord> SIGNED = new IdentityHashMap<>();

  static {
    Chain.facts().forEach(fact -> SIGNED.put(fact, signed(fact)));
  }

  @Property(tries = 20, shrinking = ShrinkingMode.OFF)
  void theIntakeRefusesThemAndLosesNone(@ForAll Random random) {
    List<SpecificRecord> facts = withOddNumbers(random);

    judged(
        topology -> topology.acceptAtOnce(facts.stream().map(OddNumbersTest::signed).toList()),
        topology -> {
          List<SpecificRecord> accepted =
              facts.stream().filter(fact -> isRegistered(topology, fact)).toList();
          assertThat(accepted.size() + topology.quarantine().size()).isEqualTo(facts.size());
          assertThat(accepted).allSatisfy(fact -> assertThat(FieldLimits.beyond(fact)).isEmpty());
          assertAllJudgedAndNothingFitOnThem(topology, accepted);
        });
  }

  @Property(tries = 40, shrinking = ShrinkingMode.OFF)
  void takenInByAnEarlierReleaseTheyStopNothing(@ForAll Random random) {
    List<SpecificRecord> facts = withOddNumbers(random);

    judged(
        topology -> topology.acceptAsEarlier(facts),
        topology -> assertAllJudgedAndNothingFitOnThem(topology, facts));
  }

  @Test
  void theChainIsFitWithoutThem() {
    judged(
        topology -> topology.acceptAsEarlier(Chain.facts()),
        topology -> {
          assertThat(topology.standing(Chain.CERTIFIED).getState()).isEqualTo(StandingState.FIT);
          assertThat(topology.standing(Chain.MIXTURE).getState()).isEqualTo(StandingState.FIT);
          assertThat(topology.counted(FaultLog.COUNTED)).isZero();
        });
  }

  /** Eight replicates of 100 kernels that weigh nothing: squares of such masses are 0. */
  @Test
  void kernelsOfNoWeightLeaveTheMixtureUnjudgedAndTheStreamRunning() {
    List<SpecificRecord> facts = Chain.facts();
    KernelWeightTest weighed =
        facts.stream()
            .filter(KernelWeightTest.class::isInstance)
            .map(KernelWeightTest.class::cast)
            .filter(test -> test.getLotId().equals("L24-01"))
            .findFirst()
            .orElseThrow();
    KernelWeightTest odd = Chain.copy(weighed);
    odd.put("replicates", Collections.nCopies(8, new WeighedKernels(100, 1e-180)));
    facts.replaceAll(fact -> fact == weighed ? odd : fact);

    spoilsTheMixture(facts, Chain.idOf(odd));
  }

  @Test
  void aMixtureOfNoMassIsLeftUnjudgedAndTheStreamRunning() {
    List<SpecificRecord> facts = Chain.facts();
    Blend blend =
        facts.stream()
            .filter(Blend.class::isInstance)
            .map(Blend.class::cast)
            .filter(mixed -> Subject.lot(mixed.getBlendLotId()).equals(Chain.MIXTURE))
            .findFirst()
            .orElseThrow();
    Blend odd = Chain.copy(blend);
    odd.put("females", List.of(new LotMass("L24-01", Double.MIN_VALUE)));
    odd.put("pollinators", List.of(new LotMass("L24-02", Double.MIN_VALUE)));
    facts.replaceAll(fact -> fact == blend ? odd : fact);

    spoilsTheMixture(facts, Chain.idOf(odd));
  }

  private static void spoilsTheMixture(List<SpecificRecord> facts, String factId) {
    judged(
        topology -> topology.acceptAsEarlier(facts),
        topology -> {
          LotStanding mixture = topology.standing(Chain.MIXTURE);
          assertThat(mixture.getState()).isNotEqualTo(StandingState.FIT);
          assertThat(mixture.getVerdicts())
              .filteredOn(verdict -> verdict.getGate().equals("BLEND_SHARE"))
              .filteredOn(
                  verdict -> verdict.getFindings().get(0).getCode().equals("basis.not-judged"))
              .flatExtracting(GateVerdict::getFactIds)
              .contains(factId);
          assertThat(topology.standing(Chain.CERTIFIED).getState()).isNotEqualTo(StandingState.FIT);
          double counted = topology.counted(FaultLog.COUNTED);
          assertThat(counted).isPositive();

          // all is judged again, and the same fault is not counted twice
          topology.acceptAsEarlier(facts);
          assertThat(topology.counted(FaultLog.COUNTED)).isEqualTo(counted);
        });
  }

  private static void judged(Consumer<DrivenTopology> sent, Consumer<DrivenTopology> held) {
    assertTimeoutPreemptively(
        DrivenTopology.LONGEST_UNREST,
        () -> {
          try (DrivenTopology topology = DrivenTopology.withRealRules()) {
            sent.accept(topology);
            held.accept(topology);
          }
        });
  }

  private static List<SpecificRecord> withOddNumbers(Random random) {
    List<SpecificRecord> facts = Chain.facts();
    int changed = 1 + random.nextInt(3);
    for (int i = 0; i < changed; i++) {
      int at = random.nextInt(facts.size());
      SpecificRecord odd = Chain.copy(facts.get(at));
      List<Chain.Number> numbers = Chain.numbersOf(odd);
      if (!numbers.isEmpty()) {
        Chain.Number number = numbers.get(random.nextInt(numbers.size()));
        number.put().accept(odd(number.schema(), random));
        facts.set(at, odd);
      }
    }
    return facts;
  }

  private static SpecificRecord signed(SpecificRecord fact) {
    SpecificRecord before = SIGNED.get(fact);
    return before == null ? DrivenTopology.by(DrivenTopology.QUALITY, fact) : before;
  }

  private static Object odd(Schema schema, Random random) {
    if (schema.getType() == Schema.Type.DOUBLE) {
      return random.nextBoolean()
          ? ODD[random.nextInt(ODD.length)]
          : Double.longBitsToDouble(random.nextLong());
    }
    int whole =
        random.nextBoolean() ? ODD_WHOLE[random.nextInt(ODD_WHOLE.length)] : random.nextInt();
    return schema.getLogicalType() instanceof LogicalTypes.Date
        ? LocalDate.ofEpochDay(whole)
        : (Object) whole;
  }

  private static boolean isRegistered(DrivenTopology topology, SpecificRecord fact) {
    RegisterEntry entry = topology.registered(Chain.idOf(fact));
    return entry != null && entry.fingerprint().isPresent();
  }

  private static void assertAllJudgedAndNothingFitOnThem(
      DrivenTopology topology, List<SpecificRecord> facts) {
    Map<String, LotStanding> standings = topology.standings();
    Set<String> seed = new HashSet<>();
    facts.stream()
        .flatMap(fact -> SubjectsNamed.of(fact).stream())
        .filter(
            subject -> subject.kind() == Subject.Kind.LOT || subject.kind() == Subject.Kind.CROP)
        .forEach(subject -> seed.add(subject.toString()));
    assertThat(standings.keySet()).containsExactlyInAnyOrderElementsOf(seed);

    Set<String> odd = new HashSet<>();
    facts.stream()
        .filter(fact -> !FieldLimits.beyond(fact).isEmpty())
        .forEach(fact -> odd.add(Chain.idOf(fact)));
    standings.values().stream()
        .filter(standing -> standing.getState() == StandingState.FIT)
        .forEach(
            fit ->
                assertThat(counting(topology, standings, fit))
                    .as(fit.getSubject())
                    .filteredOn(odd::contains)
                    .isEmpty());
  }

  /** Facts that count in the dossier of a subject and of all that it came from. */
  private static Set<String> counting(
      DrivenTopology topology, Map<String, LotStanding> standings, LotStanding of) {
    Set<String> seen = new HashSet<>(Set.of(of.getSubject()));
    Deque<LotStanding> toLookAt = new ArrayDeque<>(List.of(of));
    Set<String> factIds = new HashSet<>();
    while (!toLookAt.isEmpty()) {
      LotStanding standing = toLookAt.pop();
      topology.dossiers().entriesOf(Subject.parse(standing.getSubject())).stream()
          .filter(Entry::counts)
          .forEach(entry -> factIds.add(entry.header().getFactId()));
      standing.getParents().stream().filter(seen::add).map(standings::get).forEach(toLookAt::push);
    }
    return factIds;
  }
}
