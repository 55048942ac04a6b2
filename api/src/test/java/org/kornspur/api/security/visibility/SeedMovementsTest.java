package org.kornspur.api.security.visibility;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import org.junit.jupiter.api.Test;
import org.kornspur.contract.FactHeader;
import org.kornspur.contract.FloweringPart;
import org.kornspur.contract.FloweringSeen;
import org.kornspur.ingest.contract.Subject;

class SeedMovementsTest {

  /** A grower tells of his own crops alone, so a fact names the crop that must be his. */
  @Test
  void whatWasSeenOfACropIsToldByWhoGrowsIt() {
    FloweringSeen seen =
        new FloweringSeen(
            new FactHeader("f1", "p1", Instant.EPOCH, Instant.EPOCH, "sheet", null, null),
            "C1",
            FloweringPart.FEMALE,
            61);

    assertThat(SeedMovements.workedOn(seen)).containsExactly(Subject.crop("C1"));
    assertThat(SeedMovements.takenFrom(seen)).isEmpty();
    assertThat(SeedMovements.made(seen)).isEmpty();
  }
}
