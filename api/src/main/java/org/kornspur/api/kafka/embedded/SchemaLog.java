package org.kornspur.api.kafka.embedded;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.time.Duration;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.function.Consumer;
import org.apache.kafka.clients.admin.Admin;
import org.apache.kafka.clients.admin.NewTopic;
import org.apache.kafka.clients.consumer.ConsumerRecord;
import org.apache.kafka.clients.consumer.KafkaConsumer;
import org.apache.kafka.clients.producer.KafkaProducer;
import org.apache.kafka.clients.producer.ProducerRecord;
import org.apache.kafka.common.KafkaException;
import org.apache.kafka.common.TopicPartition;
import org.apache.kafka.common.errors.TopicExistsException;
import org.apache.kafka.common.serialization.StringDeserializer;
import org.apache.kafka.common.serialization.StringSerializer;
import org.jboss.logging.Logger;
import org.kornspur.api.storage.CannotStart;
import org.kornspur.ingest.registry.SchemaLedger;

/**
 * The lines of a {@link SchemaLedger} in a compacted topic of one partition, each as JSON under the
 * line's own key. Not safe for several threads.
 */
final class SchemaLog implements AutoCloseable {

  /** Name of the topic. */
  static final String TOPIC = "kornspur.schemas";

  private static final TopicPartition PARTITION = new TopicPartition(TOPIC, 0);
  private static final Duration LIMIT = Duration.ofSeconds(10);
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final Logger LOG = Logger.getLogger(SchemaLog.class);

  private final KafkaConsumer<String, String> consumer;
  private final KafkaProducer<String, String> producer;
  private final Map<String, SchemaLedger.Entry> lines = new HashMap<>();
  private final Set<String> overwritten = new HashSet<>();
  private long skipped;

  /** The log could not be read or written; whether the line was written is not known. */
  static final class LogFailure extends Exception {

    LogFailure(String message, Throwable cause) {
      super(message, cause);
    }
  }

  /**
   * Opens the log and makes its topic where it is not there.
   *
   * @throws CannotStart if the broker does not answer
   */
  SchemaLog(Map<String, ?> clientSettings) {
    createTopic(clientSettings);
    consumer =
        new KafkaConsumer<>(
            with(
                clientSettings,
                Map.of(
                    "enable.auto.commit",
                    "false",
                    "default.api.timeout.ms",
                    Long.toString(LIMIT.toMillis()))),
            new StringDeserializer(),
            new StringDeserializer());
    consumer.assign(List.of(PARTITION));
    consumer.seekToBeginning(List.of(PARTITION));
    producer =
        new KafkaProducer<>(
            with(
                clientSettings,
                Map.of(
                    "acks", "all",
                    "max.block.ms", "5000",
                    "request.timeout.ms", "5000",
                    "delivery.timeout.ms", Long.toString(LIMIT.toMillis()))),
            new StringSerializer(),
            new StringSerializer());
  }

  /** Hands over every line that was not read yet, up to the present end of the log. */
  void readOn(Consumer<SchemaLedger.Entry> reader) throws LogFailure {
    try {
      long end = consumer.endOffsets(List.of(PARTITION)).get(PARTITION);
      long deadline = System.nanoTime() + LIMIT.toNanos();
      while (consumer.position(PARTITION) < end) {
        if (System.nanoTime() > deadline) {
          throw new LogFailure("Not read to its end at offset " + end + " in " + LIMIT, null);
        }
        for (ConsumerRecord<String, String> line : consumer.poll(Duration.ofMillis(200))) {
          take(line, reader);
        }
      }
    } catch (KafkaException e) {
      throw new LogFailure("Cannot read topic " + TOPIC + ": " + e.getMessage(), e);
    }
  }

  /**
   * A line that is none, or that contradicts one before it, was not written here. It is passed
   * over, as what came first is what records were written with.
   */
  private void take(ConsumerRecord<String, String> line, Consumer<SchemaLedger.Entry> reader) {
    try {
      SchemaLedger.Entry entry = JSON.readValue(line.value(), SchemaLedger.Entry.class);
      if (!entry.key().equals(line.key())) {
        throw new IllegalArgumentException("The line of " + entry.key() + " has another key");
      }
      reader.accept(entry);
      lines.put(entry.key(), entry);
      overwritten.remove(entry.key());
    } catch (JsonProcessingException | RuntimeException noLine) {
      if (line.key() != null && lines.containsKey(line.key())) {
        overwritten.add(line.key());
      }
      skipped++;
      if (Long.bitCount(skipped) == 1) {
        LOG.errorf(
            noLine,
            "%s offset %d is no line of the schema registry and is passed over (%d so far). Look at"
                + " who may write to this topic",
            TOPIC,
            line.offset(),
            skipped);
      }
    }
  }

  /**
   * Writes again the lines under whose keys something else was written since: the topic is
   * compacted, and would keep only that.
   */
  void restoreOverwritten() throws LogFailure {
    for (String key : List.copyOf(overwritten)) {
      append(lines.get(key));
      overwritten.remove(key);
    }
  }

  /** Writes a line and returns when the broker has it. */
  void append(SchemaLedger.Entry entry) throws LogFailure {
    try {
      producer
          .send(new ProducerRecord<>(TOPIC, 0, entry.key(), JSON.writeValueAsString(entry)))
          .get(LIMIT.toMillis(), TimeUnit.MILLISECONDS);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new LogFailure("Interrupted while writing to topic " + TOPIC, e);
    } catch (ExecutionException | TimeoutException | KafkaException | JsonProcessingException e) {
      throw new LogFailure("Cannot write to topic " + TOPIC + ": " + e.getMessage(), e);
    }
  }

  @Override
  public void close() {
    producer.close(Duration.ofSeconds(2));
    consumer.close();
  }

  private static void createTopic(Map<String, ?> clientSettings) {
    NewTopic topic =
        new NewTopic(TOPIC, 1, (short) 1)
            .configs(Map.of("cleanup.policy", "compact", "retention.ms", "-1"));
    try (Admin admin =
        Admin.create(
            with(
                clientSettings,
                Map.of(
                    "request.timeout.ms",
                    "5000",
                    "default.api.timeout.ms",
                    Long.toString(LIMIT.toMillis()))))) {
      admin.createTopics(List.of(topic)).all().get(LIMIT.toMillis(), TimeUnit.MILLISECONDS);
    } catch (ExecutionException e) {
      if (!(e.getCause() instanceof TopicExistsException)) {
        throw unanswered(clientSettings, e);
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw unanswered(clientSettings, e);
    } catch (TimeoutException | KafkaException e) {
      throw unanswered(clientSettings, e);
    }
  }

  private static Map<String, Object> with(Map<String, ?> clientSettings, Map<String, ?> further) {
    Map<String, Object> settings = new HashMap<>(clientSettings);
    settings.putAll(further);
    return settings;
  }

  private static CannotStart unanswered(Map<String, ?> clientSettings, Exception cause) {
    return new CannotStart(
        "The schema registry did not start: the broker at "
            + clientSettings.get("bootstrap.servers")
            + " did not make topic "
            + TOPIC
            + " within "
            + LIMIT.toSeconds()
            + " s: "
            + cause
            + ". Start the broker first, or correct its address",
        cause);
  }
}
