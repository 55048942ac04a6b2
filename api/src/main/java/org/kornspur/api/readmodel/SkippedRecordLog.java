package org.kornspur.api.readmodel;

import java.time.Duration;
import java.time.Instant;
import java.util.concurrent.atomic.AtomicLong;
import org.apache.kafka.clients.consumer.ConsumerRecord;
import org.jboss.logging.Logger;

/**
 * Counts records that could not be read and logs one of them a minute: somebody who floods the
 * topic must not flood the log too.
 */
final class SkippedRecordLog {
  private static final Logger LOG = Logger.getLogger(SkippedRecordLog.class);
  private static final Duration BETWEEN_LINES = Duration.ofMinutes(1);

  private final AtomicLong count = new AtomicLong();
  private Instant nextLine = Instant.MIN;
  private long notLogged;

  /** For the thread that reads. */
  void add(ConsumerRecord<String, byte[]> record, RuntimeException unreadable) {
    count.incrementAndGet();
    notLogged++;
    if (nextLine.isAfter(Instant.now())) {
      return;
    }
    LOG.errorf(
        unreadable,
        "%s-%d offset %d cannot be read and is passed over (%d such since the last line)",
        record.topic(),
        record.partition(),
        record.offset(),
        notLogged);
    notLogged = 0;
    nextLine = Instant.now().plus(BETWEEN_LINES);
  }

  long count() {
    return count.get();
  }
}
