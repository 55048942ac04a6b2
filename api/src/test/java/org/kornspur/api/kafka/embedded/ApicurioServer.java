package org.kornspur.api.kafka.embedded;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.kornspur.api.FreePorts;

/**
 * A real schema registry as a process of its own, with its store in memory. The build has unpacked
 * it into {@code target/apicurio}.
 */
final class ApicurioServer implements AutoCloseable {

  /** Somebody else may take the port before it does. */
  private static final int MOST_STARTS = 3;

  private static final Path UNPACKED = Path.of("target", "apicurio");
  private static final Duration START_LIMIT = Duration.ofMinutes(5);

  private final Process process;
  private final int port;
  private final Path log;

  private ApicurioServer(Process process, int port, Path log) {
    this.process = process;
    this.port = port;
    this.log = log;
  }

  /** Starts it and returns when it answers. Its log is written into the folder. */
  static ApicurioServer start(Path folder) throws Exception {
    ApicurioServer server = startOnce(folder);
    for (int starts = 1; !server.answers() && starts < MOST_STARTS; starts++) {
      server = startOnce(folder);
    }
    if (!server.process.isAlive()) {
      throw new IllegalStateException("Apicurio Registry ended:\n" + Files.readString(server.log));
    }
    return server;
  }

  private static ApicurioServer startOnce(Path folder) throws IOException {
    int port = FreePorts.next();
    Path log = folder.resolve("apicurio.log");
    Process process =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-Xmx384m",
                "-XX:TieredStopAtLevel=1",
                "-Dquarkus.http.host=127.0.0.1",
                "-Dquarkus.http.port=" + port,
                "-Dapicurio.storage.kind=sql",
                "-Dapicurio.storage.sql.kind=h2",
                "-Dapicurio.datasource.url=jdbc:h2:mem:registry",
                "-jar",
                runnerJar().toAbsolutePath().toString())
            .directory(folder.toFile())
            .redirectErrorStream(true)
            .redirectOutput(log.toFile())
            .start();
    Runtime.getRuntime().addShutdownHook(new Thread(process::destroyForcibly));
    return new ApicurioServer(process, port, log);
  }

  /** Base address of its Confluent interface. */
  String url() {
    return "http://127.0.0.1:" + port + "/apis/ccompat/v7";
  }

  @Override
  public void close() throws InterruptedException {
    process.destroy();
    if (!process.waitFor(10, TimeUnit.SECONDS)) {
      process.destroyForcibly().waitFor();
    }
  }

  /** Waits for its first answer; false where it has ended before. */
  private boolean answers() throws Exception {
    HttpClient http = HttpClient.newHttpClient();
    HttpRequest request =
        HttpRequest.newBuilder(URI.create(url() + "/config"))
            .timeout(Duration.ofSeconds(5))
            .build();
    long deadline = System.nanoTime() + START_LIMIT.toNanos();
    while (System.nanoTime() < deadline) {
      if (!process.isAlive()) {
        return false;
      }
      try {
        if (http.send(request, HttpResponse.BodyHandlers.discarding()).statusCode() == 200) {
          return process.isAlive();
        }
      } catch (IOException e) {
        // not listening yet
      }
      Thread.sleep(200);
    }
    close();
    throw new IllegalStateException(
        "Apicurio Registry did not answer in " + START_LIMIT + ":\n" + Files.readString(log));
  }

  private static Path runnerJar() throws IOException {
    try (Stream<Path> files = Files.list(UNPACKED)) {
      return files
          .filter(file -> file.toString().endsWith("-runner.jar"))
          .findFirst()
          .orElseThrow(
              () ->
                  new IllegalStateException(
                      "No server in " + UNPACKED.toAbsolutePath() + ". Let Maven run the tests"));
    }
  }
}
