package org.kornspur.processors.stream;

import static org.assertj.core.api.Assertions.assertThat;
import static org.kornspur.processors.stream.InventedFacts.lot;

import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import org.apache.kafka.common.header.internals.RecordHeaders;
import org.apache.kafka.streams.test.TestRecord;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.kornspur.ingest.chain.ChainLink;
import org.kornspur.ingest.chain.Checkpoint;
import org.kornspur.ingest.chain.LogRecord;
import org.kornspur.ingest.seal.TrustedKeys;

class FactChainTest {
  private static final int CHECKPOINT_EVERY = DrivenTopology.SEAL.mostUnsigned();

  private final DrivenTopology topology = new DrivenTopology();

  @AfterEach
  void close() {
    topology.close();
  }

  @Test
  void everyRecordHasALinkWhateverBecomesOfIt() {
    topology
        .accept(lot("f1", "L1", 500), lot("f1", "L1", 500), lot("f1", "L1", 700))
        .pipe(null, new byte[] {1, 2})
        .pipe("k5", null);

    List<ChainLink> links = topology.newLinks();
    assertThat(links).extracting(ChainLink::sequence).containsExactly(1L, 2L, 3L, 4L, 5L);
    assertThat(links).extracting(ChainLink::offset).containsExactly(0L, 1L, 2L, 3L, 4L);
    assertThat(links).extracting(ChainLink::factId).containsExactly("f1", "f1", "f1", "", "k5");
    assertThat(topology.positions("f1"))
        .extracting(ChainPositions.Position::sequence)
        .containsExactly(1L, 2L, 3L);
    assertThat(topology.positions("f")).isEmpty();
  }

  @Test
  void theLinkIsOverTheRecordAsTheLogKeepsIt() {
    byte[] key = "f1".getBytes(StandardCharsets.UTF_8);
    byte[] value = {0, 9, 9};
    Instant sentAt = Instant.parse("2026-05-02T10:00:00.123Z");
    RecordHeaders headers = new RecordHeaders();
    headers.add("from", new byte[] {7});
    topology.pipe(new TestRecord<>(key, value, headers, sentAt));

    LogRecord kept =
        new LogRecord(
            0,
            0,
            sentAt.toEpochMilli(),
            key,
            value,
            List.of(new LogRecord.Header("from", new byte[] {7})));
    assertThat(topology.newLinks().get(0).content()).isEqualTo(kept.content());
  }

  @Test
  void aCheckpointIsSignedAfterSoManyRecordsAndAfterSoMuchTime() {
    for (int i = 0; i < CHECKPOINT_EVERY + 2; i++) {
      topology.accept(lot("f" + i, "L1", 500));
    }
    List<ChainLink> links = topology.newLinks();
    List<Checkpoint> byNumber = topology.newCheckpoints();
    assertThat(byNumber).hasSize(1);
    assertThat(byNumber.get(0).sequence()).isEqualTo(CHECKPOINT_EVERY);
    assertThat(byNumber.get(0).link()).isEqualTo(links.get(CHECKPOINT_EVERY - 1).link());

    topology.letPass(Duration.ofSeconds(11));
    List<Checkpoint> byTime = topology.newCheckpoints();
    assertThat(byTime).hasSize(1);
    assertThat(byTime.get(0).sequence()).isEqualTo(CHECKPOINT_EVERY + 2);
    assertThat(byTime.get(0).previous()).isEqualTo(byNumber.get(0).hash());
    TrustedKeys trusted = TrustedKeys.of(DrivenTopology.SEAL.key().publicKey());
    assertThat(byTime.get(0).isSignedBy(trusted)).isTrue();

    topology.letPass(Duration.ofSeconds(60));
    assertThat(topology.newCheckpoints()).as("nothing new, nothing to sign").isEmpty();
  }
}
