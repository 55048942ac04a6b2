package org.kornspur.processors.stream;

import java.nio.ByteBuffer;
import java.util.ArrayList;
import java.util.List;
import org.apache.kafka.streams.KeyValue;
import org.apache.kafka.streams.state.KeyValueStore;
import org.apache.kafka.streams.state.ReadOnlyKeyValueStore;
import org.kornspur.ingest.chain.ChainLink;

/** Under which numbers and offsets the records of a fact id are chained, kept by fact id. */
public final class ChainPositions {
  private static final int LONGEST_ID_CHARACTERS = 150;
  private static final int NUMBER_CHARACTERS = 19;

  private ChainPositions() {}

  /** Where a record is: its partition, its number in the chain, its offset in the log. */
  public record Position(int partition, long sequence, long offset) {}

  /** Ids that are longer than any fact's may be are left out, as they name no fact. */
  static void put(KeyValueStore<String, byte[]> index, ChainLink link) {
    if (link.factId().isEmpty() || link.factId().length() > LONGEST_ID_CHARACTERS) {
      return;
    }
    index.put(
        Keys.of(link.factId(), padded(link.sequence())),
        ByteBuffer.allocate(Integer.BYTES + Long.BYTES)
            .putInt(link.partition())
            .putLong(link.offset())
            .array());
  }

  /** So that the order of the keys is that of the numbers. */
  private static String padded(long number) {
    String digits = Long.toString(number);
    return "0".repeat(NUMBER_CHARACTERS - digits.length()) + digits;
  }

  /** Every record of a fact id, in the order of the log. */
  public static List<Position> of(ReadOnlyKeyValueStore<String, byte[]> index, String factId) {
    List<Position> positions = new ArrayList<>();
    String prefix = Keys.prefix(factId);
    for (KeyValue<String, byte[]> one : Keys.scan(index, prefix)) {
      if (one.key.length() == prefix.length() + NUMBER_CHARACTERS) {
        ByteBuffer place = ByteBuffer.wrap(one.value);
        positions.add(
            new Position(
                place.getInt(),
                Long.parseLong(one.key.substring(prefix.length())),
                place.getLong()));
      }
    }
    return positions;
  }
}
