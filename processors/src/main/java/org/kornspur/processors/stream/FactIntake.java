package org.kornspur.processors.stream;

import org.apache.kafka.common.serialization.Serdes;
import org.apache.kafka.streams.Topology;
import org.kornspur.ingest.seal.TrustedKeys;
import org.kornspur.ingest.wire.WireFormat;

/**
 * Facts in, keyed by fact id; facts out, keyed by each subject that they name. What cannot be read
 * or is refused goes to the quarantine topic. The same fact twice counts once; another fact under a
 * known id is a conflict and is refused. An act of a person counts only if a trusted key signed it.
 */
final class FactIntake {
  static final String FACTS = "facts";
  static final String REVOCATIONS = "revocations";
  static final String REGISTER_FACT = "register-fact";
  static final String REGISTER_REVOCATION = "register-revocation";
  static final String TO_SUBJECTS = "to-subjects";
  static final String TO_REVOCATIONS = "to-revocations";
  static final String TO_QUARANTINE = "to-quarantine";

  private final WireFormat wire;
  private final TrustedKeys keys;
  private final StateStores stores;

  FactIntake(WireFormat wire, TrustedKeys keys, StateStores stores) {
    this.wire = wire;
    this.keys = keys;
    this.stores = stores;
  }

  void addTo(Topology topology) {
    var bytes = Serdes.ByteArray();
    var names = Topics.keys();
    topology
        .addSource(FACTS, bytes.deserializer(), bytes.deserializer(), Topics.FACTS.topicName())
        .addSource(
            REVOCATIONS,
            names.deserializer(),
            Topics.revocations().deserializer(),
            Topics.REVOCATIONS.topicName())
        .addProcessor(REGISTER_FACT, () -> new FactIntakeProcessor(wire, keys), FACTS)
        .addProcessor(REGISTER_REVOCATION, RevocationProcessor::new, REVOCATIONS)
        .addStateStore(
            stores.logged(StateStores.FACT_REGISTER, InternalSerdes.serde(RegisterEntry.class)),
            REGISTER_FACT,
            REGISTER_REVOCATION)
        .addSink(
            TO_SUBJECTS,
            Topics.BY_SUBJECT.topicName(),
            names.serializer(),
            Topics.subjectMessages().serializer(),
            REGISTER_FACT,
            REGISTER_REVOCATION)
        .addSink(
            TO_REVOCATIONS,
            Topics.REVOCATIONS.topicName(),
            names.serializer(),
            Topics.revocations().serializer(),
            REGISTER_FACT)
        .addSink(
            TO_QUARANTINE,
            Topics.QUARANTINE.topicName(),
            names.serializer(),
            Topics.refused(),
            REGISTER_FACT);
  }
}
