package org.kornspur.api.feed;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.kornspur.contract.QuarantineEntry;
import org.kornspur.contract.QuarantineOrigin;
import org.kornspur.contract.QuarantineState;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.intake.QuarantineEntries;

class QuarantineIndexTest {
  private final QuarantineIndex index = new QuarantineIndex();

  @Test
  void theSameInputRefusedAgainDoesNotUndoWhatWasDecided() {
    put(held(1));
    put(decided(QuarantineState.DISCARDED));
    put(held(2));

    assertThat(index.stateOf(held(1).getEntryId())).contains(QuarantineState.DISCARDED);
    assertThat(index.find(Set.of(QuarantineState.HELD), row -> true, 1, 10).total()).isZero();
  }

  @Test
  void aDecisionReadBeforeItsEntryHolds() {
    put(decided(QuarantineState.REPLAYED));
    put(held(1));

    assertThat(index.stateOf(held(1).getEntryId())).contains(QuarantineState.REPLAYED);
  }

  @Test
  void aDecisionMayFollowADecision() {
    put(decided(QuarantineState.DISCARDED));
    put(decided(QuarantineState.REPLAYED));

    assertThat(index.stateOf(held(1).getEntryId())).contains(QuarantineState.REPLAYED);
  }

  private void put(QuarantineEntry entry) {
    index.put(entry, new byte[] {1});
  }

  private static QuarantineEntry decided(QuarantineState state) {
    return QuarantineEntry.newBuilder(held(1)).setState(state).build();
  }

  private static QuarantineEntry held(int second) {
    return QuarantineEntries.held(
        QuarantineOrigin.FILE,
        "broken.csv:3",
        Instant.ofEpochSecond(second),
        List.of(new Problem("massKg", "-5", "above 0 kg", "Weigh it")),
        null,
        "broken line".getBytes(StandardCharsets.UTF_8));
  }
}
