package org.kornspur.ingest.chain;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.kornspur.ingest.seal.Hash;

/**
 * The piece of a chain between two checkpoints, with nothing of its records but their hashes.
 *
 * @param after the checkpoint before; empty where the chain begins
 * @param until the checkpoint behind
 * @param steps one for each link, in order
 */
public record ProvedSegment(Optional<Checkpoint> after, Checkpoint until, List<Step> steps) {

  public ProvedSegment {
    steps = List.copyOf(steps);
  }

  /** What a link is over, besides the link before it and the numbers. */
  public record Step(long offset, Hash content) {}

  /** The segment that these links are. */
  public static ProvedSegment of(
      Optional<Checkpoint> after, Checkpoint until, List<ChainLink> links) {
    List<Step> steps = new ArrayList<>();
    links.forEach(link -> steps.add(new Step(link.offset(), link.content())));
    return new ProvedSegment(after, until, steps);
  }

  /** Sequence of the link before its first. */
  public long afterSequence() {
    return after.map(Checkpoint::sequence).orElse(0L);
  }

  /** Whether its steps lead from one checkpoint to the other, in one partition. */
  public boolean leadsToItsEnd() {
    int partition = until.partition();
    if (after.isPresent() && after.get().partition() != partition) {
      return false;
    }
    Hash hash = after.map(Checkpoint::link).orElseGet(() -> ChainLink.genesis(partition));
    long sequence = afterSequence();
    for (Step step : steps) {
      sequence++;
      hash = ChainLink.hash(hash, partition, sequence, step.offset(), step.content());
    }
    return sequence == until.sequence() && hash.equals(until.link());
  }

  /** Whether a record of this content has this number and offset in it. */
  public boolean holds(long sequence, long offset, Hash content) {
    long index = sequence - afterSequence() - 1;
    return index >= 0
        && index < steps.size()
        && steps.get((int) index).equals(new Step(offset, content));
  }
}
