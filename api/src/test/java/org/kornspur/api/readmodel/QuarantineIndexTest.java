package org.kornspur.api.readmodel;

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

    assertThat(state()).isEqualTo(QuarantineState.DISCARDED);
    assertThat(index.find(Set.of(QuarantineState.HELD), row -> true, 1, 10).total()).isZero();
  }

  @Test
  void aDecisionReadBeforeItsEntryHolds() {
    put(decided(QuarantineState.REPLAYED));
    put(held(1));

    assertThat(state()).isEqualTo(QuarantineState.REPLAYED);
  }

  @Test
  void aDecisionMayFollowADecision() {
    put(decided(QuarantineState.DISCARDED));
    put(decided(QuarantineState.REPLAYED));

    assertThat(state()).isEqualTo(QuarantineState.REPLAYED);
  }

  @Test
  void whoSentItFirstStaysInWhateverOrderTheyAreRead() {
    put(sentBy("grower-b", 2));
    put(sentBy("grower-a", 1));
    put(sentBy("grower-b", 3));

    QuarantineRow row = index.find(Set.of(), each -> true, 1, 10).items().get(0);
    assertThat(row.receivedAt()).isEqualTo(Instant.ofEpochSecond(1));
    assertThat(row.place()).isEqualTo("request of grower-a");
    assertThat(row.senders()).containsExactlyInAnyOrder("grower-a", "grower-b");
    assertThat(index.bytes(row.entryId())).contains("grower-a".getBytes(StandardCharsets.UTF_8));
    assertThat(index.find(Set.of(), each -> true, 1, 10).total()).isEqualTo(1);
  }

  @Test
  void whoSendsItAfterTheDecisionIsAddedToIt() {
    put(decided(QuarantineState.DISCARDED));
    put(sentBy("grower-b", 2));

    assertThat(state()).isEqualTo(QuarantineState.DISCARDED);
    assertThat(index.senders(held(1).getEntryId())).containsExactly("grower-b");
  }

  @Test
  void whatWaitsIsFoundByAnyIdThatItNames() {
    put(naming("{\"lotId\": \"L26/7-A\", \"massKg\": 12O0}"));
    put(naming("sample-9;L26/7-A;100"));

    assertThat(index.waitingThatName("L26/7-A")).hasSize(2);
    assertThat(index.waitingThatName("sample-9")).hasSize(1);
    assertThat(index.waitingThatName("L26")).isEmpty();

    put(
        QuarantineEntry.newBuilder(naming("sample-9;L26/7-A;100"))
            .setState(QuarantineState.DISCARDED)
            .build());
    assertThat(index.waitingThatName("L26/7-A")).hasSize(1);
    assertThat(index.waitingThatName("sample-9")).isEmpty();
  }

  private static QuarantineEntry naming(String original) {
    return QuarantineEntries.held(
        QuarantineOrigin.FILE,
        "line of a file",
        Instant.ofEpochSecond(1),
        List.of(),
        null,
        original.getBytes(StandardCharsets.UTF_8));
  }

  private QuarantineState state() {
    return index.find(Set.of(), row -> true, 1, 10).items().get(0).state();
  }

  private static QuarantineEntry sentBy(String personId, int second) {
    return QuarantineEntry.newBuilder(held(second))
        .setPlace("request of " + personId)
        .setSubmittedBy(personId)
        .build();
  }

  private void put(QuarantineEntry entry) {
    String sender = entry.getSubmittedBy() == null ? "" : entry.getSubmittedBy();
    index.put(entry, sender.getBytes(StandardCharsets.UTF_8));
  }

  private static QuarantineEntry decided(QuarantineState state) {
    return QuarantineEntry.newBuilder(held(1)).setState(state).build();
  }

  private static QuarantineEntry held(int second) {
    return QuarantineEntries.held(
        QuarantineOrigin.FILE,
        "broken.csv:3",
        Instant.ofEpochSecond(second),
        List.of(Problem.recorded("massKg", "-5", "above 0 kg", "Weigh it")),
        null,
        "broken line".getBytes(StandardCharsets.UTF_8));
  }
}
