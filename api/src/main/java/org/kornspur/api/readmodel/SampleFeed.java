package org.kornspur.api.readmodel;

import io.micrometer.core.instrument.Gauge;
import io.micrometer.core.instrument.MeterRegistry;
import io.quarkus.runtime.ShutdownEvent;
import io.quarkus.runtime.StartupEvent;
import jakarta.annotation.Priority;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import jakarta.inject.Inject;
import java.util.List;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.api.kafka.Engine;
import org.kornspur.api.kafka.NotReady;
import org.kornspur.contract.EnterpriseDeclared;
import org.kornspur.processors.stream.Topics;

/** Keeps the index of laboratory samples and the names of enterprises in step with the facts. */
@ApplicationScoped
public class SampleFeed implements ReadsTopics {
  private final SampleIndex samples = new SampleIndex();
  private final EnterpriseNames enterprises = new EnterpriseNames();
  private final TopicFollower feed;

  @Inject
  public SampleFeed(Engine engine, MeterRegistry meters) {
    this.feed =
        new TopicFollower(
            "samples",
            Topics.FACTS.topicName(),
            engine,
            new FactTypeFilter(engine, this::take),
            this::clear);
    Gauge.builder("kornspur.samples", samples, SampleIndex::size)
        .description("Samplings and results that the lists of laboratories are made from")
        .register(meters);
  }

  void start(@Observes @Priority(TopicFollower.AFTER_THE_ENGINE) StartupEvent started) {
    feed.start();
  }

  @Override
  public List<TopicFollower> feeds() {
    return List.of(feed);
  }

  void stop(@Observes @Priority(TopicFollower.BEFORE_THE_ENGINE) ShutdownEvent stopping) {
    feed.close();
  }

  /**
   * Every sample that is assigned to a laboratory.
   *
   * @throws NotReady until the facts have been read to the end that they had at the start
   */
  public SampleIndex samples() {
    feed.requireCaughtUp();
    return samples;
  }

  /** Names of enterprises, as far as the facts are read by now. */
  public EnterpriseNames enterprises() {
    return enterprises;
  }

  private void clear() {
    samples.clear();
    enterprises.clear();
  }

  private boolean take(SpecificRecord fact) {
    if (fact instanceof EnterpriseDeclared declared) {
      enterprises.put(declared);
      return true;
    }
    boolean concerns = SampleIndex.concerns(fact);
    if (concerns) {
      samples.put(fact);
    }
    return concerns;
  }
}
