package org.kornspur.processors.stream;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.apache.kafka.common.serialization.Serde;
import org.apache.kafka.common.serialization.Serdes;
import org.apache.kafka.streams.processor.api.MockProcessorContext;
import org.apache.kafka.streams.processor.api.Record;
import org.apache.kafka.streams.state.KeyValueStore;
import org.apache.kafka.streams.state.Stores;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.registry.LocalSchemaRegistry;
import org.kornspur.ingest.wire.WireFormat;
import org.kornspur.processors.judging.Judge;

/** The processor alone, so that its reminder can be late or never come. */
class DossierJudgingTest {
  private static final Subject LOT = Subject.lot("L1");
  private static final long START_MS = 1_700_000_000_000L;

  private final WireFormat wire = new WireFormat(new LocalSchemaRegistry());
  private final MockProcessorContext<String, DossierRecord> context = new MockProcessorContext<>();
  private final KeyValueStore<String, byte[]> facts =
      store(StateStores.DOSSIER_FACTS, Serdes.ByteArray());
  private final KeyValueStore<String, String> marks =
      store(StateStores.DOSSIER_REMINDERS, Serdes.String());
  private final JudgingProgress others = new JudgingProgress();
  private final DossierJudging judging =
      new DossierJudging(
          wire, () -> new Judge(id -> Optional.of(new NoLimits(id)), List.of()), others);

  @BeforeEach
  void file() {
    store(StateStores.DOSSIER_REVOCATIONS, Serdes.String());
    store(StateStores.DOSSIER_REPORTS, Serdes.ByteArray());
    store(StateStores.DOSSIER_OUTBOX, Serdes.ByteArray());
    context.setCurrentSystemTimeMs(START_MS);
    facts.put(
        Keys.of(LOT, "f1"),
        wire.encode(Topics.FACTS.topicName(), InventedFacts.lot("f1", LOT.id(), 500)));
  }

  @Test
  void oneFactIsJudgedAtOnceWithoutAnyMark() {
    judging.init(context);
    filed(Set.of());

    assertThat(sentTo(Dossiers.TO_STANDINGS)).isEqualTo(1);
    assertThat(sentTo(Dossiers.TO_REPORTS)).isZero();
    assertThat(marks.approximateNumEntries()).isZero();
  }

  @Test
  void whatComesCloselyBehindIsMarkedWithOneReminderAndJudgedOnceWhenItIsBack() {
    judging.init(context);
    filed(Set.of());
    context.resetForwards();
    for (int more = 2; more < 50; more++) {
      facts.put(
          Keys.of(LOT, "f" + more),
          wire.encode(Topics.FACTS.topicName(), InventedFacts.lot("f" + more, LOT.id(), more)));
      filed(Set.of());
    }
    assertThat(sentTo(Dossiers.TO_STANDINGS)).isZero();
    assertThat(sentTo(Dossiers.TO_REPORTS)).isEqualTo(1);
    assertThat(marks.approximateNumEntries()).isEqualTo(1);

    judging.process(new Record<>(LOT, new DossierChange.Reminder(), START_MS));

    assertThat(sentTo(Dossiers.TO_STANDINGS)).isEqualTo(1);
    assertThat(sentTo(Dossiers.TO_REPORTS)).isEqualTo(1);
    assertThat(marks.approximateNumEntries()).isZero();
  }

  /** More facts of the same dossiers are on their way, as a rule. */
  @Test
  void ofALoadNothingIsJudgedWhileFactsComeIn() {
    judging.init(context);
    filed(Set.of());
    context.resetForwards();
    for (int lot = 0; lot <= DossierJudging.LOAD; lot++) {
      filed(loaded(lot));
    }

    judging.process(new Record<>(LOT, new DossierChange.Reminder(), START_MS));
    assertThat(sentTo(Dossiers.TO_STANDINGS)).isZero();
    judging.process(new Record<>(LOT, new DossierChange.Reminder(), START_MS));
    assertThat(sentTo(Dossiers.TO_STANDINGS)).isPositive();
  }

  @Test
  void aLoadThatDoesNotEndIsJudgedAllTheSame() {
    judging.init(context);
    filed(Set.of());
    context.resetForwards();
    for (int lot = 0; lot <= DossierJudging.LOAD; lot++) {
      filed(loaded(lot));
    }

    context.setCurrentSystemTimeMs(START_MS + DossierJudging.LONGEST_LOAD.toMillis());
    judging.process(new Record<>(LOT, new DossierChange.Reminder(), START_MS));
    assertThat(sentTo(Dossiers.TO_STANDINGS)).isPositive();
  }

  /** It is asked once, when the first of its results comes, and its word is waited for. */
  @Test
  void aMarkedLotAsksItsLaboratoryAndWaitsForIt() {
    judging.init(context);
    filed(Set.of());
    context.resetForwards();
    Subject tested = loaded(1);
    for (int result = 0; result < 3; result++) {
      judging.process(
          new Record<>(
              tested,
              new DossierChange.OfFact(Set.of(), Set.of(), Set.of("enterprise:LAB")),
              START_MS));
    }
    assertThat(sentTo(Dossiers.TO_REPORTS)).as("one question and the reminder").isEqualTo(2);

    judging.process(new Record<>(LOT, new DossierChange.Reminder(), START_MS));
    assertThat(sentTo(Dossiers.TO_STANDINGS)).isZero();
    judging.process(new Record<>(tested, new DossierChange.OfReport("enterprise:LAB"), START_MS));
    judging.process(new Record<>(LOT, new DossierChange.Reminder(), START_MS));
    assertThat(sentTo(Dossiers.TO_STANDINGS)).isEqualTo(1);
  }

  /** What other tasks of this instance judge may be the parent that is waited for. */
  @Test
  void aParentIsWaitedForWhileOtherTasksJudge() {
    judging.init(context);
    filed(Set.of("lot:LATE"));
    for (int reminder = 0; reminder < 20; reminder++) {
      others.judged();
      judging.process(new Record<>(LOT, new DossierChange.Reminder(), START_MS));
    }
    assertThat(sentTo(Dossiers.TO_STANDINGS)).isZero();

    context.setCurrentSystemTimeMs(START_MS + JudgingProgress.LONGEST_WAIT.toMillis() + 1);
    judging.process(new Record<>(LOT, new DossierChange.Reminder(), START_MS));
    assertThat(sentTo(Dossiers.TO_STANDINGS)).isEqualTo(1);
  }

  /** It may be among what another task has not come to yet. */
  @Test
  void aParentIsWaitedForLongerWhileSomeTaskIsBehind() {
    judging.init(context);
    filed(Set.of("lot:LATE"));
    long later = START_MS + JudgingProgress.LONGEST_WAIT.toMillis() + 1;
    context.setCurrentSystemTimeMs(later);
    others.note(later - JudgingProgress.BEHIND.toMillis() - 1, later);
    others.judged();
    judging.process(new Record<>(LOT, new DossierChange.Reminder(), START_MS));
    assertThat(sentTo(Dossiers.TO_STANDINGS)).isZero();

    context.setCurrentSystemTimeMs(later + JudgingProgress.LONGEST_WAIT.toMillis());
    others.judged();
    judging.process(new Record<>(LOT, new DossierChange.Reminder(), START_MS));
    assertThat(sentTo(Dossiers.TO_STANDINGS)).as("no task is behind any more").isEqualTo(1);
  }

  @Test
  void aParentIsNotWaitedForWithoutEndInALoadThatDoesNotEnd() {
    judging.init(context);
    filed(Set.of("lot:LATE"));
    long later = START_MS + JudgingProgress.LONGEST_WAIT_IN_A_LOAD.toMillis() + 1;
    context.setCurrentSystemTimeMs(later);
    others.note(0, later);
    others.judged();
    judging.process(new Record<>(LOT, new DossierChange.Reminder(), START_MS));
    assertThat(sentTo(Dossiers.TO_STANDINGS)).isEqualTo(1);
  }

  /** On a slow machine much time passes between records, and much waits all the same. */
  @Test
  void whatWaitedIsMarkedHoweverSlowlyRecordsAreProcessed() {
    judging.init(context);
    context.setCurrentSystemTimeMs(START_MS + DossierJudging.LONGEST_ON_ITS_WAY.toMillis() + 1);
    filed(Set.of());

    assertThat(sentTo(Dossiers.TO_STANDINGS)).isZero();
    assertThat(sentTo(Dossiers.TO_REPORTS)).isEqualTo(1);
  }

  /** A parent that cannot be judged tells nothing. */
  @Test
  void nobodyIsWaitedForLongerThanSomeReminders() {
    judging.init(context);
    filed(Set.of("lot:SILENT"));
    int reminders = 0;
    while (sentTo(Dossiers.TO_STANDINGS) == 0) {
      judging.process(new Record<>(LOT, new DossierChange.Reminder(), START_MS));
      reminders++;
      assertThat(reminders).isLessThan(10);
    }

    assertThat(reminders).isGreaterThan(1);
    assertThat(marks.approximateNumEntries()).isZero();
  }

  /** As one that went to another partition, or one that an earlier process sent. */
  @Test
  void whatIsMarkedIsJudgedThoughItsReminderNeverComesBack() {
    marks.put(LOT.toString(), "to be judged");
    judging.init(context);
    var missing =
        context.scheduledPunctuators().stream()
            .filter(one -> one.getInterval().equals(DossierJudging.LONGEST_REMINDED))
            .findFirst()
            .orElseThrow();

    missing.getPunctuator().punctuate(START_MS);

    assertThat(sentTo(Dossiers.TO_STANDINGS)).isEqualTo(1);
    assertThat(marks.approximateNumEntries()).isZero();
  }

  private Subject loaded(int number) {
    Subject lot = Subject.lot("LOADED-" + number);
    facts.put(
        Keys.of(lot, "f" + number),
        wire.encode(
            Topics.FACTS.topicName(), InventedFacts.lot("f" + number, lot.id(), 1 + number)));
    return lot;
  }

  private void filed(Subject lot) {
    judging.process(
        new Record<>(lot, new DossierChange.OfFact(Set.of(), Set.of(), Set.of()), START_MS));
  }

  private void filed(Set<String> parents) {
    judging.process(
        new Record<>(LOT, new DossierChange.OfFact(parents, Set.of(), Set.of()), START_MS));
  }

  private long sentTo(String sink) {
    return context.forwarded(sink).size();
  }

  private <V> KeyValueStore<String, V> store(String name, Serde<V> values) {
    KeyValueStore<String, V> store =
        Stores.keyValueStoreBuilder(Stores.inMemoryKeyValueStore(name), Serdes.String(), values)
            .withLoggingDisabled()
            .withCachingDisabled()
            .build();
    context.addStateStore(store);
    store.init(context.getStateStoreContext(), store);
    return store;
  }
}
