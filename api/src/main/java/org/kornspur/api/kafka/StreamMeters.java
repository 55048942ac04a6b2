package org.kornspur.api.kafka;

import io.micrometer.core.instrument.Meter;
import io.micrometer.core.instrument.MeterRegistry;
import io.micrometer.core.instrument.Timer;
import io.micrometer.core.instrument.binder.kafka.KafkaStreamsMetrics;
import io.micrometer.core.instrument.config.MeterFilter;
import io.micrometer.core.instrument.config.MeterFilterReply;
import jakarta.enterprise.inject.Produces;
import jakarta.inject.Singleton;
import java.time.Duration;
import java.util.List;
import org.apache.kafka.streams.KafkaStreams;
import org.kornspur.processors.stream.StandingDelays;

/**
 * How long facts take to a standing, and what Kafka Streams and its clients count of their own
 * work, as metrics.
 */
final class StreamMeters implements AutoCloseable {
  private static final String OF_KAFKA = "kafka.";

  /** What an operator looks at; of stores and nodes there are thousands. */
  private static final List<String> KEPT =
      List.of(
          "kafka.stream.thread.",
          "kafka.stream.alive.",
          "kafka.stream.failed.",
          "kafka.consumer.fetch.manager.records.lag",
          "kafka.consumer.coordinator.rebalance.",
          "kafka.producer.record.error.",
          "kafka.producer.request.latency.");

  private final MeterRegistry meters;
  private final Timer delay;
  private KafkaStreamsMetrics bound;

  StreamMeters(MeterRegistry meters) {
    this.meters = meters;
    this.delay =
        Timer.builder("kornspur.fact.to.standing")
            .description("From when the log received a fact until a dossier was judged with it")
            .serviceLevelObjectives(
                Duration.ofSeconds(1),
                Duration.ofSeconds(5),
                Duration.ofSeconds(30),
                Duration.ofMinutes(2),
                Duration.ofMinutes(10),
                Duration.ofHours(1))
            .register(meters);
  }

  StandingDelays delays() {
    return new StandingDelays(delay::record);
  }

  /** Tells of these processors, and no more of those before. */
  void follow(KafkaStreams streams) {
    close();
    bound = new KafkaStreamsMetrics(streams);
    bound.bindTo(meters);
  }

  @Override
  public void close() {
    if (bound != null) {
      bound.close();
      bound = null;
    }
  }

  /** Keeps the metrics page short. */
  static final class Filters {
    private Filters() {}

    @Produces
    @Singleton
    static MeterFilter fewOfKafka() {
      return new MeterFilter() {
        @Override
        public MeterFilterReply accept(Meter.Id id) {
          String name = id.getName();
          return !name.startsWith(OF_KAFKA) || KEPT.stream().anyMatch(name::startsWith)
              ? MeterFilterReply.NEUTRAL
              : MeterFilterReply.DENY;
        }
      };
    }
  }
}
