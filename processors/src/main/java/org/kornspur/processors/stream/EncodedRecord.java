package org.kornspur.processors.stream;

import org.apache.avro.specific.SpecificRecord;
import org.kornspur.ingest.wire.WireFormat;

/**
 * A record in its public form, of which the bytes are made once: they are looked at to see whether
 * it changed, and then they are sent. For one thread.
 */
final class EncodedRecord<T extends SpecificRecord> {
  private final T whole;
  private byte[] bytes;

  EncodedRecord(T whole) {
    this.whole = whole;
  }

  /** Its wire format; it is of one topic, so the same each time. */
  byte[] bytes(WireFormat wire, String topic) {
    if (bytes == null) {
      bytes = wire.encode(topic, whole);
    }
    return bytes;
  }
}
