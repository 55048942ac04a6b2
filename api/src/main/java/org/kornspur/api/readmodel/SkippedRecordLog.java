package org.kornspur.api.readmodel;

import java.time.Duration;
import java.time.Instant;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.atomic.AtomicLong;
import org.apache.kafka.clients.consumer.ConsumerRecord;
import org.jboss.logging.Logger;

/**
 * Counts records that could not be read and logs one of them a minute and topic, in one line:
 * somebody who floods a topic must not flood the log too, and several lists read the same topic.
 */
final class SkippedRecordLog {
  private static final Logger LOG = Logger.getLogger(SkippedRecordLog.class);
  private static final Duration BETWEEN_LINES = Duration.ofMinutes(1);

  /** When a line of a topic may be written again, over all lists of this process. */
  private static final Map<String, Instant> NEXT_LINES = new ConcurrentHashMap<>();

  private final AtomicLong count = new AtomicLong();

  /** For the thread that reads. */
  void add(ConsumerRecord<String, byte[]> record, RuntimeException unreadable) {
    long passedOver = count.incrementAndGet();
    if (mayTell(record.topic(), Instant.now())) {
      LOG.errorf(
          "%s-%d offset %d cannot be read and is passed over (%d such since the start): %s",
          record.topic(), record.partition(), record.offset(), passedOver, unreadable);
      LOG.debug("Where it could not be read", unreadable);
    }
  }

  static boolean mayTell(String topic, Instant now) {
    Instant next = now.plus(BETWEEN_LINES);
    return NEXT_LINES
        .merge(topic, next, (told, wanted) -> told.isAfter(now) ? told : wanted)
        .equals(next);
  }

  long count() {
    return count.get();
  }
}
