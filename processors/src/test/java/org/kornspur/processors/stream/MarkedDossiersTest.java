package org.kornspur.processors.stream;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Set;
import java.util.stream.IntStream;
import org.apache.kafka.common.header.internals.RecordHeaders;
import org.apache.kafka.common.serialization.Serdes;
import org.apache.kafka.streams.processor.api.MockProcessorContext;
import org.apache.kafka.streams.state.KeyValueIterator;
import org.apache.kafka.streams.state.KeyValueStore;
import org.apache.kafka.streams.state.Stores;
import org.junit.jupiter.api.Test;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.standing.StandingState;

class MarkedDossiersTest {
  private static final Subject ONE = Subject.lot("ONE");
  private static final Subject TWO = Subject.lot("TWO");

  private final KeyValueStore<String, String> store = store();

  @Test
  void theFirstMarkedIsTheFirstDueHoweverOftenItIsMarked() {
    MarkedDossiers marked = new MarkedDossiers(store);
    marked.mark(ONE, Set.of(), 1);
    marked.mark(TWO, Set.of(), 2);
    marked.mark(ONE, Set.of(), 3);

    assertThat(marked.due(0, 10)).containsExactly(ONE, TWO);
    assertThat(marked.due(0, 1)).containsExactly(ONE);
  }

  @Test
  void aDossierWaitsForTheFirstWordOfEachParentButNotForEver() {
    MarkedDossiers marked = new MarkedDossiers(store);
    marked.mark(ONE, Set.of("lot:P1"), 1);
    marked.mark(ONE, Set.of("lot:P2"), 2);
    marked.heard(ONE, "lot:P1", 20);

    assertThat(marked.waits(ONE)).isTrue();
    assertThat(marked.due(1, 10)).isEmpty();
    assertThat(marked.due(2, 10)).containsExactly(ONE);
    marked.heard(ONE, "lot:P2", 30);
    assertThat(marked.due(0, 10)).containsExactly(ONE);
  }

  /** By it is seen how far the judging is behind: who waits for a parent is no work left undone. */
  @Test
  void theOldestThatIsReadyIsOldSinceItHeardOfItsLastParent() {
    MarkedDossiers marked = new MarkedDossiers(store);
    assertThat(marked.oldestReadyMs(5)).isEqualTo(5);
    marked.mark(ONE, Set.of("lot:P1"), 10);
    assertThat(marked.oldestReadyMs(15)).isEqualTo(15);
    marked.heard(ONE, "lot:P1", 20);
    marked.mark(TWO, Set.of(), 30);

    assertThat(marked.ready()).isEqualTo(2);
    assertThat(marked.oldestReadyMs(40)).isEqualTo(20);
    marked.unmark(ONE);
    assertThat(marked.oldestReadyMs(40)).isEqualTo(30);
  }

  /** The process is killed with marks in the store, and nobody would mark them again. */
  @Test
  void whatIsMarkedStaysMarkedWhenTheTaskBeginsAnewUntilItIsJudged() {
    MarkedDossiers before = new MarkedDossiers(store);
    before.mark(ONE, Set.of("lot:P1"), 1);
    before.mark(TWO, Set.of(), 1);
    before.unmark(TWO);

    MarkedDossiers after = new MarkedDossiers(store);
    assertThat(after.due(0, 10)).as("TWO shares its batch and is judged again").contains(ONE);
    after.due(0, 10).forEach(after::unmark);
    assertThat(new MarkedDossiers(store).isEmpty()).isTrue();
  }

  @Test
  void whatTheEarlierReleaseNotedIsJudgedOnce() {
    store.put("lot:ONE", "nothing new");
    store.put("lot:TWO", "to be judged");
    MarkedDossiers marked = new MarkedDossiers(store);

    assertThat(marked.due(0, 10)).containsExactlyInAnyOrder(ONE, TWO);
    marked.unmark(ONE);
    marked.unmark(TWO);
    assertThat(new MarkedDossiers(store).isEmpty()).isTrue();
    assertThat(store.get("lot:ONE")).isNull();
  }

  /** Of each key the store writes one record a commit. */
  @Test
  void manyMarksAreFewKeys() {
    MarkedDossiers marked = new MarkedDossiers(store);
    int many = 10 * MarkedDossiers.MOST_IN_A_BATCH;
    IntStream.range(0, many).forEach(i -> marked.mark(Subject.lot("L" + i), Set.of(), i));
    assertThat(kept()).isEqualTo(10);

    List<Subject> due = marked.due(0, many);
    assertThat(due).hasSize(many);
    due.forEach(marked::unmark);

    assertThat(kept()).isZero();
    marked.mark(ONE, Set.of(), 1);
    assertThat(new MarkedDossiers(store).due(0, 10)).containsExactly(ONE);
  }

  @Test
  void aDossierThatIsMarkedAgainAfterItWasJudgedIsNotForgotten() {
    MarkedDossiers before = new MarkedDossiers(store);
    before.mark(ONE, Set.of(), 1);
    before.mark(TWO, Set.of(), 1);
    before.unmark(ONE);
    before.mark(ONE, Set.of(), 2);
    before.unmark(TWO);

    MarkedDossiers after = new MarkedDossiers(store);
    assertThat(after.due(0, 10)).contains(ONE);
    after.mark(Subject.lot("THREE"), Set.of(), 3);
    after.unmark(ONE);
    after.unmark(TWO);
    assertThat(new MarkedDossiers(store).due(0, 10)).containsExactly(Subject.lot("THREE"));
  }

  @Test
  void aDossierInTwoBatchesLeavesNoneBehind() {
    store.put("batch-0000000000000000001", "lot:ONE|lot:TWO");
    store.put("batch-0000000000000000002", "lot:ONE");
    MarkedDossiers marked = new MarkedDossiers(store);

    marked.due(0, 10).forEach(marked::unmark);

    assertThat(kept()).isZero();
  }

  private long kept() {
    try (KeyValueIterator<String, String> all = store.all()) {
      long count = 0;
      for (; all.hasNext(); all.next()) {
        count++;
      }
      return count;
    }
  }

  /** Its reminders may still lie on the topic. */
  @Test
  void aReminderThatNobodyWaitsForDoesNoHarm() {
    try (DrivenTopology topology = new DrivenTopology()) {
      topology.accept(InventedFacts.lot("f1", "ONE", 500));
      topology.newStandings();
      for (String subject : List.of("lot:ONE", "lot:UNKNOWN")) {
        topology.pipe(
            Topics.REPORTS,
            System.currentTimeMillis(),
            subject.getBytes(StandardCharsets.UTF_8),
            "{\"sender\":\"reminder\"}".getBytes(StandardCharsets.UTF_8),
            new RecordHeaders());
      }

      assertThat(topology.newStandings()).isEmpty();
      assertThat(topology.skipped.total()).isZero();
      assertThat(topology.standing(ONE).getState()).isEqualTo(StandingState.FIT);
    }
  }

  private static KeyValueStore<String, String> store() {
    KeyValueStore<String, String> store =
        Stores.keyValueStoreBuilder(
                Stores.inMemoryKeyValueStore(StateStores.DOSSIER_REMINDERS),
                Serdes.String(),
                Serdes.String())
            .withLoggingDisabled()
            .withCachingDisabled()
            .build();
    store.init(new MockProcessorContext<>().getStateStoreContext(), store);
    return store;
  }
}
