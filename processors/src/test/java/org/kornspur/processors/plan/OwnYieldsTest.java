package org.kornspur.processors.plan;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.kornspur.processors.plan.OwnYields.Grown;

/** Crops are invented. */
class OwnYieldsTest {

  /** 1,000 to 1,400 kg/ha in steps of 100: by definition 7 the tenth is 1,040, the ninth 1,360. */
  @Test
  void threeSeasonsTellTheSpread() {
    List<Grown> crops = new ArrayList<>();
    for (int i = 0; i < 5; i++) {
      crops.add(new Grown(Generation.FERTILE_LINE, 2023 + i % 3, 2, 2 * (1000 + 100 * i)));
    }
    assertThat(OwnYields.of(crops))
        .containsExactly(new OwnYields(Generation.FERTILE_LINE, 3, 5, 1040, 1200, 1360));
  }

  @Test
  void twoSeasonsTellNothingAndACropWithoutAreaOrHarvestIsNone() {
    List<Grown> crops = new ArrayList<>();
    for (int i = 0; i < 8; i++) {
      crops.add(new Grown(Generation.F1_SEED, 2023 + i % 2, 2, 10_000));
    }
    crops.add(new Grown(Generation.F1_SEED, 2025, 0, 10_000));
    crops.add(new Grown(Generation.F1_SEED, 2026, 2, 0));
    assertThat(OwnYields.of(crops)).isEmpty();
  }
}
