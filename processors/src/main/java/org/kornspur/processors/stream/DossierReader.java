package org.kornspur.processors.stream;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.apache.avro.specific.SpecificRecord;
import org.apache.kafka.streams.KeyValue;
import org.apache.kafka.streams.state.ReadOnlyKeyValueStore;
import org.kornspur.contract.Correction;
import org.kornspur.contract.SenderRole;
import org.kornspur.ingest.attestation.SignedSubmissions;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.wire.WireFormat;
import org.kornspur.processors.dossier.Entry;
import org.kornspur.processors.dossier.Entry.Superseded;

/**
 * Reads the facts of one subject from the stores, superseded ones with what took their place.
 *
 * <p>Anybody who can write to the topic of facts can claim to be anybody. So a correction or
 * withdrawal takes effect only where the interface took it in, which checked the right to it and
 * signed who was logged in; or where the site vouches for all who can write to its topic. Any other
 * is kept beside the fact that it names, and does not count itself. The same holds for a
 * declaration that would be the latest only by the word of an unknown sender. A correction of an
 * unknown sender that a proven one corrects in turn is thereby confirmed, but for its values.
 *
 * <p>A correction by a fact of another lot or crop takes no effect: a test of another lot makes no
 * test of this one undone. The corrected fact counts on, and an answer is owed. Only a movement of
 * seed may turn out to be one of another lot.
 *
 * <p>Who withdraws a correction has what it corrected count again, where both are of the same
 * subject: a failure must not vanish with what took its place.
 *
 * <p>The act of a person is undone by another act alone, never by a withdrawal or correction that
 * anybody who sends facts could send: such a one is passed over here.
 */
public final class DossierReader {
  /** Subject, superseded fact, superseding fact. */
  private static final int REVOCATION_KEY_PARTS = 3;

  /** Setting of the streams client: true where the site vouches for all producers of facts. */
  public static final String TRUST_PRODUCERS = "kornspur.trust.topic.producers";

  /** What the latest fact of says all of its subject, so that a later one replaces it. */
  private static final Map<Subject.Kind, FactType> DECLARATIONS =
      Map.of(
          Subject.Kind.ENTERPRISE, FactType.ENTERPRISE_DECLARED,
          Subject.Kind.CROP, FactType.FIELD_CROP_DECLARED,
          Subject.Kind.HYBRID, FactType.HYBRID_DECLARED,
          Subject.Kind.LOT, FactType.LOT_DECLARED,
          Subject.Kind.SOURCE, FactType.POLLEN_SOURCE_SEEN);

  private final WireFormat wire;
  private final ReadOnlyKeyValueStore<String, byte[]> facts;
  private final ReadOnlyKeyValueStore<String, String> revocations;
  private final boolean trustsProducers;

  /**
   * @param trustsProducers whether the site vouches for all who can write to its topic of facts
   */
  public DossierReader(
      WireFormat wire,
      ReadOnlyKeyValueStore<String, byte[]> facts,
      ReadOnlyKeyValueStore<String, String> revocations,
      boolean trustsProducers) {
    this.wire = wire;
    this.facts = facts;
    this.revocations = revocations;
    this.trustsProducers = trustsProducers;
  }

  /** What the settings of the streams client say of the producers of facts. */
  static boolean trustsProducers(Map<String, Object> settings) {
    return Boolean.parseBoolean(String.valueOf(settings.get(TRUST_PRODUCERS)));
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
            .map(FactType::idOf)
            .collect(Collectors.toSet());
    Set<String> confirmed = correctedByProvenSenders(held);
    Map<String, List<Named>> named = namedBy(subject, unreadable);
    Map<String, Superseded> superseded = new HashMap<>();
    Set<String> withoutEffect = new HashSet<>();
    Set<String> heldIds = held.stream().map(FactType::idOf).collect(Collectors.toSet());
    for (SpecificRecord fact : held) {
      for (Named by : named.getOrDefault(FactType.idOf(fact), List.of())) {
        if (!mayName(by, fact, acts)) {
          continue;
        }
        String byFactId = by.superseded().byFactId();
        if (by.superseded().isOfOtherSubject(fact, heldIds) || !takesEffect(by, acts, confirmed)) {
          withoutEffect.add(byFactId);
        } else if (acts.contains(byFactId)
            || !isOnlyWithdrawn(named.getOrDefault(byFactId, List.of()), acts, confirmed)) {
          superseded.putIfAbsent(FactType.idOf(fact), by.superseded());
        }
      }
    }
    Set<String> awaiting = awaiting(subject, held, superseded.keySet(), withoutEffect);
    List<Entry> entries =
        held.stream()
            .map(
                fact ->
                    new Entry(
                        fact,
                        Optional.ofNullable(superseded.get(FactType.idOf(fact))),
                        awaiting.contains(FactType.idOf(fact)),
                        superseded.containsKey(FactType.idOf(fact))
                            ? List.of()
                            : named.getOrDefault(FactType.idOf(fact), List.of()).stream()
                                .filter(by -> mayName(by, fact, acts))
                                .map(Named::superseded)
                                .filter(by -> !superseded.containsKey(by.byFactId()))
                                .limit(RegisterEntry.MOST_REVOCATIONS)
                                .toList()))
            .toList();
    return new Held(entries, List.copyOf(unreadable));
  }

  /** A fact that would supersede another. */
  private record Named(Superseded superseded, RevocationNote note) {}

  private static boolean mayName(Named by, SpecificRecord fact, Set<String> acts) {
    return !FactType.of(fact).isAct() || acts.contains(by.superseded().byFactId());
  }

  private boolean takesEffect(Named by, Set<String> acts, Set<String> confirmed) {
    String byFactId = by.superseded().byFactId();
    return trustsProducers
        || by.note().isProven()
        || acts.contains(byFactId)
        || confirmed.contains(byFactId);
  }

  private boolean isOnlyWithdrawn(List<Named> by, Set<String> acts, Set<String> confirmed) {
    return RevocationNote.onlyWithdraw(
        by.stream().filter(next -> takesEffect(next, acts, confirmed)).map(Named::note).toList());
  }

  private static Set<String> correctedByProvenSenders(List<SpecificRecord> held) {
    return held.stream()
        .filter(fact -> SignedSubmissions.of(fact).isPresent())
        .map(fact -> FactType.headerOf(fact).getCorrection())
        .filter(Objects::nonNull)
        .map(Correction::getSupersedes)
        .collect(Collectors.toSet());
  }

  /** Facts that would take the place of another by the word of an unknown sender. */
  private Set<String> awaiting(
      Subject subject,
      List<SpecificRecord> held,
      Set<String> supersededIds,
      Set<String> withoutEffect) {
    Set<String> found = new HashSet<>();
    if (trustsProducers) {
      return found;
    }
    Optional<SpecificRecord> proven =
        held.stream()
            .filter(fact -> FactType.of(fact) == DECLARATIONS.get(subject.kind()))
            .filter(fact -> !supersededIds.contains(FactType.idOf(fact)))
            .filter(DossierReader::isProvenDeclaration)
            .max(DossierReader::byTimeThenId);
    for (SpecificRecord fact : held) {
      boolean replaces =
          withoutEffect.contains(FactType.idOf(fact))
              || proven
                  .filter(declared -> FactType.of(declared) == FactType.of(fact))
                  .filter(declared -> byTimeThenId(fact, declared) > 0)
                  .isPresent();
      if (replaces && !FactType.of(fact).isAct() && SignedSubmissions.of(fact).isEmpty()) {
        found.add(FactType.idOf(fact));
      }
    }
    return found;
  }

  /** What a grower saw of a source is one report among others and replaces none. */
  private static boolean isProvenDeclaration(SpecificRecord fact) {
    return SignedSubmissions.of(fact)
        .filter(
            submission ->
                FactType.of(fact) != FactType.POLLEN_SOURCE_SEEN
                    || submission.getRole() != SenderRole.MULTIPLIER)
        .isPresent();
  }

  private static int byTimeThenId(SpecificRecord one, SpecificRecord other) {
    return Entry.BY_TIME_THEN_ID.compare(
        new Entry(one, Optional.empty()), new Entry(other, Optional.empty()));
  }

  private List<SpecificRecord> factsOf(Subject subject, List<String> unreadable) {
    List<SpecificRecord> found = new ArrayList<>();
    for (KeyValue<String, byte[]> kept : Keys.scan(facts, Keys.prefix(subject))) {
      try {
        SpecificRecord fact = wire.decode(kept.value);
        FactType.idOf(fact);
        FactType.of(fact);
        found.add(fact);
      } catch (RuntimeException fault) {
        if (PoisonRecords.isNoFaultOfTheRecord(fault)) {
          throw fault;
        }
        unreadable.add(kept.key);
      }
    }
    return found;
  }

  private Map<String, List<Named>> namedBy(Subject subject, List<String> unreadable) {
    Map<String, List<Named>> found = new HashMap<>();
    for (KeyValue<String, String> revocation : Keys.scan(revocations, Keys.prefix(subject))) {
      List<String> parts = Keys.parts(revocation.key);
      if (parts.size() == REVOCATION_KEY_PARTS) {
        RevocationNote note = RevocationNote.read(revocation.value);
        found
            .computeIfAbsent(parts.get(1), named -> new ArrayList<>())
            .add(new Named(note.superseded(parts.get(2)), note));
      } else {
        unreadable.add(revocation.key);
      }
    }
    return found;
  }
}
