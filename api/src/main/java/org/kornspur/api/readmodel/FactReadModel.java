package org.kornspur.api.readmodel;

import io.micrometer.core.instrument.Gauge;
import io.micrometer.core.instrument.MeterRegistry;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.List;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import org.apache.avro.specific.SpecificRecord;
import org.apache.kafka.clients.consumer.ConsumerRecord;
import org.kornspur.api.kafka.NotReady;
import org.kornspur.api.kafka.ProcessorsClient;
import org.kornspur.contract.Dispatch;
import org.kornspur.contract.EnterpriseDeclared;
import org.kornspur.contract.HybridDeclared;
import org.kornspur.processors.stream.Topics;

/** Label numbers, samples, names of enterprises and texts to search by, in step with the facts. */
@ApplicationScoped
public class FactReadModel implements ReadsTopics {
  private final LabelIndex labels = new LabelIndex();
  private final SampleIndex samples = new SampleIndex();
  private final EnterpriseNames enterprises = new EnterpriseNames();
  private final SearchIndex search = new SearchIndex();
  private final GroundIndex ground = new GroundIndex();
  private final Set<String> hybrids = ConcurrentHashMap.newKeySet();
  private final ProcessorsClient processors;
  private final TopicFollower follower;

  @Inject
  public FactReadModel(ProcessorsClient processors, MeterRegistry meters) {
    this.processors = processors;
    this.follower =
        new TopicFollower(
            "facts", Topics.FACTS.topicName(), processors, this::receive, this::clear);
    Gauge.builder("kornspur.labels", labels, LabelIndex::size)
        .description("Label numbers that can be looked up")
        .register(meters);
    Gauge.builder("kornspur.samples", samples, SampleIndex::size)
        .description("Samplings and results that the lists of laboratories are made from")
        .register(meters);
  }

  @Override
  public List<TopicFollower> followers() {
    return List.of(follower);
  }

  /**
   * Every label number.
   *
   * @throws NotReady until the facts have been read to the end that they had at the start
   */
  public LabelIndex labels() {
    follower.requireCaughtUp();
    return labels;
  }

  /**
   * Every sample that is assigned to a laboratory.
   *
   * @throws NotReady until the facts have been read to the end that they had at the start
   */
  public SampleIndex samples() {
    follower.requireCaughtUp();
    return samples;
  }

  /**
   * What crops and lots are searched by.
   *
   * @throws NotReady until the facts have been read to the end that they had at the start
   */
  public SearchIndex search() {
    follower.requireCaughtUp();
    return search;
  }

  /**
   * Which crops and sources name ground.
   *
   * @throws NotReady until the facts have been read to the end that they had at the start
   */
  public GroundIndex ground() {
    follower.requireCaughtUp();
    return ground;
  }

  /** Names of enterprises, as far as the facts are read by now. */
  public EnterpriseNames enterprises() {
    return enterprises;
  }

  /** How many hybrids are declared, as far as the facts are read by now. */
  public int hybrids() {
    return hybrids.size();
  }

  private void clear() {
    labels.clear();
    samples.clear();
    enterprises.clear();
    search.clear();
    ground.clear();
    hybrids.clear();
  }

  private void receive(ConsumerRecord<String, byte[]> record) {
    if (record.value() != null) {
      take(processors.wire().decode(record.value()));
    }
  }

  private void take(SpecificRecord fact) {
    search.put(fact);
    ground.put(fact);
    if (fact instanceof Dispatch dispatch) {
      labels.put(dispatch);
    } else if (fact instanceof EnterpriseDeclared declared) {
      enterprises.put(declared);
    } else if (fact instanceof HybridDeclared declared) {
      hybrids.add(declared.getHybridId());
    } else if (SampleIndex.concerns(fact)) {
      samples.put(fact);
    }
  }
}
