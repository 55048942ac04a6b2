package org.kornspur.processors.stream;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.apache.kafka.common.serialization.StringSerializer;
import org.apache.kafka.streams.KeyValue;
import org.apache.kafka.streams.state.KeyValueIterator;
import org.apache.kafka.streams.state.ReadOnlyKeyValueStore;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.wire.WireFormat;
import org.kornspur.processors.dossier.Entry;
import org.kornspur.processors.dossier.Entry.Superseded;

/** Reads the facts of one subject from the stores, superseded ones with what took their place. */
public final class DossierReader {
  private final WireFormat wire;
  private final ReadOnlyKeyValueStore<String, byte[]> facts;
  private final ReadOnlyKeyValueStore<String, String> revocations;

  public DossierReader(
      WireFormat wire,
      ReadOnlyKeyValueStore<String, byte[]> facts,
      ReadOnlyKeyValueStore<String, String> revocations) {
    this.wire = wire;
    this.facts = facts;
    this.revocations = revocations;
  }

  /** Every fact of a subject; empty for a subject that no fact names. */
  public List<Entry> entriesOf(Subject subject) {
    Map<String, Superseded> superseded = supersededFacts(subject);
    List<Entry> entries = new ArrayList<>();
    String prefix = Keys.prefix(subject);
    try (KeyValueIterator<String, byte[]> held = facts.prefixScan(prefix, new StringSerializer())) {
      while (held.hasNext()) {
        KeyValue<String, byte[]> fact = held.next();
        String factId = fact.key.substring(prefix.length());
        entries.add(
            new Entry(wire.decode(fact.value), Optional.ofNullable(superseded.get(factId))));
      }
    }
    return entries;
  }

  private Map<String, Superseded> supersededFacts(Subject subject) {
    Map<String, Superseded> found = new HashMap<>();
    try (KeyValueIterator<String, String> held =
        revocations.prefixScan(Keys.prefix(subject), new StringSerializer())) {
      while (held.hasNext()) {
        KeyValue<String, String> revocation = held.next();
        List<String> parts = Keys.parts(revocation.key);
        found.putIfAbsent(parts.get(1), new Superseded(parts.get(2), revocation.value));
      }
    }
    return found;
  }
}
