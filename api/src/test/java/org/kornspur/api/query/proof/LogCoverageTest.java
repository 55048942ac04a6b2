package org.kornspur.api.query.proof;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.kornspur.ingest.chain.ChainHead;
import org.kornspur.ingest.chain.ChainLink;
import org.kornspur.ingest.chain.Checkpoint;
import org.kornspur.ingest.chain.LogRecord;
import org.kornspur.ingest.seal.Hash;
import org.kornspur.ingest.seal.SigningKey;
import org.kornspur.processors.stream.ChainPositions.Position;

/**
 * A signed head covers the records up to its size and none behind it; source: RFC 9162, section
 * 2.1.3 and 4.10, on signed heads of logs (from memory). Chains and signatures here are real ones.
 */
class LogCoverageTest {
  private static final SigningKey KEY = SigningKey.random();

  /** A chain of so many records, signed after each of these. */
  private static List<Checkpoint> chain(int partition, int records, List<Integer> signedAfter) {
    List<Checkpoint> checkpoints = new ArrayList<>();
    ChainHead head = ChainHead.start(partition);
    for (int i = 1; i <= records; i++) {
      Hash content = Hash.in("test").add(i).done();
      ChainLink link = head.link(new LogRecord.Entry(partition, i, "fact-" + i, content));
      head = head.with(link);
      if (signedAfter.contains(i)) {
        Checkpoint checkpoint = head.sign(KEY, Instant.parse("2025-06-01T10:00:00Z"));
        head = head.with(checkpoint);
        checkpoints.add(checkpoint);
      }
    }
    return checkpoints;
  }

  private record Kept(List<Checkpoint> all) implements LogCoverage.Checkpoints {
    @Override
    public Optional<Checkpoint> newestCheckpoint(int partition) {
      return all.stream().filter(one -> one.partition() == partition).reduce((a, b) -> b);
    }

    @Override
    public Optional<Checkpoint> checkpointOver(int partition, long sequence) {
      return all.stream()
          .filter(one -> one.partition() == partition && one.sequence() >= sequence)
          .findFirst();
    }
  }

  private static List<Position> at(int partition, long... sequences) {
    List<Position> positions = new ArrayList<>();
    for (long sequence : sequences) {
      positions.add(new Position(partition, sequence, sequence));
    }
    return positions;
  }

  @Test
  void theFirstCheckpointOverAllFactsOfAPartitionIsNamed() {
    Kept kept = new Kept(chain(0, 9, List.of(3, 6, 9)));
    LogCoverage cover = LogCoverage.of(Map.of("a", at(0, 2), "b", at(0, 5)), kept);
    assertThat(cover.whole()).isTrue();
    assertThat(cover.checkpoints()).extracting(Checkpoint::sequence).containsExactly(6L);
    assertThat(cover.partitions().get(0).covered()).isEqualTo(2);
  }

  @Test
  void eachPartitionHasItsOwn() {
    List<Checkpoint> both = new ArrayList<>(chain(1, 4, List.of(4)));
    both.addAll(chain(0, 2, List.of(2)));
    LogCoverage cover = LogCoverage.of(Map.of("a", at(1, 4), "b", at(0, 1)), new Kept(both));
    assertThat(cover.partitions())
        .extracting(LogCoverage.InPartition::partition)
        .containsExactly(0, 1);
    assertThat(cover.checkpoints()).extracting(Checkpoint::partition).containsExactly(0, 1);
  }

  @Test
  void whatNoCheckpointCoversYetIsNamed() {
    Kept kept = new Kept(chain(0, 9, List.of(3)));
    LogCoverage cover =
        LogCoverage.of(
            Map.of("old", at(0, 1), "newest", at(0, 8), "new", at(0, 4), "loose", List.of()), kept);
    assertThat(cover.whole()).isFalse();
    assertThat(cover.checkpoints()).extracting(Checkpoint::sequence).containsExactly(3L);
    assertThat(cover.partitions().get(0).notCovered()).containsExactly("new", "newest");
    assertThat(cover.notChained()).containsExactly("loose");
  }

  @Test
  void withoutAnyCheckpointNothingIsCovered() {
    LogCoverage cover = LogCoverage.of(Map.of("a", at(0, 1)), new Kept(List.of()));
    assertThat(cover.whole()).isFalse();
    assertThat(cover.partitions().get(0).checkpoint()).isEmpty();
    assertThat(cover.partitions().get(0).covered()).isZero();
  }

  /** A second record under the same id may be the one that counts. */
  @Test
  void aFactThatWasSentAgainIsCoveredOnlyWithItsLastRecord() {
    Kept kept = new Kept(chain(0, 9, List.of(3)));
    LogCoverage cover = LogCoverage.of(Map.of("twice", at(0, 2, 7)), kept);
    assertThat(cover.partitions().get(0).notCovered()).containsExactly("twice");
  }
}
