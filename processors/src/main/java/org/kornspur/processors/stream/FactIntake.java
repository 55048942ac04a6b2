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
record FactIntake(WireFormat wire, TrustedKeys keys, StateStores stores) {
  static final String FACTS = "facts";
  static final String REVOCATIONS = "revocations";
  static final String REGISTER_FACT = "register-fact";
  static final String REGISTER_REVOCATION = "register-revocation";
  static final String TO_SUBJECTS = "to-subjects";
  static final String TO_REVOCATIONS = "to-revocations";
  static final String TO_QUARANTINE = "to-quarantine";

  void addTo(Topology topology) {
    var bytes = Serdes.ByteArray();
    topology.addSource(FACTS, bytes.deserializer(), bytes.deserializer(), Topics.FACTS.topicName());
    Topics.REVOCATIONS.addSource(topology, REVOCATIONS, Topics.revocations());
    topology
        .addProcessor(REGISTER_FACT, () -> new FactIntakeProcessor(wire, keys), FACTS)
        .addProcessor(REGISTER_REVOCATION, RevocationProcessor::new, REVOCATIONS)
        .addStateStore(
            stores.logged(StateStores.FACT_REGISTER, InternalSerdes.serde(RegisterEntry.class)),
            REGISTER_FACT,
            REGISTER_REVOCATION);
    Topics.BY_SUBJECT.addSink(
        topology,
        TO_SUBJECTS,
        Topics.subjectMessages().serializer(),
        REGISTER_FACT,
        REGISTER_REVOCATION);
    Topics.REVOCATIONS.addSink(
        topology, TO_REVOCATIONS, Topics.revocations().serializer(), REGISTER_FACT);
    Topics.QUARANTINE.addSink(topology, TO_QUARANTINE, Topics.refused(), REGISTER_FACT);
  }
}
