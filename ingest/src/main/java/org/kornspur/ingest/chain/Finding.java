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
public record Finding(
    Kind kind,
    int partition,
    long sequence,
    long offset,
    String factId,
    String expected,
    String found) {

  /** What was done. */
  public enum Kind {
    PARTITION_REMOVED("A whole partition of the facts is missing"),
    RECORD_ALTERED("A record was altered"),
    RECORD_REMOVED("A record was removed"),
    RECORD_INSERTED("A record was inserted that was never chained"),
    RECORD_REORDERED("A record stands in another place than the one that was chained"),
    CHAIN_REMADE("Records and their links were made again after they were signed"),
    LINK_ALTERED("A link was altered; the records that it stands for are intact"),
    LINK_REMOVED("A link was removed; the records that it stands for are intact"),
    LINK_INSERTED("A link was inserted or moved; the records are intact"),
    BAD_SIGNATURE("A checkpoint does not bear the signature of the key that it names"),
    UNKNOWN_KEY("A checkpoint is signed by a key that is not trusted"),
    CHECKPOINT_REMOVED("A checkpoint was removed"),
    CHECKPOINT_REORDERED("A checkpoint stands out of its order, or twice"),
    CHECKPOINT_FORKED("Two checkpoints were signed that contradict each other");

    private final String sentence;

    Kind(String sentence) {
      this.sentence = sentence;
    }

    /** What was done, in words. */
    public String sentence() {
      return sentence;
    }

    /** Whether it is about facts themselves, and not only about what proves them. */
    public boolean touchesRecords() {
      return switch (this) {
        case PARTITION_REMOVED,
            RECORD_ALTERED,
            RECORD_REMOVED,
            RECORD_INSERTED,
            RECORD_REORDERED,
            CHAIN_REMADE ->
            true;
        case LINK_ALTERED,
            LINK_REMOVED,
            LINK_INSERTED,
            BAD_SIGNATURE,
            UNKNOWN_KEY,
            CHECKPOINT_REMOVED,
            CHECKPOINT_REORDERED,
            CHECKPOINT_FORKED ->
            false;
      };
    }
  }

  /** The same with other words for what is there. */
  Finding found(String what) {
    return new Finding(kind, partition, sequence, offset, factId, expected, what);
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
