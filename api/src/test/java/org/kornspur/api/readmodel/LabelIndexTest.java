package org.kornspur.api.readmodel;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.kornspur.api.readmodel.LabelIndex.Found;
import org.kornspur.api.readmodel.LabelIndex.Place;
import org.kornspur.contract.Dispatch;
import org.kornspur.contract.FactHeader;

/** All numbers here are invented. */
class LabelIndexTest {
  private final LabelIndex labels = new LabelIndex();

  private static Dispatch dispatch(String factId, String lotId, String... numbers) {
    Instant at = Instant.parse("2025-08-15T09:35:00Z");
    return new Dispatch(
        new FactHeader(factId, "tester", at, at, "note", null, null),
        lotId,
        "C",
        100.0,
        List.of(numbers));
  }

  @Test
  void aNumberLeadsToItsDispatchWhateverBlanksAndCase() {
    labels.put(dispatch("d1", "L1", "INV-000100", "INV-000110"));
    assertThat(labels.find(" inv-000 100 "))
        .containsExactly(new Found(new Place("L1", "d1"), true));
  }

  @Test
  void whatLiesBetweenTheFirstAndTheLastIsFoundAndSaidToLieBetween() {
    labels.put(dispatch("d1", "L1", "INV-000100", "INV-000110"));
    labels.put(dispatch("d2", "L2", "INV-000111", "INV-000120"));
    assertThat(labels.find("INV-000105")).containsExactly(new Found(new Place("L1", "d1"), false));
    assertThat(labels.find("INV-000121")).isEmpty();
    assertThat(labels.find("INV-105")).isEmpty();
    assertThat(labels.find("OTHER-000105")).isEmpty();
  }

  @Test
  void threeNumbersAreThreeNumbersAndNoRun() {
    labels.put(dispatch("d1", "L1", "N-1", "N-5", "N-9"));
    assertThat(labels.find("N-9")).hasSize(1);
    assertThat(labels.find("N-6")).isEmpty();
  }

  @Test
  void aLabelOnTwoDispatchesLeadsToBothAndARepeatCountsOnce() {
    labels.put(dispatch("d1", "L1", "N-1"));
    labels.put(dispatch("d1", "L1", "N-1"));
    labels.put(dispatch("d2", "L2", "N-1"));
    assertThat(labels.find("N-1"))
        .containsExactly(
            new Found(new Place("L1", "d1"), true), new Found(new Place("L2", "d2"), true));
  }
}
