package org.kornspur.processors.stream;

import java.util.List;
import org.apache.kafka.streams.state.ReadOnlyKeyValueStore;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.wire.WireFormat;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.pedigree.Pedigree;

/** The pedigree as the store on this instance has it. */
public final class PedigreeReader implements Pedigree {
  private final StandingRecords records;
  private final ReadOnlyKeyValueStore<String, byte[]> edges;

  public PedigreeReader(WireFormat wire, ReadOnlyKeyValueStore<String, byte[]> edges) {
    this.records = new StandingRecords(wire);
    this.edges = edges;
  }

  @Override
  public List<Edge> edgesInto(Subject child) {
    return scan(Keys.prefix("up", child));
  }

  @Override
  public List<Edge> edgesOutOf(Subject parent) {
    return scan(Keys.prefix("down", parent));
  }

  private List<Edge> scan(String prefix) {
    return Keys.scan(edges, prefix).stream().map(held -> records.readEdge(held.value)).toList();
  }
}
