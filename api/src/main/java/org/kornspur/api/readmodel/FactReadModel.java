package org.kornspur.api.readmodel;

import io.micrometer.core.instrument.Gauge;
import io.micrometer.core.instrument.MeterRegistry;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.nio.ByteBuffer;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.apache.avro.specific.SpecificRecord;
import org.apache.kafka.clients.consumer.ConsumerRecord;
import org.kornspur.api.kafka.NotReady;
import org.kornspur.api.kafka.ProcessorsClient;
import org.kornspur.contract.Dispatch;
import org.kornspur.contract.EnterpriseDeclared;
import org.kornspur.processors.stream.Topics;

/** Label numbers, laboratory samples and names of enterprises, in step with the facts. */
@ApplicationScoped
public class FactReadModel implements ReadsTopics {
  private static final int SCHEMA_ID_AT = 1;

  private final LabelIndex labels = new LabelIndex();
  private final SampleIndex samples = new SampleIndex();
  private final EnterpriseNames enterprises = new EnterpriseNames();
  private final ProcessorsClient processors;
  private final TopicFollower follower;

  /** Ids of the schemas of facts that are not looked at; they are passed by undecoded. */
  private final Set<Integer> otherSchemas = new HashSet<>();

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

  /** Names of enterprises, as far as the facts are read by now. */
  public EnterpriseNames enterprises() {
    return enterprises;
  }

  private void clear() {
    labels.clear();
    samples.clear();
    enterprises.clear();
  }

  private void receive(ConsumerRecord<String, byte[]> record) {
    byte[] value = record.value();
    if (value == null || value.length < SCHEMA_ID_AT + Integer.BYTES) {
      return;
    }
    int schemaId = ByteBuffer.wrap(value).getInt(SCHEMA_ID_AT);
    if (!otherSchemas.contains(schemaId) && !take(processors.wire().decode(value))) {
      otherSchemas.add(schemaId);
    }
  }

  /** Takes a fact and says that it did; false for a type that it never takes. */
  private boolean take(SpecificRecord fact) {
    if (fact instanceof Dispatch dispatch) {
      labels.put(dispatch);
      return true;
    }
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
