package org.kornspur.processors.stream;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import org.apache.kafka.common.serialization.Serdes;
import org.apache.kafka.streams.KeyValue;
import org.apache.kafka.streams.processor.api.MockProcessorContext;
import org.apache.kafka.streams.state.KeyValueStore;
import org.apache.kafka.streams.state.Stores;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.kornspur.ingest.contract.Subject;

/** How the memory of what was sent lies in its store. */
class LastSentReportsTest {
  private static final Subject SENDER = Subject.lot("L1");
  private static final String SINK = "to-reports";
  private static final Set<String> OTHERS = Set.of("rules", "faults");

  private final KeyValueStore<String, byte[]> store =
      Stores.keyValueStoreBuilder(
              Stores.inMemoryKeyValueStore("sent"), Serdes.String(), Serdes.ByteArray())
          .withLoggingDisabled()
          .withCachingDisabled()
          .build();

  @BeforeEach
  void open() {
    MockProcessorContext<String, String> context = new MockProcessorContext<>();
    context.addStateStore(store);
    store.init(context.getStateStoreContext(), store);
    store.put("lot:L10|to-reports|lot:X", bytes(99));
    store.put("lot:L1|rules|", bytes(7));
  }

  private LastSentReports letters() {
    return new LastSentReports(store, SENDER, OTHERS, LastSentReports.MOST_ON_A_PAGE);
  }

  @Test
  void aFewLettersTakeOneRecord() {
    LastSentReports letters = letters();
    letters.put(SINK, "lot:A", bytes(1));
    letters.put(SINK, "lot:B", bytes(2));
    letters.put("to-edges", "up|lot:L1|lot:A|f", bytes(3));
    letters.keep();

    assertThat(keys()).containsExactly("lot:L1|rules|", "lot:L1|sent|");
    assertThat(letters().on(SINK)).containsOnlyKeys("lot:A", "lot:B");
    assertThat(letters().on("to-edges").get("up|lot:L1|lot:A|f")).isEqualTo(bytes(3));
    assertThat(letters().others()).containsOnlyKeys("lot:L1|rules|");
  }

  /** As the release before kept them: a record for each letter, under sender, way and addressee. */
  @Test
  void lettersOfTheReleaseBeforeAreRememberedAndComeToThePage() {
    store.put("lot:L1|to-reports|lot:A", bytes(1));
    store.put("lot:L1|to-standings|lot:L1", bytes(2));

    LastSentReports letters = letters();
    assertThat(letters.on(SINK).get("lot:A")).isEqualTo(bytes(1));
    letters.keep();
    assertThat(keys()).as("nothing new, nothing written").hasSize(3);

    letters.put(SINK, "lot:B", bytes(3));
    letters.keep();
    assertThat(keys()).containsExactly("lot:L1|rules|", "lot:L1|sent|");
    assertThat(letters().on("to-standings").get("lot:L1")).isEqualTo(bytes(2));
    assertThat(letters().on(SINK)).containsOnlyKeys("lot:A", "lot:B");
  }

  @Test
  void whoWritesToManyHasARecordForEachAndNoPage() {
    LastSentReports few = letters();
    few.put(SINK, "lot:first", bytes(0));
    few.keep();
    LastSentReports many = letters();
    for (int i = 0; i < LastSentReports.MOST_ON_A_PAGE; i++) {
      many.put(SINK, "lot:" + i, bytes(i));
    }
    many.keep();

    assertThat(keys()).hasSize(LastSentReports.MOST_ON_A_PAGE + 2).doesNotContain("lot:L1|sent|");
    assertThat(letters().on(SINK)).hasSize(LastSentReports.MOST_ON_A_PAGE + 1);

    LastSentReports fewer = letters();
    fewer.remove(SINK, "lot:first");
    fewer.keep();
    assertThat(keys()).containsExactly("lot:L1|rules|", "lot:L1|sent|");
    assertThat(letters().on(SINK)).hasSize(LastSentReports.MOST_ON_A_PAGE);
  }

  @Test
  void whoIsLookedUpLetterByLetterHasNoPage() {
    LastSentReports letters = new LastSentReports(store, SENDER, OTHERS, 0);
    letters.put(SINK, "lot:A", bytes(1));
    letters.keep();

    assertThat(store.get("lot:L1|to-reports|lot:A")).isEqualTo(bytes(1));
  }

  @Test
  void theLastLetterTakesThePageWithIt() {
    LastSentReports letters = letters();
    letters.put(SINK, "lot:A", bytes(1));
    letters.keep();
    LastSentReports gone = letters();
    gone.remove(SINK, "lot:A");
    gone.keep();

    assertThat(keys()).containsExactly("lot:L1|rules|");
  }

  @Test
  void aPageThatIsDamagedCountsAsNotSentWhereItIs() {
    LastSentReports letters = letters();
    letters.put(SINK, "lot:A", bytes(1));
    letters.put(SINK, "lot:B", bytes(2));
    letters.keep();
    byte[] whole = store.get("lot:L1|sent|");
    store.put("lot:L1|sent|", Arrays.copyOf(whole, whole.length - 7));

    assertThat(letters().on(SINK)).containsOnlyKeys("lot:A");
  }

  private List<String> keys() {
    List<String> keys = new ArrayList<>();
    for (KeyValue<String, byte[]> entry : Keys.scan(store, "lot:L1|")) {
      keys.add(entry.key);
    }
    return keys;
  }

  private static byte[] bytes(int number) {
    return new byte[] {(byte) number, 1, 2};
  }
}
