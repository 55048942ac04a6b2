package org.kornspur.processors.stream;

import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.Method;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Properties;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.Predicate;
import org.apache.avro.specific.SpecificRecord;
import org.apache.kafka.common.TopicPartition;
import org.apache.kafka.common.header.Headers;
import org.apache.kafka.common.header.internals.RecordHeaders;
import org.apache.kafka.common.serialization.ByteArrayDeserializer;
import org.apache.kafka.common.serialization.ByteArraySerializer;
import org.apache.kafka.common.serialization.Serializer;
import org.apache.kafka.common.serialization.StringDeserializer;
import org.apache.kafka.common.serialization.StringSerializer;
import org.apache.kafka.streams.KeyValue;
import org.apache.kafka.streams.StreamsConfig;
import org.apache.kafka.streams.TestInputTopic;
import org.apache.kafka.streams.TestOutputTopic;
import org.apache.kafka.streams.TopologyTestDriver;
import org.apache.kafka.streams.state.KeyValueIterator;
import org.apache.kafka.streams.state.KeyValueStore;
import org.apache.kafka.streams.test.TestRecord;
import org.kornspur.contract.PostControlResult;
import org.kornspur.contract.QuarantineEntry;
import org.kornspur.contract.SenderRole;
import org.kornspur.ingest.attestation.SignedSubmissions;
import org.kornspur.ingest.chain.ChainLink;
import org.kornspur.ingest.chain.Checkpoint;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.contract.SubjectsNamed;
import org.kornspur.ingest.registry.LocalSchemaRegistry;
import org.kornspur.ingest.seal.SigningKey;
import org.kornspur.ingest.seal.TrustedKeys;
import org.kornspur.ingest.wire.WireFormat;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.fixture.Verdicts;
import org.kornspur.processors.judging.Judge;
import org.kornspur.processors.pedigree.Pedigree;
import org.kornspur.processors.release.ReleaseSheet;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.standards.Rulebooks;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Measured;
import org.kornspur.processors.verdict.Verdict;
import org.kornspur.standing.LotStanding;

/**
 * The real topology in Kafka's test driver, with two gates of its own that are easy to trip: what
 * is tested with it is the plumbing, not the rules.
 */
final class DrivenTopology implements AutoCloseable {
  /** The key that acts are signed with, the only one that is trusted. */
  static final SigningKey KEY = SigningKey.random();

  static final SignedSubmissions.Sender QUALITY =
      new SignedSubmissions.Sender("quality", SenderRole.QUALITY, Optional.empty());

  /**
   * Far longer than anything here takes. It ends a test whose reports never come to rest, since the
   * driver returns only when they have.
   */
  static final Duration LONGEST_UNREST = Duration.ofMinutes(2);

  private static final String APPLICATION = "driven";
  private static final long STARTED = System.currentTimeMillis();

  static final ChainSettings SEAL = new ChainSettings(KEY, 5, Duration.ofSeconds(10));

  final WireFormat wire = new WireFormat(new LocalSchemaRegistry());
  private volatile Judge judge;
  private final boolean trustsProducers;
  private final TopologyTestDriver driver;
  final SkippedRecords skipped = new SkippedRecords();
  final RejudgingProgress rejudging = new RejudgingProgress();
  private final TestInputTopic<byte[], byte[]> facts;
  private final TestOutputTopic<String, byte[]> standings;
  private final TestOutputTopic<String, byte[]> quarantine;
  private final TestOutputTopic<byte[], byte[]> links;
  private final TestOutputTopic<String, byte[]> checkpoints;
  private final SortedMap<String, Optional<LotStanding>> latest = new TreeMap<>();

  DrivenTopology() {
    this(
        new Judge(
            id -> Optional.of(new NoLimits(id)),
            List.of(DrivenTopology::postControl, DrivenTopology::isolation)));
  }

  DrivenTopology(Judge judge) {
    this(judge, false);
  }

  private DrivenTopology(Judge judge, boolean trustsProducers) {
    this.judge = judge;
    this.trustsProducers = trustsProducers;
    Properties config = new Properties();
    config.put(StreamsConfig.APPLICATION_ID_CONFIG, APPLICATION);
    config.put(StreamsConfig.BOOTSTRAP_SERVERS_CONFIG, "none:1");
    config.put(DossierReader.TRUST_PRODUCERS, trustsProducers);
    config.put(StreamsConfig.STATE_DIR_CONFIG, temporaryFolder().toString());
    config.putAll(PoisonRecords.settings(skipped));
    config.putAll(rejudging.settings());
    driver =
        new TopologyTestDriver(
            KornspurTopology.build(
                wire,
                () -> this.judge,
                TrustedKeys.of(KEY.publicKey()),
                StateStores.inMemory(),
                SEAL),
            config);
    facts =
        driver.createInputTopic(
            Topics.FACTS.topicName(), new ByteArraySerializer(), new ByteArraySerializer());
    standings = output(Topics.STANDINGS);
    quarantine = output(Topics.QUARANTINE);
    links =
        driver.createOutputTopic(
            Topics.CHAIN.topicName(), new ByteArrayDeserializer(), new ByteArrayDeserializer());
    checkpoints = output(Topics.CHECKPOINTS);
  }

  /** The topology with the gates and rulebooks that judge in earnest. */
  static DrivenTopology withRealRules() {
    return new DrivenTopology(Judge.by(Rulebooks.bundled()));
  }

  /** One of a site that vouches for all who can write to its topic of facts. */
  static DrivenTopology trustingProducers() {
    return new DrivenTopology(Judge.by(Rulebooks.bundled()), true);
  }

  /** Facts as quality brings them through the interface. */
  DrivenTopology accept(SpecificRecord... records) {
    for (SpecificRecord fact : records) {
      acceptAsSent(FactType.of(fact).isAct() ? fact : by(QUALITY, fact));
    }
    return this;
  }

  /** The fact as this sender brings it through the interface. */
  static SpecificRecord by(SignedSubmissions.Sender sender, SpecificRecord fact) {
    return SignedSubmissions.sign(fact, sender, KEY);
  }

  /** A grower of an enterprise. */
  static SignedSubmissions.Sender grower(String enterpriseId) {
    return new SignedSubmissions.Sender(
        "grower of " + enterpriseId, SenderRole.MULTIPLIER, Optional.of(enterpriseId));
  }

  /** Facts as they are: a plain producer sends them without any proof of who it is. */
  DrivenTopology acceptAsSent(SpecificRecord... records) {
    for (SpecificRecord fact : records) {
      pipe(FactType.idOf(fact), wire.encode(Topics.FACTS.topicName(), fact));
    }
    return this;
  }

  /**
   * Facts that an earlier release let in: no intake of today looks at them, dossiers hold them. All
   * wait before the first of them is processed.
   */
  DrivenTopology acceptAsEarlier(List<SpecificRecord> records) {
    Serializer<SubjectMessage> messages = SubjectMessageSerde.serde().serializer();
    String topic = Topics.BY_SUBJECT.topicName();
    for (SpecificRecord fact : records) {
      byte[] bytes = wire.encode(Topics.FACTS.topicName(), fact);
      SubjectMessage message = new SubjectMessage.FactFor(FactType.idOf(fact), bytes);
      SubjectsNamed.of(fact)
          .forEach(
              subject -> enqueue(topic, subject.toString(), messages.serialize(topic, message)));
    }
    call("completeAllProcessableWork");
    return this;
  }

  DrivenTopology pipe(String key, byte[] value) {
    facts.pipeInput(key == null ? null : key.getBytes(StandardCharsets.UTF_8), value);
    return this;
  }

  /**
   * What was written.
   *
   * @param bytes of keys and values, before the topic packs them
   */
  record Written(int records, long bytes) {}

  /** What processors and stores wrote to a topic since the last call; the driver packs nothing. */
  Written newlyWritten(String topic) {
    List<TestRecord<byte[], byte[]>> records =
        driver
            .createOutputTopic(topic, new ByteArrayDeserializer(), new ByteArrayDeserializer())
            .readRecordsToList();
    return new Written(
        records.size(),
        records.stream().mapToLong(one -> length(one.key()) + length(one.value())).sum());
  }

  /** The topic that is the log of a store. */
  Written newlyLogged(String store) {
    return newlyWritten(APPLICATION + "-" + store + "-changelog");
  }

  private static long length(byte[] bytes) {
    return bytes == null ? 0 : bytes.length;
  }

  /** Standings that came out since the last call, in order. */
  List<KeyValue<String, LotStanding>> newStandings() {
    List<KeyValue<String, LotStanding>> fresh = new ArrayList<>();
    for (KeyValue<String, byte[]> record : standings.readKeyValuesToList()) {
      LotStanding standing = record.value == null ? null : (LotStanding) wire.decode(record.value);
      fresh.add(KeyValue.pair(record.key, standing));
      latest.put(record.key, Optional.ofNullable(standing));
    }
    return fresh;
  }

  /** The latest standing of each subject; subjects that have none any more are left out. */
  Map<String, LotStanding> standings() {
    newStandings();
    Map<String, LotStanding> held = new TreeMap<>();
    latest.forEach((subject, standing) -> standing.ifPresent(s -> held.put(subject, s)));
    return held;
  }

  LotStanding standing(Subject subject) {
    return standings().get(subject.toString());
  }

  List<QuarantineEntry> quarantine() {
    return quarantine.readValuesToList().stream()
        .map(bytes -> (QuarantineEntry) wire.decode(bytes))
        .toList();
  }

  /** Links of the chain that came out since the last call. */
  List<ChainLink> newLinks() {
    return links.readRecordsToList().stream()
        .map(record -> ChainLink.read(record.key(), record.value()))
        .toList();
  }

  /** Checkpoints that came out since the last call. */
  List<Checkpoint> newCheckpoints() {
    return checkpoints.readValuesToList().stream().map(Checkpoint::read).toList();
  }

  /** Gives a record a time and headers of its own. */
  DrivenTopology pipe(TestRecord<byte[], byte[]> record) {
    facts.pipeInput(record);
    return this;
  }

  /** A record on any topic, with any time, as brokers take it; Kafka's own test record does not. */
  DrivenTopology pipe(Topics topic, long timestamp, byte[] key, byte[] value, Headers headers) {
    call("pipeRecord", topic.topicName(), timestamp, key, value, headers);
    return this;
  }

  /**
   * Facts that all wait before the first of them is processed, as when a folder is loaded. The
   * driver's own input works off all that follows from a record before it takes the next.
   */
  DrivenTopology acceptAtOnce(List<? extends SpecificRecord> records) {
    String topic = Topics.FACTS.topicName();
    for (SpecificRecord fact : records) {
      enqueue(topic, FactType.idOf(fact), wire.encode(topic, fact));
    }
    call("completeAllProcessableWork");
    return this;
  }

  private void enqueue(String topic, String key, byte[] value) {
    call(
        "enqueueTaskRecord",
        topic,
        new TopicPartition(topic, 0),
        STARTED - 1,
        key.getBytes(StandardCharsets.UTF_8),
        value,
        new RecordHeaders());
  }

  /** A method that the driver keeps to itself. */
  private void call(String name, Object... arguments) {
    try {
      Method method =
          Arrays.stream(TopologyTestDriver.class.getDeclaredMethods())
              .filter(one -> one.getName().equals(name))
              .filter(one -> one.getParameterCount() == arguments.length)
              .filter(one -> name.equals("completeAllProcessableWork") || isOfBytes(one))
              .findFirst()
              .orElseThrow();
      method.setAccessible(true);
      method.invoke(driver, arguments);
    } catch (InvocationTargetException stopped) {
      throw new AssertionError("The stream stopped", stopped.getCause());
    } catch (ReflectiveOperationException otherDriver) {
      throw new AssertionError(otherDriver);
    }
  }

  private static boolean isOfBytes(Method method) {
    return Arrays.asList(method.getParameterTypes()).contains(byte[].class);
  }

  /** Puts something into a store that no processor put there. */
  void spoil(String store, String key, byte[] value) {
    KeyValueStore<String, byte[]> spoiled = driver.getKeyValueStore(store);
    spoiled.put(key, value);
  }

  /** Takes out of a store what an earlier release did not put there. */
  void takeOut(String store, Predicate<String> keys) {
    KeyValueStore<String, byte[]> held = driver.getKeyValueStore(store);
    List<String> found = new ArrayList<>();
    try (KeyValueIterator<String, byte[]> all = held.all()) {
      all.forEachRemaining(entry -> found.add(entry.key));
    }
    found.stream().filter(keys).forEach(held::delete);
  }

  /** Has all judged by other rules from now on, as when an administrator changes a rulebook. */
  void judgeBy(Judge other) {
    judge = other;
  }

  /** Goes on with judging dossiers again until it is done; returns the number of steps. */
  int rejudge() {
    driver.advanceWallClockTime(RejudgingWalk.IDLE_INTERVAL);
    int taken = 1;
    while (rejudging.toLookAt() > 0) {
      driver.advanceWallClockTime(RejudgingWalk.INTERVAL);
      taken++;
    }
    return taken;
  }

  void letPass(Duration time) {
    driver.advanceWallClockTime(time);
  }

  List<ChainPositions.Position> positions(String factId) {
    KeyValueStore<String, byte[]> index = driver.getKeyValueStore(StateStores.CHAIN_INDEX);
    return ChainPositions.of(index, factId);
  }

  RegisterEntry registered(String factId) {
    KeyValueStore<String, RegisterEntry> register =
        driver.getKeyValueStore(StateStores.FACT_REGISTER);
    return register.get(factId);
  }

  /** Keys of what the dossier of a subject holds of superseded facts. */
  List<String> revocationsOf(Subject subject) {
    KeyValueStore<String, String> revoked =
        driver.getKeyValueStore(StateStores.DOSSIER_REVOCATIONS);
    List<String> keys = new ArrayList<>();
    try (KeyValueIterator<String, String> held =
        revoked.prefixScan(Keys.prefix(subject), new StringSerializer())) {
      held.forEachRemaining(revocation -> keys.add(revocation.key));
    }
    return keys;
  }

  Pedigree pedigree() {
    KeyValueStore<String, byte[]> edges = driver.getKeyValueStore(StateStores.PEDIGREE);
    return new PedigreeReader(wire, edges);
  }

  DossierReader dossiers() {
    KeyValueStore<String, byte[]> held = driver.getKeyValueStore(StateStores.DOSSIER_FACTS);
    KeyValueStore<String, String> revoked =
        driver.getKeyValueStore(StateStores.DOSSIER_REVOCATIONS);
    return new DossierReader(wire, held, revoked, trustsProducers);
  }

  /** All that the processors hold of a subject. */
  Dossier dossier(Subject subject) {
    KeyValueStore<String, byte[]> reports = driver.getKeyValueStore(StateStores.DOSSIER_REPORTS);
    return new Dossier(
        subject,
        dossiers().entriesOf(subject),
        new ReportReader(reports).toldTo(subject).reports());
  }

  /** What a person would sign now. */
  ReleaseSheet sheet(Subject subject) {
    return ReleaseSheet.of(dossier(subject), judge::assess);
  }

  double counted(String what) {
    return driver.metrics().entrySet().stream()
        .filter(metric -> metric.getKey().name().equals(what + "-total"))
        .mapToDouble(metric -> (double) metric.getValue().metricValue())
        .sum();
  }

  @Override
  public void close() {
    driver.close();
  }

  private TestOutputTopic<String, byte[]> output(Topics topic) {
    return driver.createOutputTopic(
        topic.topicName(), new StringDeserializer(), new ByteArrayDeserializer());
  }

  private static Path temporaryFolder() {
    try {
      Path folder = Files.createTempDirectory("kornspur-driven");
      folder.toFile().deleteOnExit();
      return folder;
    } catch (java.io.IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  private static List<Verdict> postControl(Dossier dossier, Rulebook rulebook) {
    return dossier.facts(PostControlResult.class).stream()
        .filter(result -> !result.getIdentityConfirmed())
        .map(
            result ->
                notMet(
                    Gate.POST_CONTROL,
                    result.getPlotOrTestId(),
                    FactType.headerOf(result).getFactId(),
                    0))
        .toList();
  }

  private static List<Verdict> isolation(Dossier dossier, Rulebook rulebook) {
    return dossier.neighbours().stream()
        .filter(neighbour -> neighbour.distanceM() < 1_000)
        .map(
            neighbour ->
                notMet(
                    Gate.ISOLATION,
                    neighbour.source().toString(),
                    neighbour.factId(),
                    neighbour.distanceM()))
        .toList();
  }

  private static Verdict notMet(Gate gate, String aspect, String factId, double value) {
    return Verdicts.notMet(
        gate, aspect, new Measured(value, "m", value - 1_000, Optional.empty()), factId);
  }
}
