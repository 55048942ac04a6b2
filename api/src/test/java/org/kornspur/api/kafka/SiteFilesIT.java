package org.kornspur.api.kafka;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermission;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Clock;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;
import org.apache.kafka.clients.producer.KafkaProducer;
import org.apache.kafka.clients.producer.ProducerRecord;
import org.apache.kafka.common.KafkaException;
import org.apache.kafka.common.errors.TopicAuthorizationException;
import org.apache.kafka.common.serialization.ByteArraySerializer;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.io.TempDir;
import org.kornspur.api.EmptyMachine;
import org.kornspur.ingest.file.FolderLoader;
import org.kornspur.ingest.file.LoadProgress;
import org.kornspur.ingest.file.LoadReport;
import org.kornspur.ingest.publish.ClientFile;
import org.kornspur.ingest.publish.FactPublisher;
import org.kornspur.processors.stream.Topics;

/**
 * What another user of the machine finds of a running site, whose data folder an earlier release
 * left open to everybody.
 */
@ExtendWith(EmptyMachine.class)
class SiteFilesIT {
  private final Path dataFolder = EmptyMachine.dataFolder();

  private static final Set<PosixFilePermission> OF_OTHERS =
      EnumSet.complementOf(EnumSet.copyOf(PosixFilePermissions.fromString("rwx------")));

  /** A file is out of reach if one of the folders on the way to it, or it itself, is closed. */
  @Test
  void noFileOfTheDataFolderIsInReachOfOthers() throws IOException {
    try (Stream<Path> files = Files.walk(dataFolder)) {
      List<Path> all = files.toList();
      assertThat(all)
          .map(path -> path.getFileName().toString())
          .contains("broker", "streams", "keys", "people.json", "client.properties");
      assertThat(all).filteredOn(this::isInReachOfOthers).isEmpty();
    }
  }

  @Test
  void secretsAreClosedByThemselvesToo() throws IOException {
    for (String name : List.of("broker.key", "client.properties", "internal.key", "people.json")) {
      assertThat(rightsOfOthers(dataFolder.resolve(name))).as(name).isEmpty();
    }
  }

  @Test
  void theFileForClientsLoadsAFolderAndOpensNoInternalTopic(@TempDir Path facts) throws Exception {
    Map<String, Object> client =
        new HashMap<>(ClientFile.read(dataFolder.resolve("client.properties")));
    Files.writeString(facts.resolve("facts.ndjson"), "{\"type\": \"None\"}\n");
    try (FactPublisher publisher = FactPublisher.connect(client)) {
      LoadReport report =
          FolderLoader.load(facts, Clock.systemUTC(), publisher, LoadProgress.SILENT);
      assertThat(report.refused()).isEqualTo(1);
    }
    try (KafkaProducer<byte[], byte[]> producer =
        new KafkaProducer<>(client, new ByteArraySerializer(), new ByteArraySerializer())) {
      assertThat(
              failure(producer, new ProducerRecord<>(Topics.BY_SUBJECT.topicName(), new byte[1])))
          .hasRootCauseInstanceOf(TopicAuthorizationException.class);
    }
  }

  private static Throwable failure(
      KafkaProducer<byte[], byte[]> producer, ProducerRecord<byte[], byte[]> record) {
    try {
      producer.send(record).get();
      return null;
    } catch (InterruptedException interrupted) {
      throw new IllegalStateException(interrupted);
    } catch (java.util.concurrent.ExecutionException | KafkaException refused) {
      return refused;
    }
  }

  private boolean isInReachOfOthers(Path path) {
    for (Path on = path; on.startsWith(dataFolder); on = on.getParent()) {
      if (rightsOfOthers(on).isEmpty()) {
        return false;
      }
    }
    return true;
  }

  private static Set<PosixFilePermission> rightsOfOthers(Path path) {
    try {
      Set<PosixFilePermission> rights = EnumSet.copyOf(OF_OTHERS);
      rights.retainAll(Files.getPosixFilePermissions(path));
      return rights;
    } catch (NoSuchFileException gone) {
      return Set.of();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
