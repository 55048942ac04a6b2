package org.kornspur.processors.stream;

import java.util.Optional;
import java.util.Set;
import org.apache.kafka.common.serialization.Serdes;
import org.apache.kafka.streams.Topology;
import org.apache.kafka.streams.processor.StreamPartitioner;

/**
 * One link for each record of the facts topic, whatever becomes of it, and signed checkpoints. Both
 * go to the partition that the record is in, within the transaction that takes the record, so that
 * neither a restart nor a move of the work makes a fork.
 */
record FactChain(ChainSettings settings, StateStores stores) {
  static final String CHAIN_FACT = "chain-fact";
  static final String TO_CHAIN = "to-chain";
  static final String TO_CHECKPOINTS = "to-checkpoints";

  void addTo(Topology topology) {
    var bytes = Serdes.ByteArray();
    topology
        .addProcessor(CHAIN_FACT, () -> new ChainKeeper(settings), FactIntake.FACTS)
        .addStateStore(stores.loggedOnceACommit(StateStores.CHAIN_HEADS, bytes), CHAIN_FACT)
        .addStateStore(stores.logged(StateStores.CHAIN_INDEX, bytes), CHAIN_FACT)
        .addSink(
            TO_CHAIN,
            Topics.CHAIN.topicName(),
            (topic, placed) -> placed.key(),
            (topic, placed) -> placed.value(),
            samePartition(),
            CHAIN_FACT)
        .addSink(
            TO_CHECKPOINTS,
            Topics.CHECKPOINTS.topicName(),
            (topic, placed) -> placed.key(),
            (topic, placed) -> placed.value(),
            samePartition(),
            CHAIN_FACT);
  }

  private static StreamPartitioner<Placed, Placed> samePartition() {
    return (topic, key, value, partitions) -> Optional.of(Set.of(value.partition()));
  }

  /** A record to be written, with the partition that it belongs to. */
  record Placed(int partition, byte[] key, byte[] value) {}
}
