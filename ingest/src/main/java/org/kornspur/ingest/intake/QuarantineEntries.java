package org.kornspur.ingest.intake;

import java.nio.ByteBuffer;
import java.security.MessageDigest;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.HexFormat;
import java.util.List;
import org.kornspur.contract.QuarantineEntry;
import org.kornspur.contract.QuarantineOrigin;
import org.kornspur.ingest.contract.Fingerprint;

/** Makes the entries under which refused inputs are kept. */
public final class QuarantineEntries {

  private QuarantineEntries() {}

  /**
   * An entry for an input that has just been refused.
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
    return QuarantineEntry.newBuilder()
        .setEntryId(entryId(originalKey, originalValue))
        .setOrigin(origin)
        .setPlace(place)
        .setReceivedAt(receivedAt.truncatedTo(ChronoUnit.MILLIS))
        .setReason(reason(problems))
        .setProblems(problems.stream().map(Problem::toContract).toList())
        .setOriginalKey(originalKey == null ? null : ByteBuffer.wrap(originalKey))
        .setOriginalValue(ByteBuffer.wrap(originalValue))
        .build();
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

  private static String reason(List<Problem> problems) {
    if (problems.isEmpty()) {
      return "Refused without a stated problem; look at the log of the receiver.";
    }
    String first = problems.get(0).sentence();
    return problems.size() == 1 ? first : first + " (" + (problems.size() - 1) + " more)";
  }
}
