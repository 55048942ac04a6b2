package org.kornspur.ingest.file;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.HashMap;
import java.util.HexFormat;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import org.apache.avro.specific.SpecificData;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.FactHeader;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Fingerprint;

/**
 * Ids of facts whose rows give none, made of what the rows say: the same row has the same id
 * whenever it is read, whoever reads it, and in whatever order its columns stand. They have the
 * form of RFC 9562, version 8.
 */
final class RowIds {
  /** In the place of an id until it is made. */
  static final String NOT_YET = "00000000-0000-8000-8000-000000000000";

  private final String owner;
  private final Map<String, Seen> seen = new HashMap<>();

  /** A row of an id, and what it says. */
  private record Seen(int row, String content) {}

  RowIds(String owner) {
    this.owner = owner;
  }

  /**
   * What a fact says, without its id and without what the row did not say of its recording.
   *
   * @param said paths of the fields that the row says itself
   */
  static String contentOf(SpecificRecord fact, Set<String> said) {
    SpecificRecord copy = SpecificData.get().deepCopy(fact.getSchema(), fact);
    FactHeader header = FactType.headerOf(copy);
    header.put("factId", "");
    if (!said.contains("header.recordedBy")) {
      header.put("recordedBy", "");
    }
    if (!said.contains("header.recordedAt")) {
      header.put("recordedAt", Instant.EPOCH);
    }
    if (!said.contains("header.sourceDocument")) {
      header.put("sourceDocument", "");
    }
    return Fingerprint.of(copy);
  }

  /** The id that is made of what a row says. */
  String idOf(String content) {
    byte[] hash =
        HexFormat.of()
            .parseHex(
                Fingerprint.of(
                    owner.getBytes(StandardCharsets.UTF_8),
                    content.getBytes(StandardCharsets.UTF_8)));
    ByteBuffer bytes = ByteBuffer.wrap(hash);
    long high = (bytes.getLong() & 0xFFFF_FFFF_FFFF_0FFFL) | 0x8000L;
    long low = (bytes.getLong() & 0x3FFF_FFFF_FFFF_FFFFL) | 0x8000_0000_0000_0000L;
    return new UUID(high, low).toString();
  }

  /** The row above with this id, and whether it says the same; notes the row. */
  Optional<Earlier> take(String id, int row, String content) {
    Seen earlier = seen.putIfAbsent(id, new Seen(row, content));
    return Optional.ofNullable(earlier)
        .map(above -> new Earlier(above.row(), above.content().equals(content)));
  }

  /** A row above. */
  record Earlier(int row, boolean isSame) {}
}
