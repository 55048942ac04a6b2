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
import org.kornspur.contract.Dispatch;
import org.kornspur.processors.stream.Topics;

/** Keeps the index of label numbers in step with the facts. */
@ApplicationScoped
public class LabelFeed implements ReadsTopics {
  private final LabelIndex labels = new LabelIndex();
  private final TopicFollower feed;

  @Inject
  public LabelFeed(Engine engine, MeterRegistry meters) {
    this.feed =
        new TopicFollower(
            "labels",
            Topics.FACTS.topicName(),
            engine,
            new FactTypeFilter(engine, this::take),
            labels::clear);
    Gauge.builder("kornspur.labels", labels, LabelIndex::size)
        .description("Label numbers that can be looked up")
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
   * Every label number.
   *
   * @throws NotReady until the facts have been read to the end that they had at the start
   */
  public LabelIndex labels() {
    feed.requireCaughtUp();
    return labels;
  }

  private boolean take(SpecificRecord fact) {
    if (fact instanceof Dispatch dispatch) {
      labels.put(dispatch);
      return true;
    }
    return false;
  }
}
