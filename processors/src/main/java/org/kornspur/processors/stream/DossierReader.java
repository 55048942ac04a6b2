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
  /** Subject, superseded fact, superseding fact. */
  private static final int REVOCATION_KEY_PARTS = 3;

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

  /**
   * What is kept of a subject.
   *
   * @param entries its facts
   * @param unreadable keys of what is kept there and cannot be read
   */
  record Held(List<Entry> entries, List<String> unreadable) {}

  /**
   * Every fact of a subject; empty for a subject that no fact names.
   *
   * @throws UnreadableDossier if some of it cannot be read
   */
  public List<Entry> entriesOf(Subject subject) {
    Held held = heldBy(subject);
    if (!held.unreadable().isEmpty()) {
      throw new UnreadableDossier(subject, held.unreadable());
    }
    return held.entries();
  }

  /** What can be read of a subject, and what cannot. */
  Held heldBy(Subject subject) {
    List<String> unreadable = new ArrayList<>();
    List<SpecificRecord> held = factsOf(subject, unreadable);
    Set<String> acts =
        held.stream()
            .filter(fact -> FactType.of(fact).isAct())
            .map(DossierReader::idOf)
            .collect(Collectors.toSet());
    Map<String, List<Superseded>> superseded = supersededFacts(subject, unreadable);
    List<Entry> entries =
        held.stream()
            .map(
                fact ->
                    new Entry(
                        fact,
                        superseded.getOrDefault(idOf(fact), List.of()).stream()
                            .filter(
                                by -> !acts.contains(idOf(fact)) || acts.contains(by.byFactId()))
                            .findFirst()))
            .toList();
    return new Held(entries, List.copyOf(unreadable));
  }

  private List<SpecificRecord> factsOf(Subject subject, List<String> unreadable) {
    List<SpecificRecord> found = new ArrayList<>();
    String prefix = Keys.prefix(subject);
    try (KeyValueIterator<String, byte[]> held = facts.prefixScan(prefix, new StringSerializer())) {
      while (held.hasNext()) {
        KeyValue<String, byte[]> kept = held.next();
        try {
          SpecificRecord fact = wire.decode(kept.value);
          idOf(fact);
          FactType.of(fact);
          found.add(fact);
        } catch (RuntimeException fault) {
          if (PoisonRecords.isNoFaultOfTheRecord(fault)) {
            throw fault;
          }
          unreadable.add(kept.key);
        }
      }
    }
    return found;
  }

  private Map<String, List<Superseded>> supersededFacts(Subject subject, List<String> unreadable) {
    Map<String, List<Superseded>> found = new HashMap<>();
    try (KeyValueIterator<String, String> held =
        revocations.prefixScan(Keys.prefix(subject), new StringSerializer())) {
      while (held.hasNext()) {
        KeyValue<String, String> revocation = held.next();
        List<String> parts = Keys.parts(revocation.key);
        if (parts.size() == REVOCATION_KEY_PARTS) {
          found
              .computeIfAbsent(parts.get(1), superseded -> new ArrayList<>())
              .add(RevocationNote.read(revocation.value).superseded(parts.get(2)));
        } else {
          unreadable.add(revocation.key);
        }
      }
    }
    return found;
  }

  private static String idOf(SpecificRecord fact) {
    return FactType.headerOf(fact).getFactId();
  }
}
