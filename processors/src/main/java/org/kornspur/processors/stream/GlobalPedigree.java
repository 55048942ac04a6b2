package org.kornspur.processors.stream;

import java.util.Objects;
import org.apache.kafka.common.serialization.Serdes;
import org.apache.kafka.streams.Topology;
import org.apache.kafka.streams.processor.api.Processor;
import org.apache.kafka.streams.processor.api.ProcessorContext;
import org.apache.kafka.streams.processor.api.Record;
import org.apache.kafka.streams.state.KeyValueStore;
import org.kornspur.ingest.registry.RegistryException;
import org.kornspur.ingest.wire.WireFormat;
import org.kornspur.processors.pedigree.Edge;

/** The whole pedigree as a store on every instance, fed from the compacted topic of edges. */
record GlobalPedigree(WireFormat wire, StateStores stores) {
  static final String EDGES = "edges";
  static final String KEEP_EDGE = "keep-edge";

  void addTo(Topology topology) {
    var bytes = Serdes.ByteArray();
    topology.addGlobalStore(
        stores.global(StateStores.PEDIGREE, bytes),
        EDGES,
        Serdes.String().deserializer(),
        bytes.deserializer(),
        Topics.EDGES.topicName(),
        KEEP_EDGE,
        () -> new KeepEdge(new StandingRecords(wire)));
  }

  /** Throws nothing on account of a record: the thread that runs it cannot be replaced. */
  private static final class KeepEdge implements Processor<String, byte[], Void, Void> {
    private final StandingRecords records;
    private KeyValueStore<String, byte[]> edges;
    private ProcessorContext<Void, Void> context;
    private SkippedRecords skipped;

    KeepEdge(StandingRecords records) {
      this.records = records;
    }

    @Override
    public void init(ProcessorContext<Void, Void> context) {
      this.context = context;
      skipped = PoisonRecords.counter(context.appConfigs());
      edges = context.getStateStore(StateStores.PEDIGREE);
    }

    @Override
    public void process(Record<String, byte[]> record) {
      try {
        requireEdge(record);
      } catch (RegistryException notNow) {
        // kept all the same: who asks for the pedigree reads it then
      } catch (RuntimeException noEdge) {
        skipped.add(context, KEEP_EDGE, noEdge);
        return;
      }
      if (record.value() == null) {
        edges.delete(record.key());
      } else {
        edges.put(record.key(), record.value());
      }
    }

    /** What takes the place of an edge must be that edge, or the pedigree would lose it. */
    private void requireEdge(Record<String, byte[]> record) {
      Objects.requireNonNull(record.key(), "key");
      if (record.value() == null) {
        return;
      }
      Edge edge = records.readEdge(record.value());
      if (!record.key().equals(Keys.edgeUp(edge.child(), edge.parent(), edge.factId()))
          && !record.key().equals(Keys.edgeDown(edge.parent(), edge.child(), edge.factId()))) {
        throw new IllegalArgumentException("Another edge than the key names");
      }
    }
  }
}
