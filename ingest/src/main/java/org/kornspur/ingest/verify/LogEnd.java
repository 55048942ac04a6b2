package org.kornspur.ingest.verify;

import java.util.Optional;
import java.util.stream.LongStream;
import org.kornspur.ingest.chain.ChainLink;
import org.kornspur.ingest.chain.Checkpoint;

/**
 * How far a partition of the facts goes, and how far others say that it went. Found without reading
 * the log, so it can show that records are missing at either end, never that all between are there.
 *
 * @param begin offset of the first record that is there, which is 0 as nothing is ever deleted
 * @param end offset after the last record that is there; 0 where the partition is not
 * @param link newest link of the chain
 * @param checkpoint newest checkpoint
 * @param processed offset up to which the processors took the facts; 0 where they took none
 */
public record LogEnd(
    int partition,
    long begin,
    long end,
    Optional<ChainLink> link,
    Optional<Checkpoint> checkpoint,
    long processed) {

  /** The least offset at which the partition can end. */
  public long expectedEnd() {
    return LongStream.of(
            link.map(newest -> newest.offset() + 1).orElse(0L),
            checkpoint.map(newest -> newest.offset() + 1).orElse(0L),
            processed)
        .max()
        .orElse(0);
  }

  /** How many offsets are missing, at the begin and at the end. */
  public long missing() {
    return begin + Math.max(0, expectedEnd() - Math.max(begin, end));
  }
}
