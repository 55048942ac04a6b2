package org.kornspur.processors.stream;

import java.util.function.Supplier;
import org.apache.kafka.streams.Topology;
import org.kornspur.ingest.seal.TrustedKeys;
import org.kornspur.ingest.wire.WireFormat;
import org.kornspur.processors.judging.Judge;

/** The whole topology: each part in a class of its own, in the order in which a fact meets them. */
public final class KornspurTopology {

  private KornspurTopology() {}

  /**
   * Builds it for rules that may change while it runs.
   *
   * @param wire reads and writes facts and standings
   * @param judges the judge by the rules in force; asked each time that a dossier is judged
   * @param keys keys whose signature under an act of a person counts
   * @param stores how state is kept
   * @param chain how the log of facts is sealed
   */
  public static Topology build(
      WireFormat wire,
      Supplier<Judge> judges,
      TrustedKeys keys,
      StateStores stores,
      ChainSettings chain) {
    Topology topology = new Topology();
    new FactIntake(wire, keys, stores).addTo(topology);
    new FactChain(chain, stores).addTo(topology);
    new Dossiers(wire, judges, stores).addTo(topology);
    new IsolationJoin(stores).addTo(topology);
    new GlobalPedigree(wire, stores).addTo(topology);
    return topology;
  }
}
