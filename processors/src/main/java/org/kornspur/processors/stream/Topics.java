package org.kornspur.processors.stream;

import java.util.List;
import org.apache.kafka.common.errors.SerializationException;
import org.apache.kafka.common.serialization.Serde;
import org.apache.kafka.common.serialization.Serdes;
import org.apache.kafka.common.serialization.Serializer;
import org.apache.kafka.streams.Topology;
import org.kornspur.ingest.chain.ChainLink;
import org.kornspur.ingest.chain.Checkpoint;
import org.kornspur.ingest.publish.FactPublisher;
import org.kornspur.ingest.publish.RecordSize;
import org.kornspur.ingest.wire.WireFormat;

/**
 * Every topic, by name, and how its keys and values are written. All but the broker's own have the
 * same number of partitions, because the sub-topologies rely on equal keys meeting in one task.
 */
public enum Topics {
  /** Facts as they came: key fact id, value in wire format. Kept for ever. */
  FACTS(FactPublisher.FACTS_TOPIC, false),
  /**
   * What was refused: key entry id, with the person who sent it over the interface, or with a mark
   * for what was decided of it; value in wire format.
   */
  QUARANTINE(FactPublisher.QUARANTINE_TOPIC, true),
  /** Accepted facts once for each subject that they name, and marks that a fact was superseded. */
  BY_SUBJECT("kornspur.by-subject", false),
  /** That a fact supersedes another: key the superseded fact's id. */
  REVOCATIONS("kornspur.revocations", false),
  /** What parents, hybrids and isolation cells tell; the loop-back. Key the receiver. */
  REPORTS("kornspur.reports", false),
  /** Where crops and pollen sources lie: key the isolation cell. */
  PLOTS("kornspur.plots", false),
  /** Standing of each crop and lot: key the subject, value in wire format. */
  STANDINGS("kornspur.standings", true),
  /** Edges of the pedigree, each under its parent and under its child. Value in wire format. */
  EDGES("kornspur.edges", true),
  /** Printed names of persons who sign, apart from all facts: key the person id. */
  PEOPLE(FactPublisher.PEOPLE_TOPIC, true),
  /** Plans of the years ahead, which nothing is judged by: key plan and version. */
  PLANS(FactPublisher.PLANS_TOPIC, true),
  /** What persons do about causes, which nothing is judged by: a key of its own for each note. */
  CAUSE_NOTES(FactPublisher.CAUSE_NOTES_TOPIC, true),
  /** What persons want to hear of, with their addresses: key the person id. */
  NOTIFICATION_CHOICES(FactPublisher.NOTIFICATION_CHOICES_TOPIC, true),
  /** Messages to persons and what became of them: key the message id. */
  NOTIFICATION_MESSAGES(FactPublisher.NOTIFICATION_MESSAGES_TOPIC, true),
  /** The link of each record of the facts, in the same partition: key the record's key. */
  CHAIN(ChainLink.TOPIC, false),
  /** Signed heads of the chain, as JSON, in the partition that they are of. Kept for ever. */
  CHECKPOINTS(Checkpoint.TOPIC, false);

  private final String topicName;
  private final boolean compacted;

  Topics(String topicName, boolean compacted) {
    this.topicName = topicName;
    this.compacted = compacted;
  }

  public String topicName() {
    return topicName;
  }

  /** Whether only the latest value of each key is kept. */
  public boolean compacted() {
    return compacted;
  }

  /** Has the topology read this topic, whose keys are text, as all but those of facts and chain. */
  void addSource(Topology topology, String name, Serde<?> values) {
    topology.addSource(name, Serdes.String().deserializer(), values.deserializer(), topicName);
  }

  /** Has the topology write here what these processors send. */
  void addSink(Topology topology, String name, Serializer<?> values, String... processors) {
    topology.addSink(name, topicName, Serdes.String().serializer(), values, processors);
  }

  /** Values of {@link #BY_SUBJECT}. */
  static Serde<SubjectMessage> subjectMessages() {
    return bounded(SubjectMessageSerde.serde());
  }

  /** Values of {@link #REVOCATIONS}. */
  static Serde<Revocation> revocations() {
    return bounded(InternalSerdes.serde(Revocation.class));
  }

  /** Values of {@link #REPORTS}. */
  static Serde<ReportChange> reports() {
    return bounded(ReportChange.serde());
  }

  /** Values of {@link #PLOTS}. */
  static Serde<PlotChange> plots() {
    return bounded(InternalSerdes.serde(PlotChange.class));
  }

  /** Values of {@link #QUARANTINE}, as the intake writes them. */
  static Serializer<IntakeRecord.Refused> refused() {
    return (topic, refused) -> refused.entry();
  }

  /** Values of {@link #STANDINGS}. */
  static Serializer<DossierRecord.OfStanding> standings(WireFormat wire) {
    return (topic, record) -> record == null ? null : record.standing().bytes(wire, topic);
  }

  /** Values of {@link #EDGES}. */
  static Serializer<DossierRecord.OfEdge> edges(WireFormat wire) {
    return (topic, record) -> record == null ? null : record.edge().bytes(wire, topic);
  }

  /**
   * Reads only what the processors could have written: a larger record would not fit into the log
   * of the store that it goes to, and who may not write there stops.
   */
  private static <T> Serde<T> bounded(Serde<T> whole) {
    return Serdes.serdeFrom(
        whole.serializer(),
        (topic, bytes) -> {
          if (bytes != null && bytes.length > RecordSize.MOST_ON_ITS_WAY_BYTES) {
            throw new SerializationException(
                bytes.length + " bytes; the processors write " + RecordSize.MOST_ON_ITS_WAY_BYTES);
          }
          return whole.deserializer().deserialize(topic, bytes);
        });
  }

  /** All topics that must exist before the topology starts. */
  public static List<Topics> all() {
    return List.of(values());
  }
}
