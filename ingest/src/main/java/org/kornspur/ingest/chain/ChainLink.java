package org.kornspur.ingest.chain;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.Optional;
import org.kornspur.ingest.intake.CountedNoun;
import org.kornspur.ingest.seal.Hash;

/**
 * A link of the chain of one partition.
 *
 * @param sequence number of the record in its chain, from 1, without gaps
 * @param offset of the record in the log
 * @param factId key of the record, to name it by; not under the hash
 * @param content hash of the record
 * @param link hash over the link before and all of this but the fact id
 */
public record ChainLink(
    int partition, long sequence, long offset, String factId, Hash content, Hash link) {

  /** The topic that links go to, each in the partition of its record, under the fact id. */
  public static final String TOPIC = "kornspur.chain";

  private static final byte VERSION = 1;
  private static final int WRITTEN_BYTES = 1 + Integer.BYTES + 2 * Long.BYTES + 2 * Hash.BYTES;

  /** The hash before the first link of a partition. */
  public static Hash genesis(int partition) {
    return Hash.in("kornspur/genesis/v1").add("kornspur.facts").add(partition).done();
  }

  static Hash hash(Hash previous, int partition, long sequence, long offset, Hash content) {
    return Hash.in("kornspur/link/v1")
        .add(previous)
        .add(partition)
        .add(sequence)
        .add(offset)
        .add(content)
        .done();
  }

  /** The link that follows another one. */
  static ChainLink after(Hash previous, long sequence, LogRecord.Entry entry) {
    return new ChainLink(
        entry.partition(),
        sequence,
        entry.offset(),
        entry.factId(),
        entry.content(),
        hash(previous, entry.partition(), sequence, entry.offset(), entry.content()));
  }

  /** Whether its hash is the one that follows from the link before. */
  boolean follows(Hash previous) {
    return link.equals(hash(previous, partition, sequence, offset, content));
  }

  /**
   * The value of its record in the topic, {@value #WRITTEN_BYTES} bytes: version, partition,
   * sequence, offset, content hash, link hash; numbers with the high byte first.
   */
  public byte[] write() {
    return ByteBuffer.allocate(WRITTEN_BYTES)
        .put(VERSION)
        .putInt(partition)
        .putLong(sequence)
        .putLong(offset)
        .put(content.bytes())
        .put(link.bytes())
        .array();
  }

  /**
   * Reads what {@link #write} wrote.
   *
   * @param key key of the record in the topic; may be null
   * @throws UnreadableChain if the value is no link
   */
  public static ChainLink read(byte[] key, byte[] value) {
    if (value == null || value.length != WRITTEN_BYTES || value[0] != VERSION) {
      throw new UnreadableChain(
          "A link has %s bytes and begins with %s; this record has %s"
              .formatted(
                  WRITTEN_BYTES,
                  VERSION,
                  value == null ? "no value" : CountedNoun.of(value.length, "byte(s)")));
    }
    ByteBuffer bytes = ByteBuffer.wrap(value, 1, WRITTEN_BYTES - 1);
    int partition = bytes.getInt();
    long sequence = bytes.getLong();
    long offset = bytes.getLong();
    String factId = key == null ? "" : new String(key, StandardCharsets.UTF_8);
    return new ChainLink(partition, sequence, offset, factId, Hash.read(bytes), Hash.read(bytes));
  }

  /** The link that a record holds; empty for a record that is none, which nobody signed. */
  public static Optional<ChainLink> ifOne(byte[] key, byte[] value) {
    try {
      return Optional.of(read(key, value));
    } catch (UnreadableChain none) {
      return Optional.empty();
    }
  }
}
