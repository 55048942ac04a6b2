package org.kornspur.api.packaged;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;

/** A Java program in a process of its own; gone at the latest when the tests' process ends. */
final class ServerProcess implements AutoCloseable {

  private static final int SHOWN_LOG_LINES = 60;

  /** Logs stay here when the tests are over, as the folders of the processes do not. */
  private static final Path LOGS = Path.of("target", "process-logs");

  private static final Set<Path> OPENED = ConcurrentHashMap.newKeySet();

  private final String name;
  private final Process process;
  private final Path log;

  private ServerProcess(String name, Process process, Path log) {
    this.name = name;
    this.process = process;
    this.log = log;
  }

  /**
   * Starts it.
   *
   * @param folder working folder
   * @param environment replaces what would be inherited of {@code KORNSPUR_} and {@code QUARKUS_}
   * @param arguments of {@code java}
   */
  static ServerProcess start(
      String name, Path folder, Map<String, String> environment, List<String> arguments)
      throws IOException {
    List<String> command = new ArrayList<>();
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    // it lives too short for what the second compiler costs; without that one Java keeps less room;
    // and the threads of a parallel collector would wait for processors that other processes have
    command.addAll(
        List.of("-XX:TieredStopAtLevel=1", "-XX:ReservedCodeCacheSize=240m", "-XX:+UseSerialGC"));
    command.addAll(arguments);
    Path log = Files.createDirectories(LOGS).resolve(folder.getFileName() + "-" + name + ".log");
    if (OPENED.add(log)) {
      Files.deleteIfExists(log);
    }
    ProcessBuilder builder =
        new ProcessBuilder(command)
            .directory(folder.toFile())
            .redirectErrorStream(true)
            .redirectOutput(ProcessBuilder.Redirect.appendTo(log.toFile()));
    builder
        .environment()
        .keySet()
        .removeIf(key -> key.startsWith("KORNSPUR_") || key.startsWith("QUARKUS_"));
    builder.environment().putAll(environment);
    Process process = builder.start();
    Runtime.getRuntime().addShutdownHook(new Thread(process::destroyForcibly));
    return new ServerProcess(name, process, log);
  }

  String name() {
    return name;
  }

  boolean isAlive() {
    return process.isAlive();
  }

  /** Processor time of all its threads. */
  Duration processorTime() {
    return process.info().totalCpuDuration().orElse(Duration.ZERO);
  }

  /** Memory that it holds in the machine's, kibibytes; as Linux tells. */
  long residentMemoryKb() throws IOException {
    return Files.readAllLines(Path.of("/proc", Long.toString(process.pid()), "status")).stream()
        .filter(line -> line.startsWith("VmRSS:"))
        .mapToLong(line -> Long.parseLong(line.replaceAll("\\D", "")))
        .findFirst()
        .orElseThrow();
  }

  /**
   * Waits until it ends by itself.
   *
   * @throws IllegalStateException with the end of its log if it does not within the limit
   */
  int exitCodeWithin(Duration limit) throws InterruptedException {
    if (!process.waitFor(limit.toMillis(), TimeUnit.MILLISECONDS)) {
      throw new IllegalStateException("Still running after " + limit + ": " + lastWords());
    }
    return process.exitValue();
  }

  /** Asks it to end, by SIGTERM, and does not wait. */
  void askToEnd() {
    process.destroy();
  }

  /** All that it has logged, in its earlier runs in this test too. */
  List<String> logLines() {
    try {
      return Files.readAllLines(log);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Ends it without warning: SIGKILL. Returns when it is gone. */
  void kill() throws InterruptedException {
    process.destroyForcibly();
    if (!process.waitFor(20, TimeUnit.SECONDS)) {
      throw new IllegalStateException(name + " is still there 20 s after SIGKILL");
    }
  }

  /** Asks it to end, and kills it where it does not within the limit. */
  boolean stop(Duration limit) throws InterruptedException {
    process.destroy();
    boolean ended = process.waitFor(limit.toMillis(), TimeUnit.MILLISECONDS);
    if (!ended) {
      kill();
    }
    return ended;
  }

  @Override
  public void close() throws InterruptedException {
    kill();
  }

  /** Lines with a text in all of its log, and in those of its earlier runs in this test. */
  long logged(String text) {
    try (Stream<String> lines = Files.lines(log)) {
      return lines.filter(line -> line.contains(text)).count();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** The end of its log, for the message of a failed check. */
  String lastWords() {
    try (Stream<String> lines = Files.lines(log)) {
      List<String> all = lines.toList();
      return "%s (%s), last lines of its log:%n%s"
          .formatted(
              name,
              process.isAlive() ? "running" : "ended with " + process.exitValue(),
              String.join(
                  "\n", all.subList(Math.max(0, all.size() - SHOWN_LOG_LINES), all.size())));
    } catch (IOException e) {
      return name + " has no log that can be read: " + e;
    }
  }
}
