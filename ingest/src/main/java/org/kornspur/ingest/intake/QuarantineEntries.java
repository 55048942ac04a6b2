package org.kornspur.ingest.intake;

import java.nio.ByteBuffer;
import java.security.MessageDigest;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import org.kornspur.contract.QuarantineEntry;
import org.kornspur.contract.QuarantineOrigin;
import org.kornspur.ingest.contract.Fingerprint;
import org.kornspur.ingest.problem.Given;
import org.kornspur.ingest.problem.InputProblem;

/** Makes the entries under which refused inputs are kept. */
public final class QuarantineEntries {

  /** The largest input, key and value together, that is kept whole: 12 MB. */
  public static final int MOST_WHOLE_BYTES = 12 * 1024 * 1024;

  /** What is kept of a larger one, bytes of its key and of its value. */
  static final int HEAD_BYTES = 4 * 1024;

  private QuarantineEntries() {}

  /**
   * An entry for an input that has just been refused. One that is too large to be kept is kept by
   * its size, hash and beginning, and the entry says where the whole is.
   *
   * @param place file and line, topic partition and offset, or request id
   * @param receivedAt kept to the millisecond
   * @param originalKey null where there was none
   * @param originalValue the input, unchanged
   */
  public static QuarantineEntry held(
      QuarantineOrigin origin,
      String place,
      Instant receivedAt,
      List<Problem> problems,
      byte[] originalKey,
      byte[] originalValue) {
    long keyBytes = originalKey == null ? 0 : originalKey.length;
    if (keyBytes + originalValue.length > MOST_WHOLE_BYTES) {
      return cut(origin, place, receivedAt, problems, originalKey, originalValue);
    }
    return entry(origin, place, receivedAt, problems, originalKey, originalValue).build();
  }

  private static QuarantineEntry cut(
      QuarantineOrigin origin,
      String place,
      Instant receivedAt,
      List<Problem> problems,
      byte[] originalKey,
      byte[] originalValue) {
    List<Problem> said = new ArrayList<>(problems);
    said.add(
        Problem.of(
            "",
            new Given.HashedBytes(
                originalValue.length,
                HexFormat.of().formatHex(Fingerprint.sha256().digest(originalValue))),
            new InputProblem.KeptInPart(MOST_WHOLE_BYTES, HEAD_BYTES, place)));
    return entry(origin, place, receivedAt, said, head(originalKey), head(originalValue))
        .setEntryId(entryId(originalKey, originalValue))
        .setWholeBytes((long) originalValue.length)
        .build();
  }

  private static byte[] head(byte[] bytes) {
    return bytes == null ? null : Arrays.copyOf(bytes, Math.min(bytes.length, HEAD_BYTES));
  }

  private static QuarantineEntry.Builder entry(
      QuarantineOrigin origin,
      String place,
      Instant receivedAt,
      List<Problem> problems,
      byte[] originalKey,
      byte[] originalValue) {
    return QuarantineEntry.newBuilder()
        .setEntryId(entryId(originalKey, originalValue))
        .setOrigin(origin)
        .setPlace(place)
        .setReceivedAt(receivedAt.truncatedTo(ChronoUnit.MILLIS))
        .setReason("")
        .setProblems(problems.stream().map(Problem::toContract).toList())
        .setOriginalKey(originalKey == null ? null : ByteBuffer.wrap(originalKey))
        .setOriginalValue(ByteBuffer.wrap(originalValue));
  }

  /**
   * The id of an entry: SHA-256, in hexadecimal, over the key (nothing where there is none), one
   * zero byte, and the value. The same bad input twice is one entry.
   */
  public static String entryId(byte[] originalKey, byte[] originalValue) {
    MessageDigest hash = Fingerprint.sha256();
    if (originalKey != null) {
      hash.update(originalKey);
    }
    hash.update((byte) 0);
    hash.update(originalValue);
    return HexFormat.of().formatHex(hash.digest());
  }
}
