package org.kornspur.api.kafka;

import com.fasterxml.jackson.databind.ObjectMapper;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.IntFunction;
import org.apache.kafka.streams.state.HostInfo;
import org.apache.kafka.streams.state.ReadOnlyKeyValueStore;
import org.kornspur.api.problem.NotReadyDetail;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.Entry;
import org.kornspur.processors.dossier.Report;
import org.kornspur.processors.pedigree.Pedigree;
import org.kornspur.processors.stream.ChainPositions;
import org.kornspur.processors.stream.ChainPositions.Position;
import org.kornspur.processors.stream.DossierReader;
import org.kornspur.processors.stream.PedigreeReader;
import org.kornspur.processors.stream.RegisterEntry;
import org.kornspur.processors.stream.ReportReader;
import org.kornspur.processors.stream.StateStores;
import org.kornspur.processors.stream.Topics;
import org.kornspur.processors.stream.UnreadableDossier;

/**
 * Questions to the state stores. Whatever instance holds a key, it is asked; what ends in {@code
 * Here} asks this instance alone, as other instances do.
 */
@ApplicationScoped
public class StoreQueries {
  private static final int UNREADABLE_RETRY_S = 60;

  private final ProcessorsLifecycle lifecycle;
  private final EngineSettings settings;
  private final PeerClient others;

  @Inject
  StoreQueries(
      ProcessorsLifecycle lifecycle,
      EngineSettings settings,
      ObjectMapper json,
      InternalSecret secret) {
    this.lifecycle = lifecycle;
    this.settings = settings;
    this.others = new PeerClient(json, secret);
  }

  /** What is known of a fact id, wherever it is held. */
  Optional<RegisterEntry> registered(String factId) {
    return fromOwner(
        StateStores.FACT_REGISTER,
        factId,
        owner -> others.registered(owner, factId),
        partition -> registeredAt(partition, factId));
  }

  /** What this instance itself holds of a fact id. */
  public Optional<RegisterEntry> registeredHere(String factId) {
    return registeredAt(stores().placeOf(StateStores.FACT_REGISTER, factId).partition(), factId);
  }

  private Optional<RegisterEntry> registeredAt(int partition, String factId) {
    StoreLocator stores = stores();
    ReadOnlyKeyValueStore<String, RegisterEntry> register =
        stores.local(StateStores.FACT_REGISTER, partition);
    return stores.read(() -> Optional.ofNullable(register.get(factId)));
  }

  /** Where the records of a fact id are, wherever that is known. */
  List<Position> positions(String factId) {
    return fromOwner(
        StateStores.CHAIN_INDEX,
        factId,
        owner -> others.positions(owner, factId),
        partition -> positionsAt(partition, factId));
  }

  /** What this instance itself knows of where a fact's records are. */
  public List<Position> positionsHere(String factId) {
    return positionsAt(stores().placeOf(StateStores.CHAIN_INDEX, factId).partition(), factId);
  }

  private List<Position> positionsAt(int partition, String factId) {
    StoreLocator stores = stores();
    ReadOnlyKeyValueStore<String, byte[]> index = stores.local(StateStores.CHAIN_INDEX, partition);
    return stores.read(() -> ChainPositions.of(index, factId));
  }

  /** Every fact of a subject, by time and id, wherever it is held. */
  List<Entry> dossier(Subject subject) {
    return fromOwner(
            StateStores.DOSSIER_FACTS,
            subject.toString(),
            owner -> others.dossier(owner, subject.toString()).stream().map(this::read).toList(),
            partition -> dossierAt(partition, subject))
        .stream()
        .sorted(Entry.BY_TIME_THEN_ID)
        .toList();
  }

  /** What this instance itself holds of a subject. */
  public List<PeerEntry> dossierHere(Subject subject) {
    int partition = stores().placeOf(StateStores.DOSSIER_FACTS, subject.toString()).partition();
    return dossierAt(partition, subject).stream().map(this::write).toList();
  }

  private List<Entry> dossierAt(int partition, Subject subject) {
    StoreLocator stores = stores();
    DossierReader reader =
        new DossierReader(
            lifecycle.processors().wire(),
            stores.local(StateStores.DOSSIER_FACTS, partition),
            stores.local(StateStores.DOSSIER_REVOCATIONS, partition),
            settings.trustTopicProducers());
    try {
      return stores.read(() -> reader.entriesOf(subject));
    } catch (UnreadableDossier unreadable) {
      throw new NotReady(
          NotReadyDetail.DossierUnreadable.of(subject, unreadable.keys()), UNREADABLE_RETRY_S);
    }
  }

  /** What was last told to a subject, wherever it is held. */
  List<Report> reports(Subject subject) {
    return fromOwner(
            StateStores.DOSSIER_REPORTS,
            subject.toString(),
            owner -> others.reports(owner, subject.toString()),
            partition -> reportsAt(partition, subject))
        .stream()
        .map(ReportReader::read)
        .toList();
  }

  /** What this instance itself holds of reports to a subject. */
  public List<byte[]> reportsHere(Subject subject) {
    return reportsAt(
        stores().placeOf(StateStores.DOSSIER_REPORTS, subject.toString()).partition(), subject);
  }

  private List<byte[]> reportsAt(int partition, Subject subject) {
    StoreLocator stores = stores();
    ReportReader reader = new ReportReader(stores.local(StateStores.DOSSIER_REPORTS, partition));
    return stores.read(() -> reader.keptFor(subject));
  }

  private <T> T fromOwner(
      String storeName, String key, Function<HostInfo, T> asked, IntFunction<T> here) {
    StoreLocator.Place place = stores().placeOf(storeName, key);
    return place.owner().map(asked).orElseGet(() -> here.apply(place.partition()));
  }

  private Entry read(PeerEntry kept) {
    return new Entry(
        lifecycle.processors().wire().decode(kept.wire()),
        kept.supersededBy()
            .map(
                by ->
                    new Entry.Superseded(
                        by, kept.reason().orElse(""), kept.recordedBy(), kept.recordedAt())),
        kept.awaitsConfirmation(),
        kept.unconfirmed() == null ? List.of() : kept.unconfirmed());
  }

  private PeerEntry write(Entry entry) {
    return new PeerEntry(
        lifecycle.processors().wire().encode(Topics.FACTS.topicName(), entry.fact()),
        entry.superseded().map(Entry.Superseded::byFactId),
        entry.superseded().map(Entry.Superseded::reason),
        entry.superseded().flatMap(Entry.Superseded::recordedBy),
        entry.superseded().flatMap(Entry.Superseded::recordedAt),
        entry.awaitsConfirmation(),
        entry.unconfirmed());
  }

  /** The pedigree, which every instance holds whole. */
  Pedigree pedigree() {
    return new PedigreeReader(lifecycle.processors().wire(), stores().global(StateStores.PEDIGREE));
  }

  private StoreLocator stores() {
    return lifecycle.processors().stores();
  }
}
