package org.kornspur.processors.advice;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.PublishedChecks;
import org.kornspur.processors.finding.Reference;
import org.kornspur.processors.statistics.Agreement;
import org.kornspur.processors.statistics.Heterogeneity;
import org.kornspur.processors.statistics.Heterogeneity.Attribute;
import org.kornspur.processors.statistics.NoTable;

/** Stated values, pairs of tests, and containers of one lot. */
class ComparisonsTest {
  private static final String ISTA = "International Rules for Seed Testing, worked example";
  private static final String SCO = "SSI 2005/328, schedule 7";
  private static final PublishedChecks CHECKS = PublishedChecks.of("advice");

  /** 87 to 90 % stated: 6 either way. */
  @Test
  void aStatedGerminationIsHeldAgainstALaterTestByBothRules() {
    List<StatedValueAdvice> within = StatedValueAdvice.germination(90, 84, 400);
    assertThat(within).extracting(StatedValueAdvice::agreement).hasSize(2);
    CHECKS.same("90 % stated, 84 % found: agree", true, agrees(within.get(0)), SCO);
    CHECKS.same(
        "90 % stated, 83 % found: agree",
        false, agrees(StatedValueAdvice.germination(90, 83, 400).get(0)), SCO);
    // mean of 90 and 84 is 87, where 7 are tolerated
    CHECKS.same("90 % stated, 84 % found: agree", true, agrees(within.get(1)), "7 CFR 201.63");
    assertThat(StatedValueAdvice.germination(90, 84, 200).get(1).agreement())
        .isEqualTo(new Agreement.NotTabulated(new NoTable.TooFewSeeds(200, 400)));
    assertThat(StatedValueAdvice.germination(90, 70, 400).get(0).sentence())
        .isInstanceOfSatisfying(
            ComparisonStatement.Differ.class,
            differ -> assertThat(differ.source().toString()).contains("2005/328"));
  }

  @Test
  void purityAndOtherSeedsAreHeldAgainstTheirOwnTables() {
    CHECKS.same(
        "98.5 % stated, 97.8 % found: agree",
        true, agrees(StatedValueAdvice.purity(98.5, 97.8).get(0)), SCO);
    CHECKS.same(
        "98.5 % stated, 97.7 % found: agree",
        false, agrees(StatedValueAdvice.purity(98.5, 97.7).get(0)), SCO);
    CHECKS.same(
        "4 other seeds allowed, 9 found: agree",
        true,
        agrees(StatedValueAdvice.otherSeeds(4, 9).get(0)),
        SCO);
    CHECKS.same(
        "4 other seeds allowed, 10 found: agree",
        false,
        agrees(StatedValueAdvice.otherSeeds(4, 10).get(0)),
        SCO);
  }

  @Test
  void twoTestsAreComparedByTheirMean() {
    String source = "International Rules for Seed Testing, table 5C, from memory";
    CHECKS.same(
        "90 and 85 %: compatible",
        true, agrees(StatedValueAdvice.twoTests(90, 400, 85, 400).get(0)), source);
    CHECKS.same(
        "91 and 85 %: compatible",
        false, agrees(StatedValueAdvice.twoTests(91, 400, 85, 400).get(0)), source);
    assertThat(StatedValueAdvice.twoTests(90, 400, 85, 400).get(0).sentence())
        .isInstanceOfSatisfying(
            ComparisonStatement.Agree.class,
            agree -> assertThat(agree.source()).isInstanceOf(Reference.FromMemory.class));
    assertThatThrownBy(() -> StatedValueAdvice.twoTests(101, 400, 85, 400))
        .hasMessage(new AdviceRefusal.PercentOutside(Amount.percent(101)).toString());
  }

  @Test
  void theWorkedExampleOfHeterogeneityIsFoundHeterogeneous() {
    HeterogeneityAdvice advice =
        HeterogeneityAdvice.of(
            Attribute.PURITY,
            List.of(
                99.4, 99.9, 99.6, 98.7, 99.5, 99.6, 98.9, 98.9, 99.0, 99.3, 98.5, 99.4, 99.6, 99.5,
                99.1, 98.2, 99.2, 99.9, 99.8, 99.5));
    Heterogeneity h = advice.h().orElseThrow();
    CHECKS.close("mean of the worked example, %", 99.275, h.mean(), 5e-4, ISTA);
    CHECKS.close("V of the worked example", 0.2125, h.observedVariance(), 5e-4, ISTA);
    assertThat(advice.heterogeneous()).isTrue();
    assertThat(conclusion(advice)).isEqualTo(new HeterogeneityStatement.Heterogeneous());
  }

  /** Twenty at 99.5 %: 1.3 are tolerated. */
  @Test
  void theRangeTestFindsWhatTheHValueAverages() {
    List<Double> wide = new java.util.ArrayList<>(java.util.Collections.nCopies(18, 99.5));
    wide.addAll(List.of(98.8, 100.0));
    CHECKS.same(
        "range of 1.2 at a mean of 99.5, N = 20: agrees",
        true,
        HeterogeneityAdvice.of(Attribute.PURITY, wide).range() instanceof Agreement.Agrees,
        "Decree 61/2011 of the Czech Republic, annex 1");
    wide.set(18, 98.6);
    HeterogeneityAdvice advice = HeterogeneityAdvice.of(Attribute.PURITY, wide);
    CHECKS.same(
        "range of 1.4 at a mean of 99.5, N = 20: agrees",
        false,
        advice.range() instanceof Agreement.Agrees,
        "Decree 61/2011 of the Czech Republic, annex 1");
    assertThat(advice.heterogeneous()).isTrue();
  }

  @Test
  void whereTheRulesReportNoHValueItSaysSo() {
    HeterogeneityAdvice advice =
        HeterogeneityAdvice.of(Attribute.OTHER_SEEDS, List.of(0.0, 1.0, 0.0));
    assertThat(advice.h()).isEmpty();
    assertThat(advice.heterogeneous()).isFalse();
    assertThat(conclusion(advice)).isEqualTo(new HeterogeneityStatement.NothingToSay());
    assertThatThrownBy(() -> HeterogeneityAdvice.of(Attribute.PURITY, List.of(99.0)))
        .hasMessageContaining("given=1]");
    assertThatThrownBy(() -> HeterogeneityAdvice.of(Attribute.PURITY, List.of(99.0, 120.0)))
        .hasMessageContaining("ResultOutside");
  }

  private static boolean agrees(StatedValueAdvice advice) {
    return advice.agreement() instanceof Agreement.Agrees;
  }

  private static HeterogeneityStatement conclusion(HeterogeneityAdvice advice) {
    return ((HeterogeneityStatement.Tested) advice.sentence()).conclusion();
  }
}
