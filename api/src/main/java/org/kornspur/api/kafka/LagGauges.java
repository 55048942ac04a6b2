package org.kornspur.api.kafka;

import io.micrometer.core.instrument.Gauge;
import io.micrometer.core.instrument.MeterRegistry;
import io.quarkus.runtime.StartupEvent;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import jakarta.inject.Inject;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.function.ToDoubleFunction;
import org.kornspur.api.time.SteadyClock;
import org.kornspur.processors.stream.Topics;

/**
 * How far judging and signing are behind, and what room is left, as metrics. What cannot be told
 * yet is no number.
 */
@ApplicationScoped
class LagGauges {
  @Inject ProcessorsLifecycle lifecycle;
  @Inject IntakeLimit limit;
  private final Clock clock = SteadyClock.ofMachine();

  void register(@Observes StartupEvent start, MeterRegistry meters) {
    gauge(
            "kornspur.facts.oldest.waiting.seconds",
            waiting -> waiting.oldestFact().map(this::secondsSince).orElse(0.0))
        .description("How long the oldest fact waits to be judged; 0 where none waits")
        .register(meters);
    gauge(
            "kornspur.checkpoint.age.seconds",
            waiting ->
                waiting.newestOfEach(Topics.CHECKPOINTS).map(this::secondsSince).orElse(Double.NaN))
        .description("Since that partition was signed that was signed longest ago")
        .register(meters);
    Gauge.builder(
            "kornspur.disk.free",
            limit,
            room -> room.freeSpace().map(Long::doubleValue).orElse(Double.NaN))
        .baseUnit("bytes")
        .description("Free on the disk of the data folder")
        .register(meters);
  }

  private Gauge.Builder<LagGauges> gauge(String name, ToDoubleFunction<ProcessingLag> value) {
    return Gauge.builder(
        name,
        this,
        one -> {
          try {
            return value.applyAsDouble(lifecycle.processors().backlog());
          } catch (NotReady notYet) {
            return Double.NaN;
          }
        });
  }

  private double secondsSince(Instant then) {
    return Duration.between(then, clock.instant()).toMillis() / 1000.0;
  }
}
