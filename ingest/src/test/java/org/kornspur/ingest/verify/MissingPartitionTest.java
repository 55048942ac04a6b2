package org.kornspur.ingest.verify;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.apache.kafka.clients.admin.Admin;
import org.apache.kafka.clients.admin.NewTopic;
import org.apache.kafka.clients.admin.RecordsToDelete;
import org.apache.kafka.clients.consumer.OffsetAndMetadata;
import org.apache.kafka.clients.producer.KafkaProducer;
import org.apache.kafka.clients.producer.ProducerRecord;
import org.apache.kafka.common.TopicPartition;
import org.apache.kafka.common.serialization.ByteArraySerializer;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.kornspur.ingest.chain.ChainHead;
import org.kornspur.ingest.chain.ChainLink;
import org.kornspur.ingest.chain.Checkpoint;
import org.kornspur.ingest.chain.LogRecord;
import org.kornspur.ingest.publish.FactPublisher;
import org.kornspur.ingest.publish.OneBroker;
import org.kornspur.ingest.seal.SigningKey;

/** Whole partitions are gone, from the files of a stopped broker and from a running one. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
@Tag("slow")
class MissingPartitionTest {
  private static final String FACTS = FactPublisher.FACTS_TOPIC;
  private static final String STANDINGS = "kornspur.standings";
  private static final List<String> SIGNED_TOPICS =
      List.of(FACTS, ChainLink.TOPIC, Checkpoint.TOPIC);
  private static final int PARTITIONS = 4;
  private static final int RECORDS = 25;
  private static final int SIGNED = 20;
  private static final String GROUP = "processors";

  @TempDir static Path folder;
  private Path data;
  private Path keys;
  private Path handedOut;
  private List<LogEnd> wholeEnds;
  private List<LogEnd> cutEnds;
  private Outcome emptied;
  private Outcome withoutFacts;
  private Outcome withFewer;

  /** How a run ended and what it said. */
  private record Outcome(int exitCode, String out) {}

  @BeforeAll
  void fillABrokerAndStopIt() throws Exception {
    data = folder.resolve("data");
    keys = folder.resolve("keys");
    handedOut = folder.resolve("handed-out.ndjson");
    SigningKey key = SigningKey.loadOrCreate(keys);
    try (OneBroker broker = OneBroker.start(data)) {
      try (Admin admin = Admin.create(Map.of("bootstrap.servers", broker.bootstrap()))) {
        create(admin, Stream.concat(SIGNED_TOPICS.stream(), Stream.of(STANDINGS)), PARTITIONS);
        fill(broker.bootstrap(), key);
        admin
            .alterConsumerGroupOffsets(
                GROUP, Map.of(new TopicPartition(FACTS, 3), new OffsetAndMetadata(RECORDS)))
            .all()
            .get();
      }
      wholeEnds = ClusterLog.ends(Map.of("bootstrap.servers", broker.bootstrap()), GROUP);
    }
    Path running = copy("running");
    try (OneBroker broker = OneBroker.again(running);
        Admin admin = Admin.create(Map.of("bootstrap.servers", broker.bootstrap()))) {
      TopicPartition one = new TopicPartition(FACTS, 1);
      admin.deleteRecords(Map.of(one, RecordsToDelete.beforeOffset(RECORDS))).all().get();
      emptied = verifyRunning(broker);
      cutEnds = ClusterLog.ends(Map.of("bootstrap.servers", broker.bootstrap()), GROUP);
      admin.deleteTopics(List.of(FACTS)).all().get();
      withoutFacts = verifyRunning(broker);
      create(admin, Stream.of(FACTS), 2);
      withFewer = verifyRunning(broker);
    }
  }

  @Test
  void nothingIsMissingFromTheWhole() throws Exception {
    assertThat(verify(copy("whole")).exitCode()).isEqualTo(VerifyCommand.INTACT);
    assertThat(wholeEnds)
        .hasSize(PARTITIONS)
        .allSatisfy(
            end -> {
              assertThat(end.missing()).isZero();
              assertThat(end.end()).isEqualTo(RECORDS);
              assertThat(end.link().orElseThrow().offset()).isEqualTo(RECORDS - 1);
              assertThat(end.checkpoint().orElseThrow().offset()).isEqualTo(SIGNED - 1);
            });
    assertThat(wholeEnds.get(3).processed()).isEqualTo(RECORDS);
  }

  @ParameterizedTest
  @ValueSource(booleans = {false, true})
  void factsThatAreGoneAreNamedWithTheirNumber(boolean withCheckpoints) throws Exception {
    Path tampered = copy("facts-" + withCheckpoints);
    remove(tampered, FACTS, 2);
    Outcome outcome = withCheckpoints ? verifyWithCheckpoints(tampered) : verify(tampered);
    assertThat(outcome.out())
        .contains("PARTITION_REMOVED A whole partition of the facts is missing: partition 2")
        .contains("Expected 20 signed records and 5 not signed yet; found none");
    assertThat(outcome.exitCode()).isEqualTo(VerifyCommand.TAMPERED);
  }

  @Test
  void eachOfThreePartitionsIsNamed() throws Exception {
    Path tampered = copy("three");
    List.of(0, 1, 3).forEach(number -> remove(tampered, FACTS, number));
    Outcome outcome = verify(tampered);
    assertThat(outcome.out())
        .contains("missing: partition 0.", "missing: partition 1.", "missing: partition 3.")
        .doesNotContain("missing: partition 2.");
    assertThat(outcome.exitCode()).isEqualTo(VerifyCommand.TAMPERED);
  }

  /** The broker's own record of its topics, and the sibling topics, know how many there were. */
  @ParameterizedTest
  @ValueSource(strings = {STANDINGS, "__cluster_metadata"})
  void aPartitionThatIsGoneWithItsProofsIsNamed(String alsoGone) throws Exception {
    Path tampered = copy("all-" + alsoGone);
    for (String topic : SIGNED_TOPICS) {
      remove(tampered, topic, 3);
    }
    remove(tampered, alsoGone, alsoGone.equals(STANDINGS) ? 3 : 0);
    Outcome outcome = verify(tampered);
    assertThat(outcome.out())
        .contains("PARTITION_REMOVED")
        .contains("partition 3. Expected its records; how many is not known");
    assertThat(outcome.exitCode()).isEqualTo(VerifyCommand.TAMPERED);
  }

  @Test
  void checkpointsThatWereHandedOutKnowAPartitionThatNothingElseKnows() throws Exception {
    Path tampered = copy("known-outside");
    for (String topic : List.of(FACTS, ChainLink.TOPIC, Checkpoint.TOPIC, STANDINGS)) {
      remove(tampered, topic, 3);
    }
    remove(tampered, "__cluster_metadata", 0);
    assertThat(verify(tampered).exitCode()).isEqualTo(VerifyCommand.INTACT);
    Outcome outcome = verifyWithCheckpoints(tampered);
    assertThat(outcome.out())
        .contains("PARTITION_REMOVED")
        .contains("partition 3. Expected 20 signed records; found none");
    assertThat(outcome.exitCode()).isEqualTo(VerifyCommand.TAMPERED);
  }

  @Test
  void proofsThatAreGoneAreNamed() throws Exception {
    Path tampered = copy("proofs");
    remove(tampered, Checkpoint.TOPIC, 1);
    remove(tampered, ChainLink.TOPIC, 2);
    Outcome outcome = verify(tampered);
    assertThat(outcome.out())
        .contains("CHECKPOINT_REMOVED A checkpoint was removed: partition 1")
        .contains("LINK_REMOVED A link was removed")
        .contains("partition 2");
    assertThat(outcome.exitCode()).isEqualTo(VerifyCommand.TAMPERED);
  }

  @Test
  void aRunningClusterThatLostPartitionsIsNamed() {
    assertThat(emptied.out())
        .contains("RECORD_REMOVED A record was removed: partition 1, offset 0")
        .contains("20 signed records are missing");
    assertThat(emptied.exitCode()).isEqualTo(VerifyCommand.TAMPERED);
    assertThat(cutEnds.get(1).missing()).isEqualTo(RECORDS);
    assertThat(cutEnds.get(0).missing()).isZero();
    for (int number = 0; number < PARTITIONS; number++) {
      assertThat(withoutFacts.out())
          .contains("missing: partition " + number + ". Expected 20 signed");
    }
    assertThat(withFewer.out())
        .contains("missing: partition 2.", "missing: partition 3.")
        .contains("RECORD_REMOVED A record was removed: partition 0");
    assertThat(withFewer.exitCode()).isEqualTo(VerifyCommand.TAMPERED);
  }

  private void fill(String bootstrap, SigningKey key) throws Exception {
    StringBuilder published = new StringBuilder();
    try (KafkaProducer<byte[], byte[]> producer =
        new KafkaProducer<>(
            Map.of("bootstrap.servers", bootstrap, "linger.ms", 0),
            new ByteArraySerializer(),
            new ByteArraySerializer())) {
      for (int partition = 0; partition < PARTITIONS; partition++) {
        ChainHead head = ChainHead.start(partition);
        for (int i = 0; i < RECORDS; i++) {
          byte[] id = ("p" + partition + "-f" + i).getBytes(StandardCharsets.UTF_8);
          long offset =
              producer.send(new ProducerRecord<>(FACTS, partition, 1000L, id, id)).get().offset();
          ChainLink link =
              head.link(new LogRecord(partition, offset, 1000, id, id, List.of()).entry());
          head = head.with(link);
          producer.send(new ProducerRecord<>(ChainLink.TOPIC, partition, id, link.write())).get();
          if (head.sequence() % 10 == 0) {
            byte[] checkpoint = head.sign(key, Instant.EPOCH).write();
            published.append(new String(checkpoint, StandardCharsets.UTF_8)).append('\n');
            producer.send(new ProducerRecord<>(Checkpoint.TOPIC, partition, id, checkpoint)).get();
            head = head.with(Checkpoint.read(checkpoint));
          }
        }
      }
    }
    Files.writeString(handedOut, published);
  }

  private static void create(Admin admin, Stream<String> topics, int partitions) throws Exception {
    admin
        .createTopics(topics.map(name -> new NewTopic(name, partitions, (short) 1)).toList())
        .all()
        .get();
  }

  private Path copy(String name) throws IOException {
    Path to = folder.resolve(name);
    try (Stream<Path> files = Files.walk(data)) {
      for (Path file : files.toList()) {
        Files.copy(file, to.resolve(data.relativize(file).toString()));
      }
    }
    return to;
  }

  private static void remove(Path broker, String topic, int partition) {
    try (Stream<Path> files = Files.walk(broker.resolve(topic + "-" + partition))) {
      files.sorted(Comparator.reverseOrder()).map(Path::toFile).forEach(java.io.File::delete);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private Outcome verify(Path broker) {
    return run("--data-folder", broker.toString(), "--trust", keys.toString());
  }

  private Outcome verifyWithCheckpoints(Path broker) {
    return run(
        "--data-folder",
        broker.toString(),
        "--trust",
        keys.toString(),
        "--checkpoints",
        handedOut.toString());
  }

  private Outcome verifyRunning(OneBroker broker) {
    return run("--bootstrap-servers", broker.bootstrap(), "--trust", keys.toString());
  }

  private static Outcome run(String... arguments) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    PrintStream said = new PrintStream(out, true, StandardCharsets.UTF_8);
    int exitCode = VerifyCommand.run(said, said, List.of(arguments));
    return new Outcome(exitCode, out.toString(StandardCharsets.UTF_8));
  }
}
