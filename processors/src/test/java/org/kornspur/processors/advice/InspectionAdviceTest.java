package org.kornspur.processors.advice;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.apache.commons.statistics.distribution.BinomialDistribution;
import org.junit.jupiter.api.Test;
import org.kornspur.contract.CropRole;
import org.kornspur.processors.PublishedChecks;
import org.kornspur.processors.advice.InspectionAdvice.Count;
import org.kornspur.processors.advice.InspectionAdvice.Terms;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.fixture.Dossiers;
import org.kornspur.processors.fixture.Draft;
import org.kornspur.processors.fixture.Facts;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.standards.Rulebooks;
import org.kornspur.processors.statistics.SamplingPlan;
import org.kornspur.processors.statistics.SequentialPlan.Decision;

/** Crops and counts are invented; limits are those of the bundled rulebook EU. */
class InspectionAdviceTest {
  private static final Terms TERMS = new Terms(0.05, 0.05, 2);
  private static final Rulebook EU = Rulebooks.bundled().find("EU").orElseThrow();

  @Test
  void theFixedPlanIsThatOfThePublishedExample() {
    SamplingPlan plan = FixedPlan.keepingRisks(0.05, 0.15, 0.05, 0.075).orElseThrow();
    PublishedChecks.of("advice")
        .same(
            "smallest count that accepts 5 % bad with 0.95 and 15 % bad with 0.075",
            "80, accept with 7",
            plan.examined() + ", accept with " + plan.acceptanceNumber(),
            "A. Kiermeier, Visualizing and Assessing Acceptance Sampling Plans, Journal of"
                + " Statistical Software 26(6) (2008), find.plan; from memory");
  }

  /** No smaller acceptance number has any size that keeps both risks: looked through one by one. */
  @Test
  void noSmallerFixedPlanKeepsBothRisks() {
    SamplingPlan plan = FixedPlan.keepingRisks(0.02, 0.04, 0.05, 0.05).orElseThrow();
    for (int n = 1; n < plan.examined(); n++) {
      for (int most = 0; most <= plan.acceptanceNumber(); most++) {
        boolean keepsBoth =
            BinomialDistribution.of(n, 0.02).cumulativeProbability(most) >= 0.95
                && BinomialDistribution.of(n, 0.04).cumulativeProbability(most) <= 0.05;
        assertThat(keepsBoth).as("%d, accept with %d", n, most).isFalse();
      }
    }
    assertThat(plan.producersRisk(0.02)).isLessThanOrEqualTo(0.05);
    assertThat(plan.consumersRisk(0.04)).isLessThanOrEqualTo(0.05);
  }

  @Test
  void beforeTheFirstVisitItSaysHowLongTheCountWillBe() {
    InspectionAdvice advice = advice(CropRole.STERILE_FEMALE);
    assertThat(advice.counts())
        .extracting(count -> count.limit().quantity())
        .containsExactly(
            Quantity.SHEDDING_FEMALES_ALL_VISITS,
            Quantity.FEMALE_STERILITY,
            Quantity.OFF_TYPES_BY_AREA);
    assertThat(advice.counts())
        .allSatisfy(
            count -> {
              assertThat(count.decision()).isEqualTo(Decision.GO_ON);
              assertThat(count.observed()).isEmpty();
              assertThat(count.steps()).isNotEmpty();
              assertThat(count.plan().orElseThrow().producersRisk()).isLessThanOrEqualTo(0.05);
              assertThat(count.plan().orElseThrow().consumersRisk()).isLessThanOrEqualTo(0.05);
              assertThat(count.fixedProducersRisk().orElseThrow()).isLessThanOrEqualTo(0.05);
            });
    assertThat(advice.sentence())
        .isEqualTo(new CountStatement.MayStop(advice.counts().size(), advice.crop(), 0));
  }

  /**
   * None in 1,000 females at a limit of 2 %: the line of acceptance is crossed long before, but not
   * before the least sample of 1,000 would the gate be met.
   */
  @Test
  void aClearCountMayStop() {
    assertThat(shedding(0, 999).decision()).isEqualTo(Decision.GO_ON);
    Count clean = shedding(0, 1000);
    assertThat(clean.decision()).isEqualTo(Decision.ACCEPT);
    assertThat(clean.unitsCounted()).isEqualTo(1000);
    assertThat(clean.acceptable()).isEqualTo(0.02);
    assertThat(clean.rejectable()).isEqualTo(0.04);
    Count bad = shedding(60, 600);
    assertThat(bad.decision()).isEqualTo(Decision.REJECT);
    assertThat(shedding(2, 100).decision()).isEqualTo(Decision.GO_ON);
    assertThat(shedding(2, 100).more().orElseThrow().ifNoneBad()).isPresent();
  }

  /** Beyond the end of the sequential count the acceptance number of a fixed count takes over. */
  @Test
  void aCountLongerThanThePlanIsJudgedWhole() {
    assertThat(shedding(150, 10_000).decision()).isEqualTo(Decision.ACCEPT);
    assertThat(shedding(400, 10_000).decision()).isEqualTo(Decision.REJECT);
  }

  /** EU basic seed: 1 in 30 m2, so a thousandth of that is a piece of 0.03 m2. */
  @Test
  void aCountByAreaIsTakenApartIntoPieces() {
    Count count =
        advice(
                CropRole.STERILE_FEMALE,
                Facts.inspection("c1").female().visit(1).offTypesInArea(1, 150),
                Facts.inspection("c1").female().visit(2).offTypesInArea(0, 150))
            .counts()
            .get(2);
    assertThat(count.unit())
        .isInstanceOfSatisfying(
            CountStatement.Piece.class,
            piece -> assertThat(piece.area().number()).isCloseTo(0.03, within(1e-9)));
    assertThat(count.unitsCounted()).isEqualTo(10_000);
    assertThat(count.bad()).isEqualTo(1);
    assertThat(count.acceptable()).isEqualTo(0.001);
  }

  @Test
  void termsThatMakeNoPlanAreRefused() {
    assertThatThrownBy(() -> new Terms(0.5, 0.5, 2)).hasMessageContaining("RisksOutside");
    assertThatThrownBy(() -> new Terms(0.05, 0.05, 1)).hasMessageContaining("MultipleTooSmall");
    assertThatThrownBy(
            () -> InspectionAdvice.of(crop(CropRole.STERILE_FEMALE), EU, new Terms(0.05, 0.05, 50)))
        .hasMessageContaining("MultipleTooLarge");
  }

  @Property(tries = 40)
  void moreSheddersNeverTurnTheAdviceForTheBetter(
      @ForAll @IntRange(min = 50, max = 3000) int examined,
      @ForAll @IntRange(min = 0, max = 40) int shedding,
      @ForAll @IntRange(min = 1, max = 10) int more) {
    assertThat(severity(shedding(shedding + more, examined).decision()))
        .isGreaterThanOrEqualTo(severity(shedding(shedding, examined).decision()));
  }

  private static int severity(Decision decision) {
    return switch (decision) {
      case ACCEPT -> 0;
      case GO_ON -> 1;
      case REJECT -> 2;
    };
  }

  private static Count shedding(int shedding, int examined) {
    return advice(
            CropRole.STERILE_FEMALE,
            Facts.inspection("c1").female().sheddingAmong(shedding, examined))
        .counts()
        .get(0);
  }

  private static InspectionAdvice advice(CropRole role, Draft<?>... facts) {
    return InspectionAdvice.of(crop(role, facts), EU, TERMS).orElseThrow();
  }

  private static Dossier crop(CropRole role, Draft<?>... facts) {
    return Dossiers.crop("c1").with(Facts.crop("c1", role)).with(facts).dossier();
  }
}
