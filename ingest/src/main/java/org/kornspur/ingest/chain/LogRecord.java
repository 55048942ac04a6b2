package org.kornspur.ingest.chain;

import java.nio.charset.StandardCharsets;
import java.util.List;
import org.kornspur.ingest.seal.Hash;

/**
 * A record of the log as the broker keeps it.
 *
 * @param timestampMs the time that the log keeps of it, that of its sender or of the broker that
 *     took it, milliseconds since 1970; any number
 * @param key as sent; null where it had none
 * @param value as sent; null where it had none
 * @param headers in their order
 */
public record LogRecord(
    int partition, long offset, long timestampMs, byte[] key, byte[] value, List<Header> headers) {

  private static final int SHOWN_KEY_CHARACTERS = 200;

  public LogRecord {
    headers = List.copyOf(headers);
  }

  /** A header; the same name may come more than once. */
  public record Header(String name, byte[] value) {}

  /** The hash of all that its sender gave, without the place that it got. */
  public Hash content() {
    Hash.Maker content =
        Hash.in("kornspur/record/v1").add(key).add(value).add(timestampMs).add(headers.size());
    headers.forEach(header -> content.add(header.name()).add(header.value()));
    return content.done();
  }

  /** Its key as text, which is the fact id where the record is a fact; cut where it is long. */
  public String factId() {
    if (key == null) {
      return "";
    }
    String text = new String(key, StandardCharsets.UTF_8);
    return text.length() <= SHOWN_KEY_CHARACTERS ? text : text.substring(0, SHOWN_KEY_CHARACTERS);
  }

  /** What verification needs of it. */
  public Entry entry() {
    return new Entry(partition, offset, factId(), content());
  }

  /** A record of the log by its hash. */
  public record Entry(int partition, long offset, String factId, Hash content) {}
}
