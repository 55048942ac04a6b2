package org.kornspur.ingest.publish;

import java.time.Duration;
import java.util.HashMap;
import java.util.Map;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.Semaphore;
import java.util.concurrent.atomic.AtomicReference;
import org.apache.avro.specific.SpecificRecord;
import org.apache.kafka.clients.producer.KafkaProducer;
import org.apache.kafka.clients.producer.Producer;
import org.apache.kafka.clients.producer.ProducerConfig;
import org.apache.kafka.clients.producer.ProducerRecord;
import org.apache.kafka.common.serialization.StringSerializer;
import org.kornspur.contract.CauseNote;
import org.kornspur.contract.NotificationChoice;
import org.kornspur.contract.NotificationMessage;
import org.kornspur.contract.PersonName;
import org.kornspur.contract.PlanVersion;
import org.kornspur.contract.QuarantineEntry;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.intake.FactSink;
import org.kornspur.ingest.wire.AvroSerdes;

/**
 * Sends facts to {@value #FACTS_TOPIC}, keyed by fact id, and refused inputs to {@value
 * #QUARANTINE_TOPIC}, keyed by entry id and sender; names of persons apart, to {@value
 * #PEOPLE_TOPIC}.
 *
 * <p>{@link #publish} and {@link #hold} answer for each record. As a {@link FactSink} it runs ahead
 * of the broker by at most {@value #MOST_IN_FLIGHT} records and throws {@link PublishFailed} for
 * the first that did not arrive, at the next call or at {@link #close}. Safe for several threads.
 */
public final class FactPublisher implements FactSink, AutoCloseable {

  public static final String FACTS_TOPIC = "kornspur.facts";
  public static final String QUARANTINE_TOPIC = "kornspur.quarantine";

  public static final String PEOPLE_TOPIC = "kornspur.people";

  /** Plans of the years ahead, which are no facts. */
  public static final String PLANS_TOPIC = "kornspur.plans";

  /** What persons do about a cause, which are no facts. */
  public static final String CAUSE_NOTES_TOPIC = "kornspur.cause-notes";

  /** What persons want to hear of, which are no facts. */
  public static final String NOTIFICATION_CHOICES_TOPIC = "kornspur.notification-choices";

  /** Messages to persons, and what became of them. */
  public static final String NOTIFICATION_MESSAGES_TOPIC = "kornspur.notification-messages";

  /** Most records that are sent and not yet answered. */
  public static final int MOST_IN_FLIGHT = 2000;

  private static final Duration CLOSING = Duration.ofSeconds(30);

  private final Producer<String, SpecificRecord> producer;
  private final Semaphore inFlight = new Semaphore(MOST_IN_FLIGHT);
  private final AtomicReference<PublishFailed> failed = new AtomicReference<>();

  /** Takes over a producer, and closes it in the end. */
  public FactPublisher(Producer<String, SpecificRecord> producer) {
    this.producer = producer;
  }

  /**
   * Connects by the configuration of a Kafka producer: {@code bootstrap.servers}, {@code
   * schema.registry.url} and whatever the site needs besides. Another serializer of values may be
   * named there, see {@link AvroSerdes}.
   *
   * @throws org.apache.kafka.common.KafkaException if the configuration cannot be used
   */
  public static FactPublisher connect(Map<String, ?> config) {
    Map<String, Object> merged = new HashMap<>();
    merged.put(ProducerConfig.COMPRESSION_TYPE_CONFIG, "lz4");
    merged.put(ProducerConfig.LINGER_MS_CONFIG, 10);
    merged.put(ProducerConfig.MAX_BLOCK_MS_CONFIG, 20_000);
    merged.put(ProducerConfig.REQUEST_TIMEOUT_MS_CONFIG, 15_000);
    merged.put(ProducerConfig.DELIVERY_TIMEOUT_MS_CONFIG, 60_000);
    merged.putAll(RecordSize.ofProducer());
    merged.putAll(config);
    merged.put(ProducerConfig.ACKS_CONFIG, "all");
    merged.put(ProducerConfig.ENABLE_IDEMPOTENCE_CONFIG, true);
    return new FactPublisher(
        new KafkaProducer<>(merged, new StringSerializer(), AvroSerdes.serializer(merged)));
  }

  /** Sends a fact; the future fails with {@link PublishFailed} where it did not arrive. */
  public CompletableFuture<Void> publish(SpecificRecord fact) {
    return send(FACTS_TOPIC, FactType.idOf(fact), fact);
  }

  /** Sends an entry to the quarantine; fails like {@link #publish}. */
  public CompletableFuture<Void> hold(QuarantineEntry entry) {
    return send(QUARANTINE_TOPIC, quarantineKey(entry), entry);
  }

  /** Sends the names of a person who signs; fails like {@link #publish}. */
  public CompletableFuture<Void> keep(PersonName person) {
    return send(PEOPLE_TOPIC, person.getPersonId(), person);
  }

  /**
   * Sends a version of a plan, which takes the place of the same version; fails like {@link
   * #publish}.
   */
  public CompletableFuture<Void> keep(PlanVersion plan) {
    return send(PLANS_TOPIC, plan.getPlanId() + "/" + plan.getVersion(), plan);
  }

  /** Sends what a person did about a cause; fails like {@link #publish}. */
  public CompletableFuture<Void> keep(CauseNote note) {
    return send(CAUSE_NOTES_TOPIC, note.getNoteId(), note);
  }

  /** Sends what a person wants to hear of; fails like {@link #publish}. */
  public CompletableFuture<Void> keep(NotificationChoice choice) {
    return send(NOTIFICATION_CHOICES_TOPIC, choice.getPersonId(), choice);
  }

  /** Has forgotten what a person wants to hear of; fails like {@link #publish}. */
  public CompletableFuture<Void> forgetChoice(String personId) {
    return send(NOTIFICATION_CHOICES_TOPIC, personId, null);
  }

  /** Sends a message to a person, or what became of it; fails like {@link #publish}. */
  public CompletableFuture<Void> keep(NotificationMessage message) {
    return send(NOTIFICATION_MESSAGES_TOPIC, message.getMessageId(), message);
  }

  /** Has a message forgotten; fails like {@link #publish}. */
  public CompletableFuture<Void> forgetMessage(String messageId) {
    return send(NOTIFICATION_MESSAGES_TOPIC, messageId, null);
  }

  /** Has the names of a person forgotten; fails like {@link #publish}. */
  public CompletableFuture<Void> forget(String personId) {
    return send(PEOPLE_TOPIC, personId, null);
  }

  /**
   * The key of an entry. What was decided of it has a key of its own, and so has each person who
   * sent it, so that the same input, when it comes and is refused again, takes neither the
   * decision's place in the compacted topic nor that of who sent it first.
   */
  private static String quarantineKey(QuarantineEntry entry) {
    return switch (entry.getState()) {
      case HELD ->
          entry.getSubmittedBy() == null
              ? entry.getEntryId()
              : entry.getEntryId() + "|by|" + entry.getSubmittedBy();
      case REPLAYED, DISCARDED -> entry.getEntryId() + "|decided";
    };
  }

  @Override
  public void accept(SpecificRecord fact) {
    throwIfFailed();
    rememberFailure(publish(fact));
  }

  @Override
  public void refuse(QuarantineEntry entry) {
    throwIfFailed();
    rememberFailure(hold(entry));
  }

  /**
   * Waits until all has arrived.
   *
   * @throws PublishFailed if something did not
   */
  @Override
  public void close() {
    if (failed.get() == null) {
      producer.flush();
    }
    producer.close(failed.get() == null ? CLOSING : Duration.ZERO);
    throwIfFailed();
  }

  private CompletableFuture<Void> send(String topic, String id, SpecificRecord value) {
    CompletableFuture<Void> arrived = new CompletableFuture<>();
    inFlight.acquireUninterruptibly();
    try {
      var unused =
          producer.send(
              new ProducerRecord<>(topic, id, value),
              (metadata, fault) -> {
                inFlight.release();
                if (fault == null) {
                  arrived.complete(null);
                } else {
                  arrived.completeExceptionally(new PublishFailed(topic, id, fault));
                }
              });
    } catch (RuntimeException e) {
      inFlight.release();
      arrived.completeExceptionally(new PublishFailed(topic, id, e));
    }
    return arrived;
  }

  private void rememberFailure(CompletableFuture<Void> arrived) {
    var unused =
        arrived.whenComplete(
            (nothing, fault) -> {
              if (fault instanceof PublishFailed failure) {
                failed.compareAndSet(null, failure);
              }
            });
  }

  private void throwIfFailed() {
    PublishFailed failure = failed.get();
    if (failure != null) {
      throw failure.again();
    }
  }
}
