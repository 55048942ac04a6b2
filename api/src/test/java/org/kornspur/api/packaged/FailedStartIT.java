package org.kornspur.api.packaged;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.jar.JarOutputStream;
import java.util.jar.Manifest;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.kornspur.api.FreePorts;
import org.kornspur.api.security.people.TestPeople;
import org.kornspur.api.storage.DataFolder;

/**
 * A packaged application that cannot start ends with an exit code that says so and one line that
 * says why; one that only has to wait does not.
 */
@Timeout(600)
class FailedStartIT {

  private static final Duration LIMIT = Duration.ofMinutes(2);
  private static final String ENDS = "Kornspur could not start, and ends: ";

  @TempDir Path folder;
  private final Map<String, String> environment = new HashMap<>();

  @BeforeEach
  void settings() {
    environment.put("QUARKUS_HTTP_PORT", Integer.toString(FreePorts.next()));
    environment.put("KORNSPUR_BROKER_PORT", "0");
    environment.put("KORNSPUR_REGISTRY_PORT", "0");
    environment.put("KORNSPUR_DATA_FOLDER", folder.resolve("data").toString());
    TestPeople.writeInto(folder.resolve("data"));
  }

  @Test
  void thePortOfTheBrokerIsTaken() throws Exception {
    try (ServerSocket taken = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
      environment.put("KORNSPUR_BROKER_PORT", Integer.toString(taken.getLocalPort()));
      assertThat(lineAtTheEnd()).contains("Port " + taken.getLocalPort(), "give another port");
    }
  }

  /** The broker runs by then, and has to be stopped. */
  @Test
  void thePortOfTheRegistryIsTaken() throws Exception {
    try (ServerSocket taken = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
      environment.put("KORNSPUR_REGISTRY_PORT", Integer.toString(taken.getLocalPort()));
      assertThat(lineAtTheEnd()).contains("Port " + taken.getLocalPort(), "give another port");
    }
  }

  @Test
  void theBrokersFolderCannotBeWritten() throws Exception {
    Files.createFile(folder.resolve("data").resolve("broker"));
    assertThat(lineAtTheEnd()).contains("data/broker cannot be written");
  }

  @Test
  void anotherProcessHasTheDataFolder() throws Exception {
    Path broker = folder.resolve("data").resolve("broker");
    try (DataFolder held = DataFolder.take(broker)) {
      assertThat(lineAtTheEnd())
          .contains("Data folder " + held.path() + " is in use", "Stop that run");
    }
  }

  @Test
  void theDataFolderIsAFile() throws Exception {
    Path file = Files.createFile(folder.resolve("file"));
    environment.put("KORNSPUR_DATA_FOLDER", file.toString());
    try (ServerProcess process = start(PackagedPrograms.application())) {
      assertThat(process.exitCodeWithin(LIMIT)).isEqualTo(1);
      assertThat(process.lastWords())
          .contains("Kornspur could not start: Data folder " + file)
          .doesNotContain("\tat ");
    }
  }

  /** An Error ended the starting thread without a word, and the process stayed. */
  @Test
  void aClassIsMissing() throws Exception {
    Path application = withEmptyJar("org.rocksdb.rocksdbjni");
    try (ServerProcess process = start(application)) {
      assertThat(process.exitCodeWithin(LIMIT)).isEqualTo(1);
      assertThat(process.lastWords()).contains(ENDS + "java.lang.NoClassDefFoundError");
    }
  }

  @Test
  void brokersThatDoNotAnswerYetAreWaitedFor() throws Exception {
    environment.put("KORNSPUR_BOOTSTRAP_SERVERS", "127.0.0.1:" + FreePorts.next());
    environment.put("KORNSPUR_KAFKA__DEFAULT_API_TIMEOUT_MS_", "3000");
    try (ServerProcess process = start(PackagedPrograms.application())) {
      Deadline deadline = Deadline.in(LIMIT, "it says that it tries again");
      while (!process.lastWords().contains("Kornspur cannot start yet")) {
        if (deadline.passed() || !process.isAlive()) {
          throw deadline.missed(process.lastWords());
        }
        Thread.sleep(100);
      }
      assertThat(process.isAlive()).isTrue();
      process.stop(Duration.ofSeconds(30));
      assertThat(process.lastWords()).doesNotContain(ENDS);
    }
  }

  private String lineAtTheEnd() throws Exception {
    try (ServerProcess process = start(PackagedPrograms.application())) {
      assertThat(process.exitCodeWithin(LIMIT)).as(process.lastWords()).isEqualTo(1);
      String words = process.lastWords();
      assertThat(words).contains(ENDS).doesNotContain("\tat ");
      return words.lines().filter(line -> line.contains(ENDS)).findFirst().orElseThrow();
    }
  }

  private ServerProcess start(Path application) throws IOException {
    return ServerProcess.start(
        "kornspur", folder, environment, List.of("-Xmx512m", "-jar", application.toString()));
  }

  /** The packaged application in another folder, made of links, with one jar empty. */
  private Path withEmptyJar(String name) throws IOException {
    Path packaged = PackagedPrograms.application().getParent();
    Path copy = folder.resolve("application");
    try (Stream<Path> files = Files.walk(packaged)) {
      for (Path file : files.filter(Files::isRegularFile).toList()) {
        Path placed = copy.resolve(packaged.relativize(file));
        Files.createDirectories(placed.getParent());
        if (file.getFileName().toString().startsWith(name)) {
          new JarOutputStream(Files.newOutputStream(placed), new Manifest()).close();
        } else if (file.endsWith("quarkus-run.jar")) {
          Files.copy(file, placed); // Java takes the place where it really lies
        } else {
          Files.createSymbolicLink(placed, file);
        }
      }
    }
    return copy.resolve("quarkus-run.jar");
  }
}
