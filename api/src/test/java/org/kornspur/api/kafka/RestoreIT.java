package org.kornspur.api.kafka;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import io.micrometer.core.instrument.simple.SimpleMeterRegistry;
import io.smallrye.config.SmallRyeConfigBuilder;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.Clock;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.Callable;
import java.util.concurrent.CompletableFuture;
import java.util.stream.Stream;
import org.apache.avro.specific.SpecificRecord;
import org.apache.kafka.clients.consumer.ConsumerRecord;
import org.apache.kafka.clients.consumer.KafkaConsumer;
import org.apache.kafka.common.TopicPartition;
import org.apache.kafka.common.serialization.ByteArrayDeserializer;
import org.apache.kafka.streams.state.HostInfo;
import org.apache.kafka.streams.state.ReadOnlyKeyValueStore;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.kornspur.api.kafka.embedded.BrokerLogins;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.storage.CannotStart;
import org.kornspur.contract.QuarantineEntry;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.file.FolderLoader;
import org.kornspur.ingest.file.LoadProgress;
import org.kornspur.ingest.intake.FactSink;
import org.kornspur.ingest.seal.SigningKey;
import org.kornspur.ingest.verify.VerifyCommand;
import org.kornspur.processors.stream.RegisterEntry;
import org.kornspur.processors.stream.StateStores;
import org.kornspur.processors.stream.Topics;

/**
 * Real processors on a real broker are backed up, running and stopped, and started on the copy; and
 * they are started on a copy of which a part is missing.
 */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
@Timeout(1800)
class RestoreIT {
  private static final int STORED_BEFORE_THE_BACKUP = 150;
  private static final int FACTS = 300;
  private static final int MOST_SENT_MEANWHILE = 2_000;
  private static final Duration LIMIT = Duration.ofMinutes(8);
  private static final HostInfo SELF = new HostInfo("127.0.0.1", 8080);

  /** Files of the program beside the broker, as the site keeps them. */
  private static final List<String> KEPT_BESIDE = List.of("people.json", "people.journal");

  @TempDir static Path folder;

  private final List<SpecificRecord> facts = new ArrayList<>();
  private Path stopped;
  private Path backup;
  private Backup.Made made;
  private int sentMeanwhile;
  private Map<String, String> standings;

  /** Loads a part of the demo, has a backup made on the way, and stops when all is signed. */
  @BeforeAll
  void backUpWhileFactsComeIn() throws Exception {
    readFacts();
    stopped = Files.createDirectory(folder.resolve("stopped"));
    for (String name : KEPT_BESIDE) {
      Files.writeString(stopped.resolve(name), "invented " + name);
    }
    try (RunningProcessors running = start(stopped, Map.of())) {
      send(running, facts.subList(0, STORED_BEFORE_THE_BACKUP));
      awaitAllSigned(running, stopped);
      CompletableFuture<Backup.Made> making =
          CompletableFuture.supplyAsync(
              () -> unchecked(() -> Backup.make(settings(stopped, Map.of()), running)));
      while (!making.isDone() && sentMeanwhile < MOST_SENT_MEANWHILE) {
        int next = (STORED_BEFORE_THE_BACKUP + sentMeanwhile) % FACTS;
        send(running, facts.subList(next, next + 1));
        sentMeanwhile++;
      }
      made = making.join();
      backup = made.folder();
      send(running, facts);
      awaitRest(running);
      awaitAllSigned(running, stopped);
      standings = standings(running);
    }
  }

  @AfterAll
  void forget() {
    facts.clear();
  }

  @Test
  void aBackupOfARunningSiteIsAsItWasSigned() throws Exception {
    assertThat(sentMeanwhile).as("facts sent while it was copied").isPositive();
    assertThat(backup.getParent()).isEqualTo(folder.resolve("backups"));
    try (Stream<Path> all = Files.list(backup.getParent())) {
      assertThat(all).containsExactly(backup);
    }
    Outcome outcome = verify("--data-folder", backup.toString(), backup);
    assertThat(outcome.exitCode()).as(outcome.text()).isEqualTo(VerifyCommand.INTACT);
    assertThat(backup.resolve("streams")).doesNotExist();
    assertThat(SigningKey.isIn(backup.resolve("keys"))).isTrue();
    for (String name : KEPT_BESIDE) {
      assertThat(backup.resolve(name)).hasContent("invented " + name);
    }
  }

  @Test
  void aBackupOfARunningSiteStartsWithAllThatWasStoredAndGoesOn() throws Exception {
    Path restored = copy(backup, "restored");
    try (RunningProcessors running = start(restored, Map.of())) {
      awaitRest(running);
      for (SpecificRecord fact : facts.subList(0, STORED_BEFORE_THE_BACKUP)) {
        assertThat(isRegistered(running, FactType.headerOf(fact).getFactId()))
            .as(FactType.headerOf(fact).getFactId())
            .isTrue();
      }
      awaitAllSigned(running, restored);
      send(running, facts);
      awaitRest(running);
      assertThat(standings(running)).isEqualTo(standings);
      awaitAllSigned(running, restored);
    }
    Outcome outcome = verify("--data-folder", restored.toString(), restored);
    assertThat(outcome.exitCode()).as(outcome.text()).isEqualTo(VerifyCommand.INTACT);
  }

  @Test
  void aPlainCopyOfAStoppedSiteStartsWithAllAndGoesOn() throws Exception {
    Path restored = copy(stopped, "copied");
    Outcome outcome = verify("--data-folder", restored.toString(), restored);
    assertThat(outcome.exitCode()).as(outcome.text()).isEqualTo(VerifyCommand.INTACT);
    try (RunningProcessors running = start(restored, Map.of())) {
      awaitRest(running);
      assertThat(standings(running)).isEqualTo(standings);
      awaitAllSigned(running, restored);
    }
  }

  /** The second time with the proofs of the partition: the processors know how far they were. */
  @ParameterizedTest
  @ValueSource(
      strings = {"kornspur.facts-2", "kornspur.facts-2 kornspur.chain-2 kornspur.checkpoints-2"})
  void aSiteThatLacksAPartitionTakesUpNoWork(String missing) throws Exception {
    Path poorer = copy(stopped, "without-" + missing.length());
    for (String partition : missing.split(" ")) {
      delete(poorer.resolve("broker").resolve(partition));
    }
    Outcome outcome = verify("--data-folder", poorer.toString(), poorer);
    assertThat(outcome.exitCode()).as(outcome.text()).isEqualTo(VerifyCommand.TAMPERED);
    assertThat(outcome.text()).contains("PARTITION_REMOVED", "partition 2.");

    String refusal = refusal(poorer, Map.of());
    assertThat(refusal)
        .contains("facts are missing: partition 2 of kornspur.facts begins at offset 0")
        .contains("ends at 0")
        .contains("back from a backup");
    assertThat(refusal(poorer, Map.of("kornspur.accept-loss", "1:9"))).isEqualTo(refusal);

    String named = refusal.substring(refusal.lastIndexOf('=') + 1);
    assertThat(named).matches("2:\\d+");
    try (RunningProcessors running = start(poorer, Map.of("kornspur.accept-loss", named))) {
      awaitRest(running);
    }
  }

  @Test
  void aLostSigningKeyIsNotReplacedUnasked() throws Exception {
    Path keyless = copy(stopped, "keyless");
    delete(keyless.resolve("keys"));
    assertThat(refusal(keyless, Map.of()))
        .contains("the signing key is missing", "back from a backup", "kornspur.new-signing-key");
    assertThat(keyless.resolve("keys")).doesNotExist();

    start(keyless, Map.of("kornspur.new-signing-key", "true")).close();
    assertThat(SigningKey.isIn(keyless.resolve("keys"))).isTrue();
    Outcome outcome = verify("--data-folder", keyless.toString(), keyless);
    assertThat(outcome.text()).contains("UNKNOWN_KEY");
    start(keyless, Map.of()).close();
  }

  /** An instance that joins a cluster brings a key of its own. */
  @Test
  void anInstanceThatTrustsTheSignerMakesAKeyOfItsOwn() throws Exception {
    Path joining = copy(stopped, "joining");
    Path trusted = folder.resolve("trusted");
    Files.move(joining.resolve("keys"), trusted);
    Files.delete(trusted.resolve(SigningKey.PRIVATE_FILE));
    start(joining, Map.of("kornspur.trusted-keys", trusted.toString())).close();
    assertThat(SigningKey.isIn(joining.resolve("keys"))).isTrue();
  }

  @Test
  void aBackupIsRefusedWhereItCannotBeKeptApart() throws Exception {
    assertThatThrownBy(
            () ->
                Backup.make(
                    settings(stopped, Map.of("kornspur.backup-folder", stopped + "/backups")),
                    null))
        .isInstanceOf(ApiProblem.class)
        .hasMessageContaining("within the data folder");
    assertThatThrownBy(
            () ->
                Backup.make(
                    settings(stopped, Map.of("kornspur.bootstrap-servers", "127.0.0.1:1")), null))
        .isInstanceOf(ApiProblem.class)
        .hasMessageContaining("Back up the cluster");
  }

  private static EngineSettings settings(Path data, Map<String, String> more) {
    Map<String, String> all =
        new HashMap<>(
            Map.of(
                "kornspur.data-folder", data.toString(),
                "kornspur.backup-folder", folder.resolve("backups").toString(),
                "kornspur.broker-port", "0",
                "kornspur.registry-port", "0",
                "kornspur.partitions", "3",
                "kornspur.checkpoint-interval", "PT1S"));
    all.putAll(more);
    return new SmallRyeConfigBuilder()
        .addDefaultInterceptors()
        .withDefaultValues(all)
        .withMapping(EngineSettings.class)
        .build()
        .getConfigMapping(EngineSettings.class);
  }

  private static RunningProcessors start(Path data, Map<String, String> more) throws Exception {
    EngineSettings settings = settings(data, more);
    RunningProcessors running =
        RunningProcessors.start(
            settings,
            new SiteKeys(settings),
            SELF,
            new RulesInForce(settings),
            new SimpleMeterRegistry());
    await("the processors run", running::isRunning);
    return running;
  }

  private static String refusal(Path data, Map<String, String> more) {
    List<String> said = new ArrayList<>();
    assertThatThrownBy(() -> start(data, more).close())
        .isInstanceOf(CannotStart.class)
        .satisfies(refused -> said.add(refused.getMessage()));
    return said.get(0);
  }

  private void readFacts() throws IOException {
    FolderLoader.load(
        Path.of("..", "demo-events"),
        Clock.systemUTC(),
        new FactSink() {
          @Override
          public void accept(SpecificRecord fact) {
            if (facts.size() < FACTS) {
              facts.add(fact);
            }
          }

          @Override
          public void refuse(QuarantineEntry entry) {}
        },
        LoadProgress.SILENT);
  }

  private static void send(RunningProcessors running, List<SpecificRecord> some) {
    CompletableFuture.allOf(
            some.stream().map(running.publisher()::publish).toArray(CompletableFuture[]::new))
        .join();
  }

  private static boolean isRegistered(RunningProcessors running, String factId) {
    StoreLocator stores = running.stores();
    int partition = stores.placeOf(StateStores.FACT_REGISTER, factId).partition();
    ReadOnlyKeyValueStore<String, RegisterEntry> register =
        stores.local(StateStores.FACT_REGISTER, partition);
    return register.get(factId) != null;
  }

  /** Twice in a row, since what one part has done another one takes up. */
  private static void awaitRest(RunningProcessors running) throws Exception {
    int[] still = {0};
    await(
        "all facts are processed",
        () -> {
          boolean waits =
              running.backlog().now().waiting().values().stream().anyMatch(records -> records > 0);
          still[0] = waits ? 0 : still[0] + 1;
          return still[0] > 15;
        });
  }

  private static void awaitAllSigned(RunningProcessors running, Path data) throws Exception {
    String client = data.resolve(BrokerLogins.CLIENT_FILE).toString();
    await(
        "all facts are signed",
        () -> verify("--client", client, data).text().matches("(?s).*INTACT: (\\d+) of \\1 .*"));
  }

  /** A broker that is busy does not always tell in time how far the processors are. */
  private static void await(String what, Callable<Boolean> isSo) {
    Awaitility.await(what)
        .atMost(LIMIT)
        .pollInSameThread()
        .pollInterval(Duration.ofMillis(100))
        .ignoreExceptionsInstanceOf(NotReady.class)
        .until(isSo);
  }

  /** The latest standing of each crop and lot. */
  private static Map<String, String> standings(RunningProcessors running) {
    Map<String, String> latest = new TreeMap<>();
    Map<String, Object> settings = new HashMap<>(running.clientSettings());
    settings.put("isolation.level", "read_committed");
    try (KafkaConsumer<byte[], byte[]> consumer =
        new KafkaConsumer<>(settings, new ByteArrayDeserializer(), new ByteArrayDeserializer())) {
      List<TopicPartition> places =
          consumer.partitionsFor(Topics.STANDINGS.topicName()).stream()
              .map(one -> new TopicPartition(one.topic(), one.partition()))
              .toList();
      Map<TopicPartition, Long> ends = consumer.endOffsets(places);
      consumer.assign(places);
      consumer.seekToBeginning(places);
      while (ends.entrySet().stream()
          .anyMatch(place -> consumer.position(place.getKey()) < place.getValue())) {
        for (ConsumerRecord<byte[], byte[]> record : consumer.poll(Duration.ofMillis(200))) {
          latest.put(
              new String(record.key(), StandardCharsets.UTF_8),
              running.wire().decode(record.value()).toString());
        }
      }
    }
    assertThat(latest).isNotEmpty();
    return latest;
  }

  /** How a verification ended, and what it said. */
  private record Outcome(int exitCode, String text) {}

  private static Outcome verify(String what, String where, Path data) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    PrintStream said = new PrintStream(out, true, StandardCharsets.UTF_8);
    int exitCode =
        VerifyCommand.run(
            said, said, List.of(what, where, "--trust", data.resolve("keys").toString()));
    return new Outcome(exitCode, out.toString(StandardCharsets.UTF_8));
  }

  private static Path copy(Path from, String name) throws IOException {
    Path to = folder.resolve(name);
    try (Stream<Path> files = Files.walk(from)) {
      for (Path file : files.toList()) {
        Files.copy(
            file, to.resolve(from.relativize(file).toString()), StandardCopyOption.COPY_ATTRIBUTES);
      }
    }
    return to;
  }

  private static void delete(Path path) throws IOException {
    try (Stream<Path> all = Files.walk(path)) {
      for (Path one : all.sorted(Comparator.reverseOrder()).toList()) {
        Files.delete(one);
      }
    }
  }

  private static <T> T unchecked(Callable<T> work) {
    try {
      return work.call();
    } catch (Exception e) {
      throw new IllegalStateException(e);
    }
  }
}
