package org.kornspur.processors.gates;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.EnumSet;
import org.junit.jupiter.api.Test;
import org.kornspur.processors.verdict.Gate;

/** Each gate says which it is, so that one that breaks owes evidence under its own name. */
class GatesTest {

  @Test
  void everyGateIsThereOnceUnderItsOwnName() {
    EnumSet<Gate> ruled = EnumSet.allOf(Gate.class);
    ruled.remove(Gate.CONDEMNATION);
    ruled.remove(Gate.CONDEMNATION_OF_SEED);

    assertThat(Gates.all()).extracting(GateRule::gate).containsExactlyInAnyOrderElementsOf(ruled);
  }
}
