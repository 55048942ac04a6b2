package org.kornspur.ingest.publish;

import java.util.Map;
import org.apache.kafka.clients.producer.ProducerConfig;

/**
 * How large a record may be. Facts are small, but a refused request is kept whole (10 MB are read
 * of one), and the standing of a lot grows with what it was made of. Kafka takes 1 MB if not told
 * otherwise, and a processor that may not write what it found stops.
 */
public final class RecordSize {
  /** What topics take, bytes. */
  public static final int MOST_BYTES = 16 * 1024 * 1024;

  /**
   * What the topic of facts takes: more than any fact needs, and so much less than the others that
   * the quarantine can keep whatever stands there.
   */
  public static final int MOST_FACT_BYTES = 4 * 1024 * 1024;

  /**
   * What the processors send each other, and read of each other, at most, bytes: so much less than
   * topics take that it fits into the log of a store too, under a longer key.
   */
  public static final int MOST_ON_ITS_WAY_BYTES = MOST_BYTES - 2 * 1024 * 1024;

  /** Room for what surrounds a record in a request. */
  private static final int MOST_SENT_BYTES = MOST_BYTES - 1024 * 1024;

  private static final long BUFFER_BYTES = 2L * MOST_BYTES;

  private RecordSize() {}

  /** Settings of a producer that may write such records. */
  public static Map<String, Object> ofProducer() {
    return Map.of(
        ProducerConfig.MAX_REQUEST_SIZE_CONFIG,
        MOST_SENT_BYTES,
        ProducerConfig.BUFFER_MEMORY_CONFIG,
        BUFFER_BYTES);
  }
}
