package org.kornspur.api.kafka;

import com.fasterxml.jackson.databind.ObjectMapper;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.io.IOException;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import java.util.function.Function;
import java.util.function.IntFunction;
import org.apache.avro.specific.SpecificRecord;
import org.apache.kafka.clients.consumer.ConsumerConfig;
import org.apache.kafka.streams.state.HostInfo;
import org.apache.kafka.streams.state.ReadOnlyKeyValueStore;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.NotReadyDetail;
import org.kornspur.contract.CauseNote;
import org.kornspur.contract.NotificationChoice;
import org.kornspur.contract.NotificationMessage;
import org.kornspur.contract.PersonName;
import org.kornspur.contract.PlanVersion;
import org.kornspur.contract.QuarantineEntry;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.publish.FactPublisher;
import org.kornspur.ingest.wire.WireFormat;
import org.kornspur.processors.dossier.Dossier;
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
import org.kornspur.processors.stream.UnreadableDossier;

/**
 * The running processors, as the API sees them. Whatever instance holds a key, it is asked here,
 * and the caller never needs to know; what ends in {@code Here} asks this instance alone, as other
 * instances do. Every method may throw {@link NotReady}.
 */
@ApplicationScoped
public class ProcessorsClient {
  private static final int UNREADABLE_RETRY_S = 60;

  private final ProcessorsLifecycle lifecycle;
  private final EngineSettings settings;
  private final PeerClient others;

  @Inject
  ProcessorsClient(
      ProcessorsLifecycle lifecycle,
      EngineSettings settings,
      ObjectMapper json,
      InternalSecret secret) {
    this.lifecycle = lifecycle;
    this.settings = settings;
    this.others = new PeerClient(json, secret);
  }

  /** Whether every question can be answered now. */
  public boolean isReady() {
    return lifecycle.isReady();
  }

  /** Whether starting or running failed for good, so that only a restart helps. */
  public boolean hasFailed() {
    return lifecycle.hasFailed();
  }

  /** What the processors are doing, for a person: starting, restoring, running. */
  public String condition() {
    return lifecycle.condition();
  }

  /**
   * Copies the data folder into a folder of its own within the backup folder.
   *
   * @throws ApiProblem if this site has no facts of its own, no backup folder, or another backup is
   *     under way
   * @throws IOException if it cannot be written
   */
  public Backup.Made backUp() throws Exception {
    return Backup.make(settings, processors());
  }

  /** Reads and writes records of the topics. */
  public WireFormat wire() {
    return processors().wire();
  }

  /** Sends a fact to the facts topic and waits until the broker has it. */
  public void publish(SpecificRecord fact) {
    await(publisher().publish(fact));
  }

  /** Sends a fact to the facts topic; fails with {@link NotReady} where the broker has it not. */
  public CompletableFuture<Void> publishing(SpecificRecord fact) {
    return publisher()
        .publish(fact)
        .exceptionally(
            failed -> {
              throw notTaken(failed);
            });
  }

  /** Sends a refused input, or a change of its state, to the quarantine topic. */
  public void quarantine(QuarantineEntry entry) {
    await(publisher().hold(entry));
  }

  /** Keeps the names of a person who signs, and waits until the broker has them. */
  public void keep(PersonName person) {
    await(publisher().keep(person));
  }

  /** Keeps a version of a plan, and waits until the broker has it. */
  public void keep(PlanVersion plan) {
    await(publisher().keep(plan));
  }

  /** Keeps what a person did about a cause, and waits until the broker has it. */
  public void keep(CauseNote note) {
    await(publisher().keep(note));
  }

  /** Keeps what a person wants to hear of, and waits until the broker has it. */
  public void keep(NotificationChoice choice) {
    await(publisher().keep(choice));
  }

  /** Keeps a message to a person, and waits until the broker has it. */
  public void keep(NotificationMessage message) {
    await(publisher().keep(message));
  }

  /** Forgets a message to a person. */
  public void forgetMessage(String messageId) {
    await(publisher().forgetMessage(messageId));
  }

  /** Forgets what a person wants to hear of, with the address. */
  public void forgetChoice(String personId) {
    await(publisher().forgetChoice(personId));
  }

  /** Forgets the names of a person; what the person signed stays. */
  public void forget(String personId) {
    await(publisher().forget(personId));
  }

  /**
   * Whether this instance is the one of all that does what must be done once for a key: the one
   * that owns its partition. While work moves, two may for a moment.
   */
  public boolean isOwner(String key) {
    return stores().placeOf(StateStores.FACT_REGISTER, key).owner().isEmpty();
  }

  private static void await(CompletableFuture<Void> sent) {
    try {
      sent.join();
    } catch (CompletionException failed) {
      throw notTaken(failed.getCause());
    }
  }

  private static NotReady notTaken(Throwable cause) {
    return new NotReady(new NotReadyDetail.NotTaken(String.valueOf(cause)), 5);
  }

  /** What is known of a fact id: its fingerprint, subjects, and what superseded it. */
  public Optional<RegisterEntry> registered(String factId) {
    return fromOwner(
        StateStores.FACT_REGISTER,
        factId,
        owner -> others.registered(owner, factId),
        partition -> registeredAt(partition, factId));
  }

  public Optional<RegisterEntry> registeredHere(String factId) {
    return registeredAt(partitionOf(StateStores.FACT_REGISTER, factId), factId);
  }

  private Optional<RegisterEntry> registeredAt(int partition, String factId) {
    StoreLocator stores = stores();
    ReadOnlyKeyValueStore<String, RegisterEntry> register =
        stores.local(StateStores.FACT_REGISTER, partition);
    return stores.read(() -> Optional.ofNullable(register.get(factId)));
  }

  /** Where the records of a fact id stand in the log and its chain; none where it has none. */
  public List<Position> positions(String factId) {
    return fromOwner(
        StateStores.CHAIN_INDEX,
        factId,
        owner -> others.positions(owner, factId),
        partition -> positionsAt(partition, factId));
  }

  public List<Position> positionsHere(String factId) {
    return positionsAt(partitionOf(StateStores.CHAIN_INDEX, factId), factId);
  }

  private List<Position> positionsAt(int partition, String factId) {
    StoreLocator stores = stores();
    ReadOnlyKeyValueStore<String, byte[]> index = stores.local(StateStores.CHAIN_INDEX, partition);
    return stores.read(() -> ChainPositions.of(index, factId));
  }

  /** Every fact of a subject, superseded ones marked, by time and id. */
  public List<Entry> entries(Subject subject) {
    return fromOwner(
            StateStores.DOSSIER_FACTS,
            subject.toString(),
            owner ->
                others.entries(owner, subject.toString()).stream()
                    .map(entry -> entry.read(wire()))
                    .toList(),
            partition -> entriesAt(partition, subject))
        .stream()
        .sorted(Entry.BY_TIME_THEN_ID)
        .toList();
  }

  public List<PeerEntry> entriesHere(Subject subject) {
    int partition = partitionOf(StateStores.DOSSIER_FACTS, subject.toString());
    return entriesAt(partition, subject).stream()
        .map(entry -> PeerEntry.of(entry, wire()))
        .toList();
  }

  private List<Entry> entriesAt(int partition, Subject subject) {
    StoreLocator stores = stores();
    DossierReader reader =
        new DossierReader(
            wire(),
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

  /** What parents, the hybrid and the ground last told a subject. */
  public List<Report> reports(Subject subject) {
    return fromOwner(
            StateStores.DOSSIER_REPORTS,
            subject.toString(),
            owner -> others.reports(owner, subject.toString()),
            partition -> reportsAt(partition, subject))
        .stream()
        .map(ReportReader::read)
        .toList();
  }

  public List<byte[]> reportsHere(Subject subject) {
    return reportsAt(partitionOf(StateStores.DOSSIER_REPORTS, subject.toString()), subject);
  }

  private List<byte[]> reportsAt(int partition, Subject subject) {
    StoreLocator stores = stores();
    ReportReader reader = new ReportReader(stores.local(StateStores.DOSSIER_REPORTS, partition));
    return stores.read(() -> reader.keptFor(subject));
  }

  /** The whole dossier of a subject, as the gates see it. */
  public Dossier dossier(Subject subject) {
    return new Dossier(subject, entries(subject), reports(subject));
  }

  /** The pedigree, which every instance holds whole. */
  public Pedigree pedigree() {
    return new PedigreeReader(wire(), stores().global(StateStores.PEDIGREE));
  }

  /** Settings with which a consumer, of no group, reads committed records of the topics. */
  public Map<String, Object> consumerSettings() {
    Map<String, Object> consumer = new HashMap<>(processors().clientSettings());
    consumer.remove(ConsumerConfig.GROUP_ID_CONFIG);
    consumer.put(ConsumerConfig.ISOLATION_LEVEL_CONFIG, "read_committed");
    consumer.put(ConsumerConfig.AUTO_OFFSET_RESET_CONFIG, "earliest");
    consumer.put(ConsumerConfig.ENABLE_AUTO_COMMIT_CONFIG, false);
    return consumer;
  }

  /** Records of the input topics that are not processed yet, by topic; for "lag of the data". */
  public Map<String, Long> lag() {
    return processors().backlog().now().waiting();
  }

  /** How many these were in all, half a second ago at most. */
  public long recordsWaiting() {
    return processors().backlog().recentRecords();
  }

  /**
   * How many of the facts among them nobody may read yet, because a producer keeps a transaction
   * open: its own records and all that came in behind them.
   */
  public long factsHeldBack() {
    return processors().backlog().now().heldBack();
  }

  private <T> T fromOwner(
      String storeName, String key, Function<HostInfo, T> asked, IntFunction<T> here) {
    StoreLocator.Place place = stores().placeOf(storeName, key);
    return place.owner().map(asked).orElseGet(() -> here.apply(place.partition()));
  }

  private int partitionOf(String storeName, String key) {
    return stores().placeOf(storeName, key).partition();
  }

  private RunningProcessors processors() {
    return lifecycle.processors();
  }

  private StoreLocator stores() {
    return processors().stores();
  }

  private FactPublisher publisher() {
    return processors().publisher();
  }
}
