package org.kornspur.api.packaged;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.kornspur.api.FreePorts;
import org.kornspur.api.kafka.embedded.BrokerLogins;
import org.kornspur.api.security.people.TestPeople;
import org.kornspur.ingest.publish.ClientFile;
import org.kornspur.ingest.verify.VerifyCommand;

/**
 * The packaged application as a user starts it on one machine, with broker and registry in the same
 * process, on ports of its own. May be killed and started again on the same folder.
 */
public final class OneMachine implements AutoCloseable {

  private static final Duration READY_LIMIT = Duration.ofMinutes(5);
  private static final Duration PAUSE = Duration.ofMillis(300);
  private static final Duration STOP_LIMIT = Duration.ofMinutes(1);

  private final Path folder;
  private final Map<String, String> environment = new HashMap<>();
  private final List<String> options = new ArrayList<>(List.of("-Xmx512m"));
  private final int brokerPort = FreePorts.next();
  private final int registryPort = FreePorts.next();
  private final int httpPort = FreePorts.next();
  private final Site site = new Site("http://127.0.0.1:" + httpPort);
  private Optional<Path> jar = Optional.empty();
  private ServerProcess process;

  public OneMachine(Path folder) {
    this.folder = folder;
    environment.put("QUARKUS_HTTP_PORT", Integer.toString(httpPort));
    environment.put("KORNSPUR_BROKER_PORT", Integer.toString(brokerPort));
    environment.put("KORNSPUR_REGISTRY_PORT", Integer.toString(registryPort));
    environment.put("KORNSPUR_CHECKPOINT_INTERVAL", "PT1S");
    environment.put("KORNSPUR_PARTITIONS", "2");
    // nobody but the test writes to its topic, partly by a plain producer
    environment.put("KORNSPUR_TRUST_TOPIC_PRODUCERS", "true");
    environment.put("KORNSPUR_DATA_FOLDER", folder.resolve("data").toAbsolutePath().toString());
    environment.put("KORNSPUR_REQUESTS_PER_MINUTE", "1000000");
    environment.put("KORNSPUR_ANONYMOUS_REQUESTS_PER_MINUTE", "1000000");
    TestPeople.writeInto(folder.resolve("data"));
  }

  /** Verifies the log of the running machine with its own public keys. */
  Outcome verifyRunning() {
    return verify("--client", clientFile().toString());
  }

  /** Verifies the files that the stopped machine left. */
  Outcome verifyStopped() {
    return verify("--data-folder", folder.resolve("data").toString());
  }

  private Outcome verify(String what, String where) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    PrintStream said = new PrintStream(out, true, StandardCharsets.UTF_8);
    String keys = folder.resolve("data").resolve("keys").toString();
    int exitCode = VerifyCommand.run(said, said, List.of(what, where, "--trust", keys));
    return new Outcome(exitCode, out.toString(StandardCharsets.UTF_8));
  }

  /** How a verification ended, and what it said. */
  record Outcome(int exitCode, String text) {}

  /** Loads a folder of files when it starts. */
  public OneMachine loading(Path files) {
    environment.put("KORNSPUR_LOAD", files.toString());
    return this;
  }

  /** Runs another build of the application from its next start on. */
  OneMachine running(Path otherJar) {
    jar = Optional.of(otherJar);
    return this;
  }

  /** Sets an environment variable for its next start. */
  public OneMachine with(String name, String value) {
    environment.put(name, value);
    return this;
  }

  /** Adds an option of {@code java}; the last of several holds. */
  public OneMachine option(String option) {
    options.add(option);
    return this;
  }

  public void start() throws IOException {
    List<String> arguments = new ArrayList<>(options);
    if (jar.isEmpty()) {
      arguments.addAll(ClassDataArchive.options());
    }
    arguments.addAll(List.of("-jar", jar.orElseGet(PackagedPrograms::application).toString()));
    process = ServerProcess.start("kornspur", folder, environment, arguments);
  }

  /** Where it speaks HTTP, on 127.0.0.1. */
  public int port() {
    return httpPort;
  }

  /** Lines with a text in all that it has logged, in earlier runs too. */
  long logged(String text) {
    return process.logged(text);
  }

  /** The end of what it has logged. */
  String log() {
    return process.lastWords();
  }

  /** Ends it as an administrator does; tells whether it did so in time. */
  public boolean stop() throws InterruptedException {
    return process.stop(STOP_LIMIT);
  }

  /** Asks it to end and does not wait. */
  void askToEnd() {
    process.askToEnd();
  }

  /** Its exit code, once it has ended by itself. */
  int exitCode() throws InterruptedException {
    return process.exitCodeWithin(STOP_LIMIT);
  }

  /** All lines of its log. */
  List<String> logLines() {
    return process.logLines();
  }

  void kill() throws InterruptedException {
    process.kill();
  }

  Site site() {
    return site;
  }

  /** Configuration with which a loader reaches it. */
  Map<String, String> clientSettings() {
    try {
      return ClientFile.read(clientFile());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Where it keeps its files. */
  public Path dataFolder() {
    return folder.resolve("data");
  }

  Path clientFile() {
    return dataFolder().resolve(BrokerLogins.CLIENT_FILE);
  }

  Backlog backlog() {
    return new Backlog(programSettings());
  }

  /** With what the program itself reaches its broker, and a client its registry. */
  public Map<String, Object> programSettings() {
    Map<String, Object> settings = new HashMap<>(clientSettings());
    settings.putAll(BrokerLogins.in(dataFolder()).program().brokerSettings());
    return settings;
  }

  /** Processor time that it has used. */
  Duration processorTime() {
    return process.processorTime();
  }

  long residentMemoryKb() throws IOException {
    return process.residentMemoryKb();
  }

  /** Waits until it is ready, and tells how long that took. */
  public Duration awaitReady() throws InterruptedException {
    Deadline deadline = Deadline.in(READY_LIMIT, "the application is ready");
    while (!deadline.passed()) {
      if (site.isReady()) {
        return deadline.elapsed();
      }
      if (!process.isAlive()) {
        break;
      }
      Thread.sleep(PAUSE.toMillis());
    }
    throw deadline.missed(process.lastWords());
  }

  @Override
  public void close() throws InterruptedException {
    if (process != null) {
      process.kill();
    }
  }
}
