package org.kornspur.api.readmodel;

import java.io.BufferedInputStream;
import java.io.BufferedOutputStream;
import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.security.DigestInputStream;
import java.security.DigestOutputStream;
import java.security.MessageDigest;
import java.time.Instant;
import java.util.Arrays;
import java.util.Collection;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import org.apache.kafka.clients.consumer.ConsumerRecord;
import org.kornspur.ingest.contract.Fingerprint;
import org.kornspur.ingest.seal.Hash;

/**
 * The standings of an index as a file, with the last record of each partition that they rest on.
 * What it holds is what the topic holds up to there, so a start needs to read only what came after.
 *
 * <p>The last bytes are the SHA-256 of those before: a file that is cut off or damaged is none.
 *
 * @param takenAt when the index stood so
 * @param last the last record of each partition that was read; a partition of which none was read
 *     is not in it
 * @param standings the records of all crops and lots, packed
 */
record StandingSnapshot(
    Instant takenAt, SortedMap<Integer, LastRecord> last, Collection<Kept> standings) {
  /** Raised with every change of what follows in the file. */
  private static final int VERSION = 1;

  private static final int MOST_PACKED_BYTES = 64 << 20;

  /**
   * A record that must still be in the topic, or the topic is another.
   *
   * @param fingerprint of its key, time and value
   */
  record LastRecord(long offset, Hash fingerprint) {
    private static final String USE = "kornspur/standing-snapshot/v1";

    static LastRecord of(ConsumerRecord<String, byte[]> record) {
      return new LastRecord(
          record.offset(),
          Hash.in(USE).add(record.key()).add(record.timestamp()).add(record.value()).done());
    }
  }

  /** A standing as it came. */
  record Kept(Instant changedAt, CompressedRecord packed) {}

  /** Writes it whole or not at all. */
  void write(Path file) throws IOException {
    Path draft = file.resolveSibling(file.getFileName() + ".unfinished");
    MessageDigest digest = Fingerprint.sha256();
    try (OutputStream whole = new BufferedOutputStream(Files.newOutputStream(draft))) {
      DataOutputStream out = new DataOutputStream(new DigestOutputStream(whole, digest));
      writeContent(out);
      out.flush();
      whole.write(digest.digest());
    }
    try (FileChannel written = FileChannel.open(draft, StandardOpenOption.WRITE)) {
      written.force(true);
    }
    Files.move(draft, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
  }

  private void writeContent(DataOutputStream out) throws IOException {
    out.writeInt(VERSION);
    out.writeLong(takenAt.toEpochMilli());
    out.writeInt(last.size());
    for (var partition : last.entrySet()) {
      out.writeInt(partition.getKey());
      out.writeLong(partition.getValue().offset());
      out.write(partition.getValue().fingerprint().bytes());
    }
    out.writeInt(standings.size());
    for (Kept kept : standings) {
      out.writeLong(kept.changedAt().toEpochMilli());
      out.writeInt(kept.packed().unpackedBytes());
      out.writeInt(kept.packed().deflated().length);
      out.write(kept.packed().deflated());
    }
  }

  /** Takes each standing of a file as it is read. */
  interface Reader {

    /**
     * Looks at the head of a file.
     *
     * @param head without standings
     * @return whether the standings are wanted
     */
    boolean wants(StandingSnapshot head);

    void take(Kept standing);
  }

  /**
   * Reads a file.
   *
   * @throws IOException if it cannot be read, is damaged, or of another version
   */
  static void read(Path file, Reader reader) throws IOException {
    requireWhole(file);
    try (DataInputStream in =
        new DataInputStream(new BufferedInputStream(Files.newInputStream(file)))) {
      int version = in.readInt();
      if (version != VERSION) {
        throw new IOException("Version " + version + " of " + file + " is not known here");
      }
      Instant takenAt = Instant.ofEpochMilli(in.readLong());
      SortedMap<Integer, LastRecord> last = new TreeMap<>();
      for (int partitions = in.readInt(); partitions > 0; partitions--) {
        last.put(in.readInt(), new LastRecord(in.readLong(), Hash.of(exactly(in, Hash.BYTES))));
      }
      if (reader.wants(new StandingSnapshot(takenAt, last, List.of()))) {
        for (int count = in.readInt(); count > 0; count--) {
          Instant changedAt = Instant.ofEpochMilli(in.readLong());
          int unpackedBytes = in.readInt();
          reader.take(
              new Kept(changedAt, new CompressedRecord(unpackedBytes, exactly(in, in.readInt()))));
        }
      }
    }
  }

  private static byte[] exactly(DataInputStream in, int bytes) throws IOException {
    if (bytes < 0 || bytes > MOST_PACKED_BYTES) {
      throw new IOException("A record of " + bytes + " bytes cannot be");
    }
    byte[] read = new byte[bytes];
    in.readFully(read);
    return read;
  }

  private static void requireWhole(Path file) throws IOException {
    long content = Files.size(file) - Hash.BYTES;
    MessageDigest digest = Fingerprint.sha256();
    try (InputStream whole = new BufferedInputStream(Files.newInputStream(file))) {
      DigestInputStream in = new DigestInputStream(whole, digest);
      byte[] buffer = new byte[1 << 16];
      long left = content;
      while (left > 0) {
        int read = in.read(buffer, 0, (int) Math.min(buffer.length, left));
        if (read < 0) {
          throw new IOException(file + " ends before its content does");
        }
        left -= read;
      }
      if (content < 0 || !Arrays.equals(digest.digest(), whole.readNBytes(Hash.BYTES))) {
        throw new IOException(file + " is cut off or damaged");
      }
    }
  }
}
