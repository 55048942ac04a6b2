package org.kornspur.processors.stream;

import org.apache.kafka.common.serialization.Serdes;
import org.apache.kafka.streams.Topology;
import org.apache.kafka.streams.processor.api.Processor;
import org.apache.kafka.streams.processor.api.ProcessorContext;
import org.apache.kafka.streams.processor.api.Record;
import org.apache.kafka.streams.state.KeyValueStore;

/** The whole pedigree as a store on every instance, fed from the compacted topic of edges. */
final class PedigreeEverywhere {
  static final String EDGES = "edges";
  static final String KEEP_EDGE = "keep-edge";

  private final Stores stores;

  PedigreeEverywhere(Stores stores) {
    this.stores = stores;
  }

  void addTo(Topology topology) {
    var bytes = Serdes.ByteArray();
    topology.addGlobalStore(
        stores.global(Stores.PEDIGREE, bytes),
        EDGES,
        Serdes.String().deserializer(),
        bytes.deserializer(),
        Topics.EDGES.topicName(),
        KEEP_EDGE,
        KeepEdge::new);
  }

  private static final class KeepEdge implements Processor<String, byte[], Void, Void> {
    private KeyValueStore<String, byte[]> edges;

    @Override
    public void init(ProcessorContext<Void, Void> context) {
      edges = context.getStateStore(Stores.PEDIGREE);
    }

    @Override
    public void process(Record<String, byte[]> record) {
      if (record.value() == null) {
        edges.delete(record.key());
      } else {
        edges.put(record.key(), record.value());
      }
    }
  }
}
