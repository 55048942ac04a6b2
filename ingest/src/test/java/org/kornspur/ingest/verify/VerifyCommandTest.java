package org.kornspur.ingest.verify;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;
import org.apache.kafka.clients.admin.Admin;
import org.apache.kafka.clients.admin.NewTopic;
import org.apache.kafka.clients.producer.KafkaProducer;
import org.apache.kafka.clients.producer.ProducerRecord;
import org.apache.kafka.common.compress.Compression;
import org.apache.kafka.common.header.internals.RecordHeader;
import org.apache.kafka.common.record.FileRecords;
import org.apache.kafka.common.record.MemoryRecords;
import org.apache.kafka.common.record.Record;
import org.apache.kafka.common.record.RecordBatch;
import org.apache.kafka.common.record.SimpleRecord;
import org.apache.kafka.common.record.TimestampType;
import org.apache.kafka.common.serialization.ByteArraySerializer;
import org.apache.kafka.common.utils.Utils;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;
import org.kornspur.ingest.chain.ChainHead;
import org.kornspur.ingest.chain.ChainLink;
import org.kornspur.ingest.chain.Checkpoint;
import org.kornspur.ingest.chain.LogRecord;
import org.kornspur.ingest.publish.OneBroker;
import org.kornspur.ingest.seal.SigningKey;
import org.kornspur.ingest.seal.TrustedKeys;

/**
 * The command over a real broker and over the files that it left. Links and checkpoints are written
 * in transactions, as the processors do, some of which are given up.
 */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
@Tag("slow")
class VerifyCommandTest {
  private static final int RECORDS = 60;
  private static final int SIGNED = 50;

  @TempDir static Path folder;
  private Path data;
  private Path keys;
  private Path handedOut;
  private Outcome running;

  /** How a run ended and what it said. */
  private record Outcome(int exitCode, String out, String err) {}

  @BeforeAll
  void fillABrokerAndStopIt() throws Exception {
    data = folder.resolve("data");
    keys = folder.resolve("keys");
    handedOut = folder.resolve("handed-out.ndjson");
    SigningKey key = SigningKey.loadOrCreate(keys);
    try (OneBroker broker = OneBroker.start(data)) {
      Map<String, Object> client = Map.of("bootstrap.servers", broker.bootstrap());
      try (Admin admin = Admin.create(client)) {
        admin
            .createTopics(
                List.of(
                    new NewTopic("kornspur.facts", 1, (short) 1),
                    new NewTopic(ChainLink.TOPIC, 1, (short) 1),
                    new NewTopic(Checkpoint.TOPIC, 1, (short) 1)))
            .all()
            .get();
      }
      writeChain(broker.bootstrap(), writeFacts(broker.bootstrap()), key);
      running = verify("--bootstrap-servers", broker.bootstrap(), "--trust", keys.toString());
    }
  }

  @Test
  void aRunningClusterIsAsItWasSigned() {
    assertThat(running.out())
        .contains("Partition 0: 60 records, 50 signed by 5 checkpoints")
        .contains("9 chained and not signed yet, 1 not chained yet")
        .endsWith("INTACT: 50 of 60 are as they were signed.\n");
    assertThat(running.exitCode()).isEqualTo(VerifyCommand.INTACT);
  }

  @Test
  void aStoppedMachineIsAsItWasSigned() {
    Outcome outcome = verify("--data-folder", data.toString(), "--trust", keys.toString());
    assertThat(outcome.out()).isEqualTo(running.out());
    assertThat(outcome.exitCode()).isEqualTo(VerifyCommand.INTACT);
  }

  @Test
  void aFactChangedOnTheDiskIsNamed() throws Exception {
    Path tampered = copyOf(data, "altered");
    rewrite(
        tampered,
        17,
        record ->
            new SimpleRecord(
                record.timestamp(),
                "f17".getBytes(StandardCharsets.UTF_8),
                "another fact".getBytes(StandardCharsets.UTF_8)));
    Outcome outcome = verify("--data-folder", tampered.toString(), "--trust", keys.toString());
    assertThat(outcome.exitCode()).isEqualTo(VerifyCommand.TAMPERED);
    assertThat(outcome.out()).contains("RECORD_ALTERED").contains("offset 17, number 18, fact f17");
  }

  @Test
  void aByteFlippedOnTheDiskWithoutCareIsNamed() throws Exception {
    Path tampered = copyOf(data, "flipped");
    Path log = tampered.resolve("kornspur.facts-0").resolve("00000000000000000000.log");
    byte[] bytes = Files.readAllBytes(log);
    int at = indexOf(bytes, "invented fact 23".getBytes(StandardCharsets.UTF_8));
    bytes[at] ^= 1;
    Files.write(log, bytes);
    Outcome outcome = verify("--data-folder", tampered.toString(), "--trust", keys.toString());
    assertThat(outcome.exitCode()).isEqualTo(VerifyCommand.TAMPERED);
    assertThat(outcome.out()).contains("RECORD_ALTERED").contains("offset 23, number 24, fact f23");
  }

  /** Wherever a byte is flipped: what was signed is whole, or the first record missing is named. */
  @Test
  void noByteFlippedOnTheDiskKeepsTheVerificationFromItsWork() throws Exception {
    Path tampered = copyOf(data, "flipped-anywhere");
    Path log = tampered.resolve("kornspur.facts-0").resolve("00000000000000000000.log");
    byte[] whole = Files.readAllBytes(log);
    int named = 0;
    for (int at = 0; at < whole.length; at += 13) {
      byte[] bytes = whole.clone();
      bytes[at] ^= 0x40;
      Files.write(log, bytes);
      Outcome outcome = verify("--data-folder", tampered.toString(), "--trust", keys.toString());
      assertThat(outcome.exitCode())
          .as("byte %d: %s %s", at, outcome.out(), outcome.err())
          .isIn(VerifyCommand.INTACT, VerifyCommand.TAMPERED);
      if (outcome.exitCode() == VerifyCommand.TAMPERED) {
        assertThat(outcome.out()).contains("partition 0");
        named++;
      }
    }
    assertThat(named).isGreaterThan(whole.length / 13 / 2);
  }

  /** All three cut off at the same place: only what was handed out tells. */
  @Test
  void aLogCutOffWithItsCheckpointsIsNamedByACheckpointThatWasHandedOut() throws Exception {
    Path tampered = copyOf(data, "cut");
    cut(tampered, "kornspur.facts", record -> record.offset() == 30);
    cut(tampered, ChainLink.TOPIC, record -> ChainLink.read(null, value(record)).sequence() == 31);
    cut(tampered, Checkpoint.TOPIC, record -> Checkpoint.read(value(record)).sequence() > 30);
    Outcome blind = verify("--data-folder", tampered.toString(), "--trust", keys.toString());
    assertThat(blind.exitCode()).isEqualTo(VerifyCommand.INTACT);
    Outcome outcome =
        verify(
            "--data-folder",
            tampered.toString(),
            "--trust",
            keys.toString(),
            "--checkpoints",
            handedOut.toString());
    assertThat(outcome.exitCode()).isEqualTo(VerifyCommand.TAMPERED);
    assertThat(outcome.out()).contains("RECORD_REMOVED").contains("CHECKPOINT_REMOVED");
  }

  @Test
  void keysThatComeAlongAreUsedWithACaution() {
    Outcome outcome = verify("--data-folder", data.toString());
    assertThat(outcome.exitCode()).isEqualTo(VerifyCommand.INTACT);
    assertThat(outcome.out())
        .contains("CAUTION: no --trust was given")
        .contains(TrustedKeys.in(keys).keyIds().get(0));
  }

  @Test
  void aKeyThatIsNotTrustedIsNamed() {
    Path others = folder.resolve("others");
    SigningKey.loadOrCreate(others);
    Outcome outcome = verify("--data-folder", data.toString(), "--trust", others.toString());
    assertThat(outcome.exitCode()).isEqualTo(VerifyCommand.TAMPERED);
    assertThat(outcome.out()).contains("UNKNOWN_KEY");
  }

  @Test
  void whatCannotBeVerifiedIsSaid() throws Exception {
    assertThat(verify().err()).contains("Name one of").contains("Usage:");
    Path client = Files.writeString(folder.resolve("client.properties"), "bootstrap.servers=x:1");
    assertThat(verify("--client", client.toString(), "--data-folder", "d").err())
        .contains("2 are named");
    assertThat(verify("--data-folder", keys.toString()).err()).contains("holds no folder");
    Path noProof = Files.writeString(folder.resolve("no-proof.json"), "{}");
    Outcome outcome = verify(noProof.toString());
    assertThat(outcome.err()).contains("not a proof of this version");
    assertThat(outcome.exitCode()).isEqualTo(VerifyCommand.FAILED);
  }

  @Test
  void aFolderWithoutKeysIsAMistakeAndNoTampering() throws Exception {
    Path empty = Files.createDirectory(folder.resolve("no-keys"));
    Outcome outcome = verify("--data-folder", data.toString(), "--trust", empty.toString());
    assertThat(outcome.exitCode()).isEqualTo(VerifyCommand.FAILED);
    assertThat(outcome.err()).contains("no-keys holds no public key");
  }

  private static List<LogRecord> writeFacts(String bootstrap) throws Exception {
    List<LogRecord> records = new ArrayList<>();
    try (KafkaProducer<byte[], byte[]> producer =
        new KafkaProducer<>(
            Map.of("bootstrap.servers", bootstrap),
            new ByteArraySerializer(),
            new ByteArraySerializer())) {
      for (int i = 0; i < RECORDS; i++) {
        byte[] key = ("f" + i).getBytes(StandardCharsets.UTF_8);
        byte[] value = ("invented fact " + i).getBytes(StandardCharsets.UTF_8);
        var record = new ProducerRecord<>("kornspur.facts", 0, 1000L + i, key, value);
        record.headers().add(new RecordHeader("from", new byte[] {(byte) i}));
        long offset = producer.send(record).get().offset();
        records.add(
            new LogRecord(
                0,
                offset,
                1000L + i,
                key,
                value,
                List.of(new LogRecord.Header("from", new byte[] {(byte) i}))));
      }
    }
    return records;
  }

  private void writeChain(String bootstrap, List<LogRecord> records, SigningKey key)
      throws Exception {
    try (KafkaProducer<byte[], byte[]> producer =
        new KafkaProducer<>(
            Map.of("bootstrap.servers", bootstrap, "transactional.id", "chain"),
            new ByteArraySerializer(),
            new ByteArraySerializer())) {
      producer.initTransactions();
      ChainHead head = ChainHead.start(0);
      for (int i = 0; i < RECORDS - 1; i++) {
        ChainLink link = head.link(records.get(i).entry());
        if (i % 13 == 5) {
          producer.beginTransaction();
          send(producer, ChainLink.TOPIC, records.get(i).key(), link.write());
          producer.flush();
          producer.abortTransaction();
        }
        head = head.with(link);
        producer.beginTransaction();
        send(producer, ChainLink.TOPIC, records.get(i).key(), link.write());
        if (head.sequence() % 10 == 0 && head.sequence() <= SIGNED) {
          Checkpoint checkpoint = head.sign(key, Instant.ofEpochSecond(i));
          send(producer, Checkpoint.TOPIC, null, checkpoint.write());
          Files.writeString(
              handedOut, new String(checkpoint.write(), StandardCharsets.UTF_8) + "\n");
          head = head.with(checkpoint);
        }
        producer.commitTransaction();
      }
    }
  }

  private static void send(
      KafkaProducer<byte[], byte[]> producer, String topic, byte[] key, byte[] value) {
    var unused = producer.send(new ProducerRecord<>(topic, 0, key, value));
  }

  private interface Change {
    SimpleRecord of(Record record);
  }

  /** Rewrites one record of the facts as a whole batch with a fitting checksum. */
  private static void rewrite(Path data, long offset, Change change) throws Exception {
    Path log = data.resolve("kornspur.facts-0").resolve("00000000000000000000.log");
    ByteArrayOutputStream changed = new ByteArrayOutputStream();
    try (FileRecords file = FileRecords.open(log.toFile(), false)) {
      for (var batch : file.batches()) {
        ByteBuffer bytes = ByteBuffer.allocate(batch.sizeInBytes());
        batch.writeTo(bytes);
        if (batch.baseOffset() == offset) {
          Record record = batch.iterator().next();
          bytes =
              MemoryRecords.withRecords(
                      RecordBatch.MAGIC_VALUE_V2,
                      offset,
                      Compression.NONE,
                      TimestampType.CREATE_TIME,
                      change.of(record))
                  .buffer();
          changed.write(Arrays.copyOf(bytes.array(), bytes.limit()));
        } else {
          changed.write(bytes.array());
        }
      }
    }
    Files.write(log, changed.toByteArray());
  }

  /** Ends a topic before the first record that is so. */
  private static void cut(Path data, String topic, Predicate<Record> from) throws Exception {
    Path log = data.resolve(topic + "-0").resolve("00000000000000000000.log");
    ByteArrayOutputStream kept = new ByteArrayOutputStream();
    try (FileRecords file = FileRecords.open(log.toFile(), false)) {
      for (var batch : file.batches()) {
        if (!batch.isControlBatch() && from.test(batch.iterator().next())) {
          break;
        }
        ByteBuffer bytes = ByteBuffer.allocate(batch.sizeInBytes());
        batch.writeTo(bytes);
        kept.write(bytes.array());
      }
    }
    Files.write(log, kept.toByteArray());
  }

  private static byte[] value(Record record) {
    return Utils.toNullableArray(record.value());
  }

  private static int indexOf(byte[] bytes, byte[] wanted) {
    for (int i = 0; i + wanted.length <= bytes.length; i++) {
      if (Arrays.equals(bytes, i, i + wanted.length, wanted, 0, wanted.length)) {
        return i;
      }
    }
    throw new AssertionError("not in the file");
  }

  private Path copyOf(Path from, String name) throws Exception {
    Path to = folder.resolve(name);
    try (var files = Files.walk(from)) {
      for (Path file : files.toList()) {
        Path target = to.resolve(from.relativize(file).toString());
        if (Files.isDirectory(file)) {
          Files.createDirectories(target);
        } else if (file.toString().endsWith(".log")) {
          Files.copy(file, target);
        }
      }
    }
    return to;
  }

  private static Outcome verify(String... arguments) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    ByteArrayOutputStream err = new ByteArrayOutputStream();
    int exitCode =
        VerifyCommand.run(
            new PrintStream(out, true, StandardCharsets.UTF_8),
            new PrintStream(err, true, StandardCharsets.UTF_8),
            List.of(arguments));
    return new Outcome(
        exitCode, out.toString(StandardCharsets.UTF_8), err.toString(StandardCharsets.UTF_8));
  }
}
