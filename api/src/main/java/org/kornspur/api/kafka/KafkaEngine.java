package org.kornspur.api.kafka;

import com.fasterxml.jackson.databind.ObjectMapper;
import io.micrometer.core.instrument.FunctionCounter;
import io.micrometer.core.instrument.Gauge;
import io.micrometer.core.instrument.MeterRegistry;
import io.quarkus.runtime.Quarkus;
import io.quarkus.runtime.ShutdownEvent;
import io.quarkus.runtime.StartupEvent;
import io.quarkus.runtime.configuration.ConfigurationException;
import io.quarkus.vertx.http.runtime.filters.Filters;
import jakarta.annotation.Priority;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import jakarta.inject.Inject;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.Function;
import java.util.function.IntFunction;
import org.apache.avro.specific.SpecificRecord;
import org.apache.kafka.clients.consumer.ConsumerConfig;
import org.apache.kafka.streams.state.HostInfo;
import org.apache.kafka.streams.state.ReadOnlyKeyValueStore;
import org.eclipse.microprofile.config.inject.ConfigProperty;
import org.jboss.logging.Logger;
import org.kornspur.api.problem.NotReadyDetail;
import org.kornspur.api.storage.CannotStart;
import org.kornspur.api.storage.PrivateFolder;
import org.kornspur.contract.PersonName;
import org.kornspur.contract.QuarantineEntry;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.intake.Counted;
import org.kornspur.ingest.publish.FactPublisher;
import org.kornspur.ingest.wire.WireFormat;
import org.kornspur.processors.dossier.Entry;
import org.kornspur.processors.dossier.Report;
import org.kornspur.processors.pedigree.Pedigree;
import org.kornspur.processors.stream.ChainPositions;
import org.kornspur.processors.stream.ChainPositions.Position;
import org.kornspur.processors.stream.DossierReader;
import org.kornspur.processors.stream.PedigreeReader;
import org.kornspur.processors.stream.RegisterEntry;
import org.kornspur.processors.stream.RejudgingProgress;
import org.kornspur.processors.stream.ReportReader;
import org.kornspur.processors.stream.StateStores;
import org.kornspur.processors.stream.Topics;
import org.kornspur.processors.stream.UnreadableDossier;

/**
 * The engine on Kafka Streams. Starts beside the HTTP server, so that health can tell how far it
 * is.
 */
@ApplicationScoped
public class KafkaEngine implements Engine {
  private static final Logger LOG = Logger.getLogger(KafkaEngine.class);
  private static final int BEFORE_ALL = 1;
  private static final Duration LONGEST_START = Duration.ofSeconds(30);
  private static final int UNREADABLE_RETRY_S = 60;

  @Inject EngineSettings settings;
  @Inject SiteKeys keys;
  @Inject ObjectMapper json;
  @Inject InternalSecret secret;
  @Inject MeterRegistry meters;
  @Inject RulesInForce rules;

  @ConfigProperty(name = "quarkus.http.host", defaultValue = "127.0.0.1")
  String httpHost;

  @ConfigProperty(name = "quarkus.http.port", defaultValue = "8080")
  int httpPort;

  private final AtomicReference<RunningProcessors> running = new AtomicReference<>();
  private volatile String condition = "not started";
  private volatile boolean failed;
  private final CountDownLatch stop = new CountDownLatch(1);
  private Thread starter;
  private PeerClient others;

  /** With the first event that there is: a key is made for the routes, before the start. */
  void closeFolder(@Observes @Priority(BEFORE_ALL) Filters routes) {
    try {
      int closed = PrivateFolder.make(settings.dataFolder());
      if (closed > 0) {
        LOG.warnf(
            "Data folder %s was open to other users of this machine. It is closed now, and %d files"
                + " and folders with it; what others read or wrote there before is not undone.",
            settings.dataFolder().toAbsolutePath(), closed);
      }
    } catch (CannotStart cannotStart) {
      // Of this one, where it has no cause, Quarkus says the message and nothing else.
      throw new ConfigurationException("Kornspur could not start: " + cannotStart.getMessage());
    }
  }

  void onStart(@Observes StartupEvent event) {
    others = new PeerClient(json, secret);
    Gauge.builder("kornspur.records.skipped", this, KafkaEngine::skippedRecords)
        .description("Records that the processors passed over; the log names them")
        .register(meters);
    RejudgingProgress rejudging = rules.progress();
    Gauge.builder("kornspur.rejudging.remaining", rejudging, RejudgingProgress::toLookAt)
        .description("Dossiers that are still to be looked at after a change of the rules")
        .register(meters);
    FunctionCounter.builder("kornspur.rejudging.judged", rejudging, RejudgingProgress::judged)
        .description("Dossiers that were judged again for a change of the rules since the start")
        .register(meters);
    starter = new Thread(this::start, "kornspur-start");
    starter.start();
  }

  void onStop(@Observes ShutdownEvent event) {
    stop.countDown();
    if (settings.bootstrapServers().isEmpty()) {
      awaitStart();
    }
    starter.interrupt();
    RunningProcessors processors = running.getAndSet(null);
    if (processors != null) {
      processors.close();
    }
  }

  /** Kafka ends the whole process where its broker is interrupted while it starts in it. */
  private void awaitStart() {
    long end = System.nanoTime() + LONGEST_START.toNanos();
    while (running.get() == null && starter.isAlive() && System.nanoTime() - end < 0) {
      try {
        starter.join(20);
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
        return;
      }
    }
  }

  private void start() {
    StartAttempts attempts = new StartAttempts();
    boolean started = false;
    while (!started) {
      try {
        condition = "starting broker, registry and processors";
        running.set(RunningProcessors.start(settings, keys, self(), rules));
        started = true;
      } catch (Throwable fault) { // an Error too, or the process would stay and do nothing
        if (isStopping() || !mayTryAgain(fault, attempts)) {
          return;
        }
      }
    }
    if (isStopping()) {
      // unless the stop has it already
      Optional.ofNullable(running.getAndSet(null)).ifPresent(RunningProcessors::close);
      return;
    }
    condition = "processors started";
    settings.load().ifPresent(this::load);
  }

  /** Waits where another attempt may help; else ends the process. */
  private boolean mayTryAgain(Throwable fault, StartAttempts attempts) {
    Optional<Duration> pause = attempts.pauseAfter(fault);
    String words = StartAttempts.words(fault);
    if (pause.isPresent()) {
      condition = "waiting to start: " + words;
      LOG.warnf("Kornspur cannot start yet: %s. Next attempt in %s.", words, pause.get());
      return !stopsWithin(pause.get());
    }
    failed = true;
    condition = "could not start: " + words;
    if (!(fault instanceof CannotStart)) {
      LOG.error("An unexpected fault", fault);
    }
    LOG.errorf("Kornspur could not start, and ends: %s", words);
    Quarkus.asyncExit(1);
    return false;
  }

  private boolean isStopping() {
    return stop.getCount() == 0;
  }

  private boolean stopsWithin(Duration pause) {
    try {
      return stop.await(pause.toMillis(), TimeUnit.MILLISECONDS);
    } catch (InterruptedException e) {
      return true;
    }
  }

  private void load(Path folder) {
    try {
      StartLoad.run(folder, processors().clientSettings(), keys.signing());
    } catch (IOException | RuntimeException cannotLoad) {
      LOG.errorf(cannotLoad, "%s could not be loaded whole; what was loaded stays", folder);
    }
  }

  /**
   * Copies the data folder into a folder of its own within the backup folder.
   *
   * @throws BackupRefused if this site has no facts of its own, no backup folder, or another backup
   *     is under way
   * @throws IOException if it cannot be written
   */
  public Backup.Made backUp() throws Exception {
    return Backup.make(settings, processors());
  }

  private HostInfo self() {
    String address = settings.advertisedAddress().orElse(httpHost + ":" + httpPort);
    int colon = address.lastIndexOf(':');
    if (colon < 1) {
      throw new IllegalArgumentException(
          "kornspur.advertised-address is '" + address + "'. Give host:port.");
    }
    return new HostInfo(
        address.substring(0, colon), Integer.parseInt(address.substring(colon + 1)));
  }

  @Override
  public boolean isReady() {
    RunningProcessors processors = running.get();
    return processors != null && processors.isRunning();
  }

  @Override
  public boolean hasFailed() {
    RunningProcessors processors = running.get();
    return failed || (processors != null && processors.hasFailed());
  }

  @Override
  public String condition() {
    RunningProcessors processors = running.get();
    if (processors == null) {
      return condition;
    }
    long skipped = processors.skipped().total();
    return skipped == 0
        ? processors.condition()
        : processors.condition()
            + "; "
            + Counted.of(skipped, "record(s)")
            + " could not be processed, see the log";
  }

  private long skippedRecords() {
    return Optional.ofNullable(running.get()).map(now -> now.skipped().total()).orElse(0L);
  }

  @Override
  public WireFormat wire() {
    return processors().wire();
  }

  @Override
  public void publish(List<? extends SpecificRecord> facts) {
    FactPublisher publisher = processors().publisher();
    await(facts.stream().map(publisher::publish).toList());
  }

  @Override
  public void quarantine(QuarantineEntry entry) {
    await(List.of(processors().publisher().hold(entry)));
  }

  @Override
  public void keep(PersonName person) {
    await(List.of(processors().publisher().keep(person)));
  }

  @Override
  public void forget(String personId) {
    await(List.of(processors().publisher().forget(personId)));
  }

  private static void await(List<CompletableFuture<Void>> sent) {
    try {
      CompletableFuture.allOf(sent.toArray(CompletableFuture[]::new)).join();
    } catch (CompletionException failed) {
      throw new NotReady(new NotReadyDetail.NotTaken(String.valueOf(failed.getCause())), 5);
    }
  }

  @Override
  public Optional<RegisterEntry> registered(String factId) {
    return fromOwner(
        StateStores.FACT_REGISTER,
        factId,
        owner -> others.registered(owner, factId),
        partition -> registeredAt(partition, factId));
  }

  /** What this instance itself holds of a fact id. */
  public Optional<RegisterEntry> registeredHere(String factId) {
    return registeredAt(
        processors().stores().placeOf(StateStores.FACT_REGISTER, factId).partition(), factId);
  }

  private Optional<RegisterEntry> registeredAt(int partition, String factId) {
    StoreQueries stores = processors().stores();
    ReadOnlyKeyValueStore<String, RegisterEntry> register =
        stores.local(StateStores.FACT_REGISTER, partition);
    return stores.read(() -> Optional.ofNullable(register.get(factId)));
  }

  @Override
  public List<Position> positions(String factId) {
    return fromOwner(
        StateStores.CHAIN_INDEX,
        factId,
        owner -> others.positions(owner, factId),
        partition -> positionsAt(partition, factId));
  }

  /** What this instance itself knows of where a fact's records are. */
  public List<Position> positionsHere(String factId) {
    return positionsAt(
        processors().stores().placeOf(StateStores.CHAIN_INDEX, factId).partition(), factId);
  }

  private List<Position> positionsAt(int partition, String factId) {
    StoreQueries stores = processors().stores();
    ReadOnlyKeyValueStore<String, byte[]> index = stores.local(StateStores.CHAIN_INDEX, partition);
    return stores.read(() -> ChainPositions.of(index, factId));
  }

  @Override
  public List<Entry> dossier(Subject subject) {
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
  public List<KeptEntry> dossierHere(Subject subject) {
    int partition =
        processors().stores().placeOf(StateStores.DOSSIER_FACTS, subject.toString()).partition();
    return dossierAt(partition, subject).stream().map(this::write).toList();
  }

  private List<Entry> dossierAt(int partition, Subject subject) {
    StoreQueries stores = processors().stores();
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

  @Override
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

  /** What this instance itself holds of reports to a subject. */
  public List<byte[]> reportsHere(Subject subject) {
    return reportsAt(
        processors().stores().placeOf(StateStores.DOSSIER_REPORTS, subject.toString()).partition(),
        subject);
  }

  private List<byte[]> reportsAt(int partition, Subject subject) {
    StoreQueries stores = processors().stores();
    ReportReader reader = new ReportReader(stores.local(StateStores.DOSSIER_REPORTS, partition));
    return stores.read(() -> reader.keptFor(subject));
  }

  private <T> T fromOwner(
      String storeName, String key, Function<HostInfo, T> asked, IntFunction<T> here) {
    StoreQueries.Place place = processors().stores().placeOf(storeName, key);
    return place.owner().map(asked).orElseGet(() -> here.apply(place.partition()));
  }

  private Entry read(KeptEntry kept) {
    return new Entry(
        wire().decode(kept.wire()),
        kept.supersededBy()
            .map(
                by ->
                    new Entry.Superseded(
                        by, kept.reason().orElse(""), kept.recordedBy(), kept.recordedAt())),
        kept.awaitsConfirmation(),
        kept.unconfirmed() == null ? List.of() : kept.unconfirmed());
  }

  private KeptEntry write(Entry entry) {
    return new KeptEntry(
        wire().encode(Topics.FACTS.topicName(), entry.fact()),
        entry.superseded().map(Entry.Superseded::byFactId),
        entry.superseded().map(Entry.Superseded::reason),
        entry.superseded().flatMap(Entry.Superseded::recordedBy),
        entry.superseded().flatMap(Entry.Superseded::recordedAt),
        entry.awaitsConfirmation(),
        entry.unconfirmed());
  }

  @Override
  public Pedigree pedigree() {
    return new PedigreeReader(wire(), processors().stores().global(StateStores.PEDIGREE));
  }

  @Override
  public Map<String, Object> consumerSettings() {
    Map<String, Object> consumer = new HashMap<>(processors().clientSettings());
    consumer.put(ConsumerConfig.ISOLATION_LEVEL_CONFIG, "read_committed");
    consumer.put(ConsumerConfig.AUTO_OFFSET_RESET_CONFIG, "earliest");
    consumer.put(ConsumerConfig.ENABLE_AUTO_COMMIT_CONFIG, false);
    return consumer;
  }

  @Override
  public Map<String, Long> lag() {
    return processors().backlog().waiting();
  }

  @Override
  public long factsHeldBack() {
    return processors().backlog().heldBack();
  }

  private RunningProcessors processors() {
    RunningProcessors processors = running.get();
    if (processors == null) {
      throw new NotReady(new NotReadyDetail.NotRunning(), 3);
    }
    return processors;
  }
}
