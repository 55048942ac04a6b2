package org.kornspur.api.feed;

import io.micrometer.core.instrument.Gauge;
import io.micrometer.core.instrument.MeterRegistry;
import io.quarkus.runtime.StartupEvent;
import jakarta.annotation.PreDestroy;
import jakarta.annotation.Priority;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import jakarta.inject.Inject;
import java.nio.ByteBuffer;
import java.util.HashSet;
import java.util.Set;
import org.apache.avro.specific.SpecificRecord;
import org.apache.kafka.clients.consumer.ConsumerRecord;
import org.kornspur.api.engine.Engine;
import org.kornspur.api.engine.NotReady;
import org.kornspur.processors.stream.Topics;

/**
 * Keeps the index of laboratory samples in step with the facts. Facts of other types are passed by
 * at their schema's id, undecoded.
 */
@ApplicationScoped
public class SampleFeed {
  private static final int AFTER_THE_ENGINE = 5_000;
  private static final int SCHEMA_ID_AT = 1;

  private final Engine engine;
  private final SampleIndex samples = new SampleIndex();
  private final TopicFeed feed;
  private final Set<Integer> otherSchemas = new HashSet<>();

  @Inject
  public SampleFeed(Engine engine, MeterRegistry meters) {
    this.engine = engine;
    this.feed = new TopicFeed(Topics.FACTS.topicName(), engine, this::receive);
    Gauge.builder("kornspur.samples", samples, SampleIndex::size)
        .description("Samplings and results that the lists of laboratories are made from")
        .register(meters);
  }

  void start(@Observes @Priority(AFTER_THE_ENGINE) StartupEvent started) {
    feed.start();
  }

  @PreDestroy
  void stop() {
    feed.close();
  }

  /**
   * Every sample that is assigned to a laboratory.
   *
   * @throws NotReady until the facts have been read to the end that they had at the start
   */
  public SampleIndex samples() {
    if (!feed.isCaughtUp()) {
      throw new NotReady("This instance still reads the samplings of earlier days", 2);
    }
    return samples;
  }

  private void receive(ConsumerRecord<String, byte[]> record) {
    byte[] value = record.value();
    if (value == null || value.length < SCHEMA_ID_AT + Integer.BYTES) {
      return;
    }
    int schemaId = ByteBuffer.wrap(value).getInt(SCHEMA_ID_AT);
    if (otherSchemas.contains(schemaId)) {
      return;
    }
    SpecificRecord fact = engine.wire().decode(value);
    if (SampleIndex.concerns(fact)) {
      samples.put(fact);
    } else {
      otherSchemas.add(schemaId);
    }
  }
}
