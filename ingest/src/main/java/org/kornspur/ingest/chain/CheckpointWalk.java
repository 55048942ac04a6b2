package org.kornspur.ingest.chain;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.kornspur.ingest.chain.LogFinding.Kind;
import org.kornspur.ingest.seal.TrustedKeys;

/**
 * Walks the checkpoints of one partition: which can be relied on, and what is wrong with others.
 */
final class CheckpointWalk {

  private final int partition;
  private final TrustedKeys trusted;
  private final List<LogFinding> findings = new ArrayList<>();
  private final Set<Kind> found = EnumSet.noneOf(Kind.class);

  CheckpointWalk(int partition, TrustedKeys trusted) {
    this.partition = partition;
    this.trusted = trusted;
  }

  List<LogFinding> findings() {
    return findings;
  }

  /**
   * The checkpoints to rely on, in order: those of the log, and those that were kept elsewhere.
   *
   * @param inLog in the order of the topic
   * @param keptElsewhere of this partition
   */
  List<Checkpoint> reliable(List<Checkpoint> inLog, List<Checkpoint> keptElsewhere) {
    List<Checkpoint> signed = new ArrayList<>();
    for (Checkpoint checkpoint : inLog) {
      if (isSigned(checkpoint)) {
        if (!signed.isEmpty() && checkpoint.number() <= signed.get(signed.size() - 1).number()) {
          note(
              Kind.CHECKPOINT_REORDERED,
              checkpoint,
              "a number after " + signed.get(signed.size() - 1).number(),
              "number " + checkpoint.number());
        } else {
          signed.add(checkpoint);
        }
      }
    }
    long numbersPresent = inLog.stream().mapToLong(Checkpoint::number).max().orElse(0);
    checkNoneMissing(inLog);
    for (Checkpoint kept : keptElsewhere) {
      if (isSigned(kept) && !signed.contains(kept)) {
        if (kept.number() > numbersPresent) {
          note(
              Kind.CHECKPOINT_REMOVED,
              kept,
              "checkpoint " + kept.number() + ", which was published",
              "a log whose checkpoints end with number " + numbersPresent);
        }
        signed.add(kept);
      }
    }
    signed.sort(Comparator.comparingLong(Checkpoint::number));
    return withoutForks(signed);
  }

  private boolean isSigned(Checkpoint checkpoint) {
    if (checkpoint.partition() != partition) {
      note(
          Kind.CHECKPOINT_REORDERED,
          checkpoint,
          "checkpoints of partition " + partition,
          "one of partition " + checkpoint.partition());
      return false;
    }
    if (!trusted.contains(checkpoint.keyId())) {
      note(
          Kind.UNKNOWN_KEY,
          checkpoint,
          trusted.keyIds().isEmpty()
              ? "a trusted key; none was given"
              : "one of the keys " + String.join(", ", trusted.keyIds()),
          "key " + checkpoint.keyId());
      return false;
    }
    if (!checkpoint.isSignedBy(trusted)) {
      note(
          Kind.BAD_SIGNATURE,
          checkpoint,
          "a signature of key " + checkpoint.keyId() + " over what the checkpoint says",
          "one over something else");
      return false;
    }
    return true;
  }

  /** Numbers have no gaps, whoever signed. */
  private void checkNoneMissing(List<Checkpoint> inLog) {
    long expected = 1;
    for (Checkpoint checkpoint : inLog) {
      if (checkpoint.number() > expected) {
        note(
            Kind.CHECKPOINT_REMOVED,
            checkpoint,
            "checkpoint " + expected + " before it",
            "checkpoint " + checkpoint.number());
      }
      expected = Math.max(expected, checkpoint.number()) + 1;
    }
  }

  private List<Checkpoint> withoutForks(List<Checkpoint> signed) {
    List<Checkpoint> reliable = new ArrayList<>();
    for (Checkpoint next : signed) {
      if (reliable.isEmpty()) {
        if (next.number() == 1 && !next.previous().equals(ChainLink.genesis(partition))) {
          note(Kind.CHECKPOINT_FORKED, next, "the genesis before it", next.previous().toString());
          continue;
        }
        reliable.add(next);
        continue;
      }
      Checkpoint last = reliable.get(reliable.size() - 1);
      boolean follows =
          next.number() == last.number() + 1
              ? next.previous().equals(last.hash())
              : next.number() > last.number();
      if (follows && next.sequence() > last.sequence()) {
        reliable.add(next);
      } else if (!next.hash().equals(last.hash())) {
        note(
            Kind.CHECKPOINT_FORKED,
            next,
            "one that follows checkpoint " + last.number() + " with hash " + last.hash(),
            "one that names " + next.previous() + " before it");
      }
    }
    return reliable;
  }

  private void note(Kind kind, Checkpoint checkpoint, String expected, String there) {
    if (found.add(kind)) {
      findings.add(
          new LogFinding(
              kind,
              partition,
              checkpoint.number(),
              checkpoint.offset(),
              "",
              expected,
              "%s (signed %s up to link %s)"
                  .formatted(there, checkpoint.signedAt(), checkpoint.sequence())));
    }
  }
}
