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
  private final DossierJudging judging =
      new DossierJudging(wire, () -> new Judge(id -> Optional.of(new NoLimits(id)), List.of()));

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
            .filter(one -> one.getInterval().equals(DossierJudging.LONGEST_WAIT))
            .findFirst()
            .orElseThrow();

    missing.getPunctuator().punctuate(START_MS);

    assertThat(sentTo(Dossiers.TO_STANDINGS)).isEqualTo(1);
    assertThat(marks.approximateNumEntries()).isZero();
  }

  private void filed(Set<String> parents) {
    judging.process(new Record<>(LOT, new DossierChange.OfFact(parents, Set.of()), START_MS));
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
