package org.kornspur.processors.stream;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.Function;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.kornspur.contract.Category;
import org.kornspur.contract.LotDeclared;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.fixture.Draft;
import org.kornspur.processors.fixture.Facts;
import org.kornspur.standing.GateVerdict;
import org.kornspur.standing.InheritedTrouble;
import org.kornspur.standing.LotStanding;
import org.kornspur.standing.StandingState;
import org.kornspur.standing.VerdictState;

/**
 * A lot that failed is not passed by mixing it into another, dividing it or giving it a new name,
 * and where a doubt is left neither; cleaning it may. Common practice, no source.
 */
class MergingTest {
  private static final double KG = 1000;
  private static final double OVERSIZED_KG = 60_000;

  /** What a lot can fail, or leave open. */
  enum Failure {
    PURITY(
        "ANALYTICAL_PURITY",
        bad -> Facts.purity(bad, 111, 8, 1).with(test -> test.setSampleId("S-" + bad))),
    GERMINATION(
        "GERMINATION",
        bad -> Facts.germination(bad, 60, 61, 59, 60).with(test -> test.setSampleId("S-" + bad))),
    MOISTURE("MOISTURE", bad -> Facts.moisture(bad, 18).with(test -> test.setSampleId("S-" + bad))),
    ERGOT(
        "ERGOT",
        bad ->
            Facts.otherSeeds(bad)
                .with(sample -> sample.setErgotBodies(30).setSampleId("S-" + bad))),
    OTHER_SEEDS(
        "OTHER_SEEDS",
        bad ->
            Facts.otherSeeds(bad)
                .with(sample -> sample.setOtherCereals(9).setSampleId("S-" + bad))),
    SECOND_SAMPLE_MISSING(
        "ERGOT",
        bad ->
            Facts.otherSeeds(bad).with(sample -> sample.setErgotBodies(5).setSampleId("S-" + bad))),
    REPLICATES_APART(
        "GERMINATION",
        bad -> Facts.germination(bad, 90, 70, 80, 80).with(test -> test.setSampleId("S-" + bad))),
    POST_CONTROL("POST_CONTROL", bad -> Facts.postControl(bad, 2000, 400)),
    LOT_SIZE("LOT_SIZE", bad -> lot(bad, Facts.HYBRID, Category.CERTIFIED, OVERSIZED_KG)),
    COMPONENTS(
        "COMPONENTS", bad -> Facts.merge(bad).of("HYBRID-SEED", KG / 2).of("POLLINATOR", KG / 2)),
    BLEND_SHARE(
        "BLEND_SHARE",
        bad -> Facts.blend(bad).female("FEMALE-BAD", 800).pollinator("POLLINATOR-BAD", 200));

    final String gate;
    private final Function<String, Draft<?>> fails;

    Failure(String gate, Function<String, Draft<?>> fails) {
      this.gate = gate;
      this.fails = fails;
    }

    double massKg() {
      return this == LOT_SIZE ? OVERSIZED_KG : KG;
    }

    /** The lot that failed. */
    List<Draft<?>> bad() {
      List<Draft<?>> all = new ArrayList<>(tests("BAD", massKg(), "2024-08-11"));
      all.add(fails.apply("BAD").at(madeOrTested()));
      all.addAll(
          switch (this) {
            case LOT_SIZE -> List.of();
            case COMPONENTS ->
                List.of(
                    lot("HYBRID-SEED", Facts.HYBRID, Category.CERTIFIED, KG),
                    lot("POLLINATOR", Facts.RESTORER, Category.BASIC, KG));
            case BLEND_SHARE -> partsOf("BAD");
            default -> List.of(lot("BAD", Facts.HYBRID, Category.CERTIFIED, KG));
          });
      return all;
    }

    private String madeOrTested() {
      return isOfSeed() || this == POST_CONTROL ? "2024-08-12" : "2024-08-05";
    }

    /** A lot of the same seed that failed nothing. */
    List<Draft<?>> good() {
      List<Draft<?>> all = new ArrayList<>();
      if (this == BLEND_SHARE) {
        all.addAll(partsOf("GOOD"));
        all.add(
            Facts.blend("GOOD")
                .female("FEMALE-GOOD", 950)
                .pollinator("POLLINATOR-GOOD", 50)
                .at("2024-08-05"));
      } else {
        all.add(lot("GOOD", Facts.HYBRID, Category.CERTIFIED, KG));
      }
      all.addAll(tests("GOOD", KG, "2024-08-11"));
      return all;
    }

    /** Whether cleaning and drying may end it: not what is in the seed's kind, or its mass. */
    boolean isOfSeed() {
      return switch (this) {
        case POST_CONTROL, LOT_SIZE, COMPONENTS, BLEND_SHARE -> false;
        default -> true;
      };
    }
  }

  /** What somebody may do with it in the hope that it becomes another lot. */
  enum Move {
    MERGE {
      @Override
      List<Draft<?>> of(double kg) {
        return List.of(Facts.merge("NEW").of("BAD", kg).of("GOOD", KG));
      }

      @Override
      double comesToKg(double kg) {
        return kg + KG;
      }
    },
    MERGE_WITH_A_KILOGRAM {
      @Override
      List<Draft<?>> of(double kg) {
        return List.of(Facts.merge("NEW").of("BAD", kg).of("GOOD", 1));
      }

      @Override
      double comesToKg(double kg) {
        return kg + 1;
      }
    },
    SPLIT {
      @Override
      List<Draft<?>> of(double kg) {
        return List.of(Facts.split("BAD").into("NEW", kg / 2).into("REST", kg / 2));
      }

      @Override
      double comesToKg(double kg) {
        return kg / 2;
      }
    },
    RENAME {
      @Override
      List<Draft<?>> of(double kg) {
        return List.of(Facts.split("BAD").into("NEW", kg));
      }
    },
    CONDITION_WITHOUT_LOSS {
      @Override
      List<Draft<?>> of(double kg) {
        return List.of(Facts.conditioning().from("BAD", kg).into("NEW", kg));
      }
    },
    DECLARE_ANEW {
      @Override
      List<Draft<?>> of(double kg) {
        return List.of(
            Facts.split("BAD").into("NEW", kg),
            lot("NEW", Facts.HYBRID, Category.CERTIFIED, 1)
                .with(declared -> declared.setRulebookId("US")));
      }
    };

    abstract List<Draft<?>> of(double kg);

    double comesToKg(double kg) {
      return kg;
    }
  }

  static Stream<Arguments> failuresAndMoves() {
    return Arrays.stream(Failure.values())
        .flatMap(failure -> Arrays.stream(Move.values()).map(move -> Arguments.of(failure, move)));
  }

  @ParameterizedTest
  @MethodSource("failuresAndMoves")
  void noMoveMakesAnotherLotOfIt(Failure failure, Move move) {
    try (DrivenTopology topology = DrivenTopology.withRealRules()) {
      accept(topology, failure.bad());
      StandingState before = topology.standing(Subject.lot("BAD")).getState();
      accept(topology, failure.good());
      accept(topology, move.of(failure.massKg()));
      accept(topology, tests("NEW", move.comesToKg(failure.massKg()), "2024-09-10"));

      boolean isEnded = failure == Failure.LOT_SIZE && move == Move.SPLIT;
      LotStanding made = topology.standing(Subject.lot("NEW"));
      assertThat(before).isNotEqualTo(StandingState.FIT);
      assertThat(topology.standing(Subject.lot("GOOD")).getState()).isEqualTo(StandingState.FIT);
      assertThat(made.getState())
          .as(made.toString())
          .isEqualTo(isEnded ? StandingState.FIT : before);
    }
  }

  /** Or the moves would prove nothing of the failures. */
  @ParameterizedTest
  @EnumSource(mode = EnumSource.Mode.EXCLUDE, names = "DECLARE_ANEW")
  void ofGoodSeedEachMoveMakesGoodSeed(Move move) {
    try (DrivenTopology topology = DrivenTopology.withRealRules()) {
      for (String good : List.of("BAD", "GOOD")) {
        accept(topology, List.of(lot(good, Facts.HYBRID, Category.CERTIFIED, KG)));
        accept(topology, tests(good, KG, "2024-08-11"));
      }
      accept(topology, move.of(KG));
      accept(topology, tests("NEW", move.comesToKg(KG), "2024-09-10"));

      LotStanding made = topology.standing(Subject.lot("NEW"));
      assertThat(made.getState()).as(made.toString()).isEqualTo(StandingState.FIT);
    }
  }

  @ParameterizedTest
  @EnumSource
  void cleaningAndDryingEndsWhatIsOfTheSeedItself(Failure failure) {
    try (DrivenTopology topology = DrivenTopology.withRealRules()) {
      double kg = failure.massKg();
      accept(topology, failure.bad());
      accept(
          topology,
          List.of(
              Facts.conditioning()
                  .from("BAD", kg)
                  .into("NEW", 0.85 * kg)
                  .screenings(0.1 * kg)
                  .driedOff(0.05 * kg)));
      accept(topology, tests("NEW", 0.85 * kg, "2024-09-10"));

      assertThat(topology.standing(Subject.lot("NEW")).getState() == StandingState.FIT)
          .isEqualTo(failure.isOfSeed());
    }
  }

  /** Each work removes its own defect, and none that it does not touch. */
  @Test
  void cleaningDriesNothingAndDryingCleansNothing() {
    assertThat(afterConditioning(Failure.MOISTURE, 100, 0.0, null))
        .isEqualTo(StandingState.NOT_FIT);
    assertThat(afterConditioning(Failure.MOISTURE, 0, 40.0, null)).isEqualTo(StandingState.FIT);
    assertThat(afterConditioning(Failure.PURITY, 0, 40.0, null)).isEqualTo(StandingState.NOT_FIT);
    assertThat(afterConditioning(Failure.PURITY, 0.001, null, null))
        .as("screenings of a gram")
        .isEqualTo(StandingState.NOT_FIT);
    assertThat(afterConditioning(Failure.PURITY, 9, null, null))
        .as("screenings of less than 1 %, which clean nothing")
        .isEqualTo(StandingState.NOT_FIT);
    assertThat(afterConditioning(Failure.PURITY, 10, null, null)).isEqualTo(StandingState.FIT);
    assertThat(afterConditioning(Failure.MOISTURE, 0, 2.0, null))
        .as("water of less than 0.3 %, which dries nothing")
        .isEqualTo(StandingState.NOT_FIT);
    assertThat(afterConditioning(Failure.PURITY, 0, null, "invented dressing"))
        .isEqualTo(StandingState.NOT_FIT);
    assertThat(afterConditioning(Failure.GERMINATION, 0, null, "invented dressing"))
        .isEqualTo(StandingState.FIT);
  }

  private static StandingState afterConditioning(
      Failure failure, double screeningsKg, Double driedOffKg, String treatment) {
    try (DrivenTopology topology = DrivenTopology.withRealRules()) {
      double leftKg = KG - screeningsKg - (driedOffKg == null ? 0 : driedOffKg);
      accept(topology, failure.bad());
      accept(
          topology,
          List.of(
              Facts.conditioning()
                  .from("BAD", KG)
                  .into("NEW", leftKg)
                  .screenings(screeningsKg)
                  .driedOff(driedOffKg)
                  .treatedWith(treatment)));
      accept(topology, tests("NEW", leftKg, "2024-09-10"));
      return topology.standing(Subject.lot("NEW")).getState();
    }
  }

  @ParameterizedTest
  @EnumSource(names = {"PURITY", "ERGOT", "GERMINATION"})
  void whatWasMixedInCarriesItsFailureAndItsShare(Failure failure) {
    try (DrivenTopology topology = DrivenTopology.withRealRules()) {
      accept(topology, List.of(lot("MORE", Facts.HYBRID, Category.CERTIFIED, 3 * KG)));
      accept(topology, failure.bad());
      accept(topology, List.of(Facts.merge("ALL").of("MORE", 3 * KG).of("BAD", KG)));
      accept(topology, tests("ALL", 4 * KG, "2024-09-10"));

      InheritedTrouble trouble = topology.standing(Subject.lot("ALL")).getInherited().get(0);
      assertThat(trouble.getGate()).isEqualTo(failure.gate);
      assertThat(trouble.getOrigin()).isEqualTo("lot:BAD");
      assertThat(share(trouble)).isEqualTo(25);
    }
  }

  @Test
  void aPartOfTheMixtureIsNoBetterAndKnowsItsShare() {
    try (DrivenTopology topology = DrivenTopology.withRealRules()) {
      accept(topology, Failure.PURITY.bad());
      accept(
          topology,
          List.of(
              lot("MORE", Facts.HYBRID, Category.CERTIFIED, 3 * KG),
              lot("OTHER", Facts.HYBRID, Category.CERTIFIED, 500),
              Facts.merge("ALL").of("MORE", 3 * KG).of("BAD", KG),
              Facts.split("ALL").into("PART", 500),
              Facts.merge("NEXT").of("PART", 500).of("OTHER", 500).at("2024-09-03")));
      accept(topology, tests("NEXT", KG, "2024-09-10"));

      assertThat(share(topology.standing(Subject.lot("NEXT")).getInherited().get(0)))
          .isEqualTo(12.5);
      assertThat(topology.standing(Subject.lot("NEXT")).getState())
          .isEqualTo(StandingState.NOT_FIT);
    }
  }

  /** Two small admixtures are a large one, also where the seed was divided in between. */
  @Test
  void whatWasAdmixedBeforeCountsInTheShare() {
    try (DrivenTopology topology = DrivenTopology.withRealRules()) {
      accept(
          topology,
          List.of(
              lot("SEED", Facts.HYBRID, Category.CERTIFIED, KG),
              lot("RYE", "OP1", Category.CERTIFIED, KG),
              Facts.admixture("ONCE").hybrid("SEED", 920).openPollinated("RYE", 80),
              Facts.split("ONCE").into("PART", 500).at("2024-09-09"),
              Facts.admixture("TWICE")
                  .hybrid("PART", 460)
                  .openPollinated("RYE", 40)
                  .at("2024-09-10")));

      assertThat(shareState(topology, "ONCE")).containsExactly(VerdictState.MET);
      assertThat(shareState(topology, "TWICE")).containsExactly(VerdictState.NOT_MET);
    }
  }

  private static List<VerdictState> shareState(DrivenTopology topology, String lotId) {
    return topology.standing(Subject.lot(lotId)).getVerdicts().stream()
        .filter(verdict -> verdict.getAspect().equals("open-pollinated share"))
        .map(GateVerdict::getState)
        .toList();
  }

  @Test
  void aLotThatPassedMixesIn() {
    try (DrivenTopology topology = DrivenTopology.withRealRules()) {
      accept(
          topology,
          List.of(
              lot("ONE", Facts.HYBRID, Category.CERTIFIED, 3 * KG),
              lot("TWO", Facts.HYBRID, Category.CERTIFIED, KG),
              Facts.merge("ALL").of("ONE", 3 * KG).of("TWO", KG)));
      accept(topology, tests("ALL", 4 * KG, "2024-09-10"));

      assertThat(topology.standing(Subject.lot("ALL")).getState()).isEqualTo(StandingState.FIT);
      assertThat(topology.standing(Subject.lot("ONE")).getState()).isEqualTo(StandingState.FIT);
    }
  }

  private static Facts.Plain<LotDeclared.Builder> lot(
      String lotId, String seed, Category category, double massKg) {
    return Facts.declared(lotId, seed, category, massKg)
        .with(lot -> lot.setRulebookId("DE"))
        .at("2024-08-01");
  }

  private static List<Draft<?>> partsOf(String mixture) {
    List<Draft<?>> facts = new ArrayList<>(List.of(Facts.hybrid().id("hybrid").at("2024-01-01")));
    for (String component : List.of(Facts.SINGLE_CROSS, Facts.RESTORER)) {
      String part = (component.equals(Facts.RESTORER) ? "POLLINATOR-" : "FEMALE-") + mixture;
      facts.add(lot(part, component, Category.BASIC, KG));
      facts.addAll(tests(part, KG, "2024-08-02"));
      facts.add(
          Facts.kernelWeight(part, 3.0, 3.0, 3.0, 3.0, 3.0, 3.0, 3.0, 3.0)
              .with(test -> test.setSampleId("S-" + part))
              .at("2024-08-02"));
    }
    return facts;
  }

  /** Good tests of a good sample; those of a lot that fails beside them make it no better. */
  private static List<Draft<?>> tests(String lotId, double massKg, String on) {
    String sample = "S-" + lotId;
    return List.of(
        Facts.laboratory("LAB1"),
        Facts.sampling(lotId, 40, massKg, 200)
            .with(sampling -> sampling.setSampleId(sample).setContainers(null))
            .at(on),
        Facts.germination(lotId, 95, 94, 96, 95).with(test -> test.setSampleId(sample)).at(on),
        Facts.purity(lotId, 119.4, 0.5, 0.1).with(test -> test.setSampleId(sample)).at(on),
        Facts.moisture(lotId, 13).with(test -> test.setSampleId(sample)).at(on),
        Facts.otherSeeds(lotId).with(test -> test.setSampleId(sample)).at(on));
  }

  private static void accept(DrivenTopology topology, List<Draft<?>> facts) {
    facts.forEach(fact -> topology.accept(fact.fact()));
    assertThat(topology.quarantine()).isEmpty();
  }

  private static double share(InheritedTrouble trouble) {
    return trouble.getFindings().stream()
        .filter(finding -> finding.getCode().equals("lot.failed-share"))
        .mapToDouble(finding -> finding.getArguments().get(0).getNumber())
        .findFirst()
        .orElse(100);
  }
}
