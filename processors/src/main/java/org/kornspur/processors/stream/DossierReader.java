package org.kornspur.processors.stream;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.apache.avro.specific.SpecificRecord;
import org.apache.kafka.common.serialization.StringSerializer;
import org.apache.kafka.streams.KeyValue;
import org.apache.kafka.streams.state.KeyValueIterator;
import org.apache.kafka.streams.state.ReadOnlyKeyValueStore;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.wire.WireFormat;
import org.kornspur.processors.dossier.Entry;
import org.kornspur.processors.dossier.Entry.Superseded;

/**
 * Reads the facts of one subject from the stores, superseded ones with what took their place.
 *
 * <p>The act of a person is undone by another act alone, never by a withdrawal or correction that
 * anybody who sends facts could send: such a one is passed over here.
 */
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
    List<SpecificRecord> held = factsOf(subject);
    Set<String> acts =
        held.stream()
            .filter(fact -> FactType.of(fact).isAct())
            .map(DossierReader::idOf)
            .collect(Collectors.toSet());
    Map<String, List<Superseded>> superseded = supersededFacts(subject);
    return held.stream()
        .map(
            fact ->
                new Entry(
                    fact,
                    superseded.getOrDefault(idOf(fact), List.of()).stream()
                        .filter(by -> !acts.contains(idOf(fact)) || acts.contains(by.byFactId()))
                        .findFirst()))
        .toList();
  }

  private List<SpecificRecord> factsOf(Subject subject) {
    List<SpecificRecord> found = new ArrayList<>();
    String prefix = Keys.prefix(subject);
    try (KeyValueIterator<String, byte[]> held = facts.prefixScan(prefix, new StringSerializer())) {
      while (held.hasNext()) {
        found.add(wire.decode(held.next().value));
      }
    }
    return found;
  }

  private Map<String, List<Superseded>> supersededFacts(Subject subject) {
    Map<String, List<Superseded>> found = new HashMap<>();
    try (KeyValueIterator<String, String> held =
        revocations.prefixScan(Keys.prefix(subject), new StringSerializer())) {
      while (held.hasNext()) {
        KeyValue<String, String> revocation = held.next();
        List<String> parts = Keys.parts(revocation.key);
        found
            .computeIfAbsent(parts.get(1), superseded -> new ArrayList<>())
            .add(RevocationNote.read(revocation.value).superseded(parts.get(2)));
      }
    }
    return found;
  }

  private static String idOf(SpecificRecord fact) {
    return FactType.headerOf(fact).getFactId();
  }
}
