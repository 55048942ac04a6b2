package org.kornspur.processors.stream;

import java.nio.ByteBuffer;
import java.time.Duration;
import java.util.HashMap;
import java.util.Map;
import java.util.function.Consumer;
import java.util.function.LongSupplier;
import org.apache.kafka.common.header.Header;
import org.apache.kafka.common.header.Headers;
import org.apache.kafka.common.header.internals.RecordHeaders;
import org.kornspur.ingest.contract.Subject;

/**
 * How long facts took from the log until a dossier that they name was judged with them. A fact
 * takes the time at which the log received it along in a header, since each topic on the way gives
 * a time of its own.
 */
public final class StandingDelays {
  private static final String SETTING = "kornspur.standing-delays";
  private static final String RECEIVED = "received";

  private final Consumer<Duration> listener;

  /**
   * @param listener told of each delay, by several threads
   */
  public StandingDelays(Consumer<Duration> listener) {
    this.listener = listener;
  }

  /** Settings of a streams client that make its tasks tell of their delays here. */
  public Map<String, Object> settings() {
    return Map.of(SETTING, this);
  }

  static OfTask ofTask(Map<String, ?> settings) {
    return settings.get(SETTING) instanceof StandingDelays shared
        ? shared.new OfTask()
        : new StandingDelays(delay -> {}).new OfTask();
  }

  /**
   * What goes along with a fact.
   *
   * @param receivedMs when the log received it, milliseconds of the epoch
   */
  static Headers along(long receivedMs) {
    return new RecordHeaders()
        .add(RECEIVED, ByteBuffer.allocate(Long.BYTES).putLong(receivedMs).array());
  }

  /** The dossiers of one task with facts that they were not judged with. For one thread. */
  final class OfTask {
    private final Map<Subject, Long> oldestMs = new HashMap<>();

    /** Notes a fact; one that an earlier release sent on tells no time. */
    void filed(Subject subject, Headers along) {
      Header received = along.lastHeader(RECEIVED);
      if (received != null && received.value() != null && received.value().length == Long.BYTES) {
        oldestMs.merge(subject, ByteBuffer.wrap(received.value()).getLong(), Math::min);
      }
    }

    /**
     * Has a dossier judged and tells of the oldest fact in it that it was not judged with before.
     * If the judging breaks, that fact is forgotten and never told of.
     */
    void judge(Subject subject, Runnable judging, LongSupplier clockMs) {
      Long receivedMs = oldestMs.remove(subject);
      judging.run();
      if (receivedMs != null) {
        listener.accept(Duration.ofMillis(Math.max(0, clockMs.getAsLong() - receivedMs)));
      }
    }
  }
}
