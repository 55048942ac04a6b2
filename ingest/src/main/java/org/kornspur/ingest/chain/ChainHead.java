package org.kornspur.ingest.chain;

import java.nio.ByteBuffer;
import java.time.Instant;
import org.kornspur.ingest.intake.CountedNoun;
import org.kornspur.ingest.seal.Hash;
import org.kornspur.ingest.seal.SigningKey;

/**
 * Where the chain of a partition stands: all that is needed to go on with it.
 *
 * @param sequence of the newest link; 0 before the first
 * @param offset of the newest record; -1 before the first
 * @param link hash of the newest link
 * @param checkpoints how many checkpoints were signed
 * @param signedSequence of the link that the newest checkpoint signed; 0 before the first
 * @param checkpoint hash of the newest checkpoint; of the genesis before the first
 */
public record ChainHead(
    int partition,
    long sequence,
    long offset,
    Hash link,
    long checkpoints,
    long signedSequence,
    Hash checkpoint) {

  private static final byte VERSION = 1;
  private static final int WRITTEN_BYTES = 1 + Integer.BYTES + 4 * Long.BYTES + 2 * Hash.BYTES;

  /** A chain without links. */
  public static ChainHead start(int partition) {
    Hash genesis = ChainLink.genesis(partition);
    return new ChainHead(partition, 0, -1, genesis, 0, 0, genesis);
  }

  public ChainLink link(LogRecord.Entry next) {
    return ChainLink.after(link, sequence + 1, next);
  }

  /** Where the chain stands with this link. */
  public ChainHead with(ChainLink newest) {
    return new ChainHead(
        partition,
        newest.sequence(),
        newest.offset(),
        newest.link(),
        checkpoints,
        signedSequence,
        checkpoint);
  }

  /** How many links no checkpoint covers. */
  public long unsigned() {
    return sequence - signedSequence;
  }

  /** Signs the newest link. */
  public Checkpoint sign(SigningKey key, Instant at) {
    return Checkpoint.sign(key, partition, checkpoints + 1, sequence, offset, link, checkpoint, at);
  }

  /** Where the chain stands with this checkpoint. */
  public ChainHead with(Checkpoint newest) {
    return new ChainHead(
        partition, sequence, offset, link, newest.number(), newest.sequence(), newest.hash());
  }

  /** As bytes, for a store. */
  public byte[] write() {
    return ByteBuffer.allocate(WRITTEN_BYTES)
        .put(VERSION)
        .putInt(partition)
        .putLong(sequence)
        .putLong(offset)
        .putLong(checkpoints)
        .putLong(signedSequence)
        .put(link.bytes())
        .put(checkpoint.bytes())
        .array();
  }

  /**
   * Reads what {@link #write} wrote.
   *
   * @throws UnreadableChain if it is something else
   */
  public static ChainHead read(byte[] written) {
    if (written.length != WRITTEN_BYTES || written[0] != VERSION) {
      throw new UnreadableChain(
          "Not the head of a chain: " + CountedNoun.of(written.length, "byte(s)"));
    }
    ByteBuffer bytes = ByteBuffer.wrap(written, 1, WRITTEN_BYTES - 1);
    int partition = bytes.getInt();
    long sequence = bytes.getLong();
    long offset = bytes.getLong();
    long checkpoints = bytes.getLong();
    long signedSequence = bytes.getLong();
    Hash link = Hash.read(bytes);
    return new ChainHead(
        partition, sequence, offset, link, checkpoints, signedSequence, Hash.read(bytes));
  }
}
