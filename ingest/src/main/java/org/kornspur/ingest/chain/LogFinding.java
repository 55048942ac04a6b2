package org.kornspur.ingest.chain;

/**
 * The first place at which a log, its chain or its checkpoints are not what was signed.
 *
 * @param sequence number in the chain (for checkpoints their own number); 0 where it has none
 * @param offset in the log; -1 where it is not known
 * @param factId key of the record; empty where it is not known
 * @param expected what was chained or signed, in words or as a hash
 * @param found what is there
 */
public record LogFinding(
    Kind kind,
    int partition,
    long sequence,
    long offset,
    String factId,
    String expected,
    String found) {

  /** What was done. */
  public enum Kind {
    PARTITION_REMOVED(true, "A whole partition of the facts is missing"),
    RECORD_ALTERED(true, "A record was altered"),
    RECORD_REMOVED(true, "A record was removed"),
    RECORD_INSERTED(true, "A record was inserted that was never chained"),
    RECORD_REORDERED(true, "A record stands in another place than the one that was chained"),
    CHAIN_REMADE(true, "Records and their links were made again after they were signed"),
    LINK_ALTERED(false, "A link was altered; the records that it stands for are intact"),
    LINK_REMOVED(false, "A link was removed; the records that it stands for are intact"),
    LINK_INSERTED(false, "A link was inserted or moved; the records are intact"),
    BAD_SIGNATURE(false, "A checkpoint does not bear the signature of the key that it names"),
    UNKNOWN_KEY(false, "A checkpoint is signed by a key that is not trusted"),
    CHECKPOINT_REMOVED(false, "A checkpoint was removed"),
    CHECKPOINT_REORDERED(false, "A checkpoint stands out of its order, or twice"),
    CHECKPOINT_FORKED(false, "Two checkpoints were signed that contradict each other");

    private final boolean touchesRecords;
    private final String sentence;

    Kind(boolean touchesRecords, String sentence) {
      this.touchesRecords = touchesRecords;
      this.sentence = sentence;
    }

    /** What was done, in words. */
    public String sentence() {
      return sentence;
    }

    /** Whether it is about facts themselves, and not only about what proves them. */
    public boolean touchesRecords() {
      return touchesRecords;
    }
  }

  static LogFinding at(ChainLink link, Kind kind, String expected, String found) {
    return new LogFinding(
        kind, link.partition(), link.sequence(), link.offset(), link.factId(), expected, found);
  }

  /** The same with other words for what is there. */
  LogFinding found(String what) {
    return new LogFinding(kind, partition, sequence, offset, factId, expected, what);
  }

  /** What, where, expected and found, in one sentence for a person. */
  public String sentence() {
    StringBuilder text = new StringBuilder(kind.sentence());
    text.append(": partition ").append(partition);
    if (offset >= 0) {
      text.append(", offset ").append(offset);
    }
    if (sequence > 0) {
      text.append(", number ").append(sequence);
    }
    if (!factId.isEmpty()) {
      text.append(", fact ").append(factId);
    }
    return text.append(". Expected ")
        .append(expected)
        .append("; found ")
        .append(found)
        .append('.')
        .toString();
  }
}
