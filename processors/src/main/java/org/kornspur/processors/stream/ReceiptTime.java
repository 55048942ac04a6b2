package org.kornspur.processors.stream;

import java.nio.ByteBuffer;
import java.time.Duration;
import java.time.Instant;
import java.util.stream.StreamSupport;
import org.apache.kafka.clients.consumer.ConsumerRecord;
import org.apache.kafka.common.header.Header;
import org.apache.kafka.common.header.Headers;
import org.apache.kafka.common.utils.Time;
import org.apache.kafka.streams.processor.TimestampExtractor;

/**
 * The time of a record for the processors. Topics of this version bear the time at which the broker
 * took the record. One that an earlier version wrote, or a cluster that keeps the sender's time,
 * may bear any: none at all (-1), one of a clock that was never set, or one so far ahead that
 * brokers refuse what follows from it. Such a record counts as received when it is processed;
 * whether its fact is taken in depends on what it says.
 *
 * <p>The hash chain is over the time as the log keeps it, which then travels with the record.
 */
public final class ReceiptTime implements TimestampExtractor {
  /**
   * How far a time may lie ahead: half of what brokers allow. Apache Kafka 4.1 Documentation,
   * "Topic Configs", message.timestamp.after.max.ms, one hour.
   */
  private static final long MOST_AHEAD_MS = Duration.ofMinutes(30).toMillis();

  /** No record of ours was received before. */
  private static final long EARLIEST_MS = Instant.parse("2000-01-01T00:00:00Z").toEpochMilli();

  @Override
  public long extract(ConsumerRecord<Object, Object> record, long partitionTime) {
    long logged = record.timestamp();
    long now = Time.SYSTEM.milliseconds();
    if (logged >= EARLIEST_MS && logged <= now + MOST_AHEAD_MS) {
      return logged;
    }
    record.headers().add(new Logged(logged));
    return now;
  }

  /** The time of a record as the log keeps it. */
  static long logged(long timestamp, Headers headers) {
    return StreamSupport.stream(headers.spliterator(), false)
        .filter(ReceiptTime::isOurs)
        .mapToLong(header -> ((Logged) header).timestamp())
        .findFirst()
        .orElse(timestamp);
  }

  /** Whether a header was put there by this class; no sender can make one, whatever its name. */
  static boolean isOurs(Header header) {
    return header instanceof Logged;
  }

  private record Logged(long timestamp) implements Header {
    @Override
    public String key() {
      return "logged-timestamp";
    }

    @Override
    public byte[] value() {
      return ByteBuffer.allocate(Long.BYTES).putLong(timestamp).array();
    }
  }
}
