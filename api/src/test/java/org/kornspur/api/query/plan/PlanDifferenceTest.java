package org.kornspur.api.query.plan;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.kornspur.processors.plan.Supply;

/** A lot is condemned after a plan was approved; numbers are invented. */
class PlanDifferenceTest {
  private static final PlanOutcome APPROVED =
      new PlanOutcome(
          List.of(
              new PlanOutcome.Met("H-1", 2027, 10_000, 10_000),
              new PlanOutcome.Met("H-1", 2028, 10_000, 10_000)),
          List.of(new PlanOutcome.Sown("H-1", 2027, 2), new PlanOutcome.Sown("H-1", 2028, 2)),
          Map.of("L1", 114.0, "L2", 114.0));

  @Test
  void whatIsAsItWasIsNoDifference() {
    assertThat(PlanDifference.of(APPROVED, APPROVED, new Supply(List.of(), List.of())).isNone())
        .isTrue();
  }

  @Test
  void aLotThatNoLongerCountsIsNamedWithItsReasonAndWhatItTakes() {
    PlanOutcome now =
        new PlanOutcome(
            List.of(
                new PlanOutcome.Met("H-1", 2027, 10_000, 10_000),
                new PlanOutcome.Met("H-1", 2028, 10_000, 0)),
            List.of(new PlanOutcome.Sown("H-1", 2027, 2)),
            Map.of("L1", 114.0));
    PlanDifference difference =
        PlanDifference.of(
            APPROVED,
            now,
            new Supply(List.of(), List.of(new Supply.LeftOut("L2", 114, Supply.Reason.NOT_FIT))));
    assertThat(difference.isNone()).isFalse();
    assertThat(difference.demands())
        .containsExactly(new PlanDifference.OfDemand("H-1", 2028, 10_000, 10_000, 0));
    assertThat(difference.crops()).containsExactly(new PlanDifference.OfCrop("H-1", 2028, 2, 0));
    assertThat(difference.lots())
        .containsExactly(new PlanDifference.OfLot("L2", 114, 0, Supply.Reason.NOT_FIT));
  }
}
