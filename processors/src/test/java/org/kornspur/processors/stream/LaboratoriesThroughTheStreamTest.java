package org.kornspur.processors.stream;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.kornspur.contract.Accreditation;
import org.kornspur.contract.Category;
import org.kornspur.contract.TestKind;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.fixture.Draft;
import org.kornspur.processors.fixture.Facts;
import org.kornspur.standing.StandingState;

/** Whatever comes first, the tests or the declaration of who made them. */
class LaboratoriesThroughTheStreamTest {
  private final DrivenTopology topology = DrivenTopology.withRealRules();

  @AfterEach
  void close() {
    topology.close();
  }

  @Test
  void aDeclarationReachesEveryLotThatTheLaboratoryTested() {
    accept(tested("ONE"));
    accept(tested("TWO"));
    assertThat(states()).containsOnly(StandingState.EVIDENCE_OWED);

    accept(Facts.laboratory("LAB1"));

    assertThat(states()).containsOnly(StandingState.FIT);
  }

  @Test
  void aLotThatIsTestedLaterIsToldToo() {
    accept(Facts.laboratory("LAB1"));
    accept(tested("ONE"));
    accept(tested("TWO"));

    assertThat(states()).containsOnly(StandingState.FIT);
  }

  @Test
  void aDeclarationThatIsWithdrawnOrEndedProvesNothing() {
    accept(tested("ONE"));
    accept(tested("TWO"));
    accept(Facts.laboratory("LAB1"));
    accept(
        Facts.laboratory("LAB1")
            .with(
                declared ->
                    declared.setAccreditations(
                        List.of(
                            new Accreditation(
                                TestKind.PURITY,
                                LocalDate.of(2000, 1, 1),
                                LocalDate.of(2099, 12, 31)))))
            .id("later")
            .at("2024-12-01"));
    assertThat(states()).containsOnly(StandingState.EVIDENCE_OWED);

    topology.accept(InventedFacts.withdrawal("back", 400, "later"));
    assertThat(states()).containsOnly(StandingState.FIT);

    topology.accept(InventedFacts.withdrawal("back-too", 401, "declared-LAB1"));
    assertThat(states()).containsOnly(StandingState.EVIDENCE_OWED);
  }

  @Test
  void aDeclarationByNobodyKnownTakesThePlaceOfNone() {
    accept(tested("ONE"));
    accept(tested("TWO"));
    accept(Facts.laboratory("LAB1").with(declared -> declared.setAccreditations(List.of())));

    topology.acceptAsSent(Facts.laboratory("LAB1").id("claimed").at("2024-12-01").fact());

    assertThat(states()).containsOnly(StandingState.EVIDENCE_OWED);
  }

  /** Nobody proves it, and so it cannot count; but no seed is fit on what it disputes. */
  @Test
  void anEndThatNobodyConfirmedHoldsTheLotsUp() {
    accept(tested("ONE"));
    accept(tested("TWO"));
    accept(Facts.laboratory("LAB1"));
    assertThat(states()).containsOnly(StandingState.FIT);

    topology.acceptAsSent(
        Facts.laboratory("LAB1")
            .with(declared -> declared.setAccreditations(List.of()))
            .id("claimed")
            .at("2024-12-01")
            .fact());
    assertThat(states()).containsOnly(StandingState.EVIDENCE_OWED);

    accept(Facts.laboratory("LAB1").id("confirmed").at("2024-12-02"));
    topology.accept(InventedFacts.withdrawal("untrue", 402, "claimed"));
    assertThat(states()).containsOnly(StandingState.FIT);
  }

  @Test
  void anUnconfirmedWithdrawalHoldsTheLotsUp() {
    accept(tested("ONE"));
    accept(tested("TWO"));
    accept(Facts.laboratory("LAB1"));

    topology.acceptAsSent(InventedFacts.withdrawal("claimed-back", 403, "declared-LAB1"));

    assertThat(states()).containsOnly(StandingState.EVIDENCE_OWED);
  }

  private static Draft<?>[] tested(String lotId) {
    String sample = "S-" + lotId;
    return Stream.of(
            Facts.declared(lotId, Facts.HYBRID, Category.CERTIFIED, 1000),
            Facts.sampling(lotId, 40, 1000, 40).with(drawn -> drawn.setSampleId(sample)),
            Facts.germination(lotId, 95, 94, 96, 95).with(test -> test.setSampleId(sample)),
            Facts.purity(lotId, 119.4, 0.5, 0.1).with(test -> test.setSampleId(sample)),
            Facts.otherSeeds(lotId).with(test -> test.setSampleId(sample)))
        .toArray(Draft[]::new);
  }

  private void accept(Draft<?>... facts) {
    for (Draft<?> fact : facts) {
      topology.accept(fact.fact());
    }
    assertThat(topology.quarantine()).isEmpty();
  }

  private List<StandingState> states() {
    return Stream.of("ONE", "TWO")
        .map(lot -> topology.standing(Subject.lot(lot)).getState())
        .toList();
  }
}
