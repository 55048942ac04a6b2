package org.kornspur.api.security.login;

import io.quarkus.test.common.QuarkusTestResourceLifecycleManager;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.kornspur.api.FreePorts;

/**
 * A real issuer of OpenID Connect in a process of its own: Keycloak as Maven Central has it, with
 * two realms of invented people. It ends with the tests.
 */
public final class TokenIssuer implements QuarkusTestResourceLifecycleManager {
  private static final Path HOME = Path.of("target", "keycloak");
  private static final Duration LIMIT = Duration.ofMinutes(5);

  private Process process;

  @Override
  public Map<String, String> start() {
    try {
      Path home = home();
      int port = FreePorts.next();
      Path work = Files.createTempDirectory("token-issuer");
      copyRealms(home);
      ProcessBuilder issuer =
          new ProcessBuilder(
                  "sh",
                  home.resolve("bin/kc.sh").toString(),
                  "start-dev",
                  "--http-host=127.0.0.1",
                  "--http-port=" + port,
                  "--cache=local",
                  "--db=dev-mem",
                  "--import-realm")
              .redirectErrorStream(true)
              .redirectOutput(work.resolve("log").toFile());
      issuer.environment().put("JAVA_OPTS_APPEND", "-XX:TieredStopAtLevel=1");
      process = issuer.start();
      Runtime.getRuntime().addShutdownHook(new Thread(this::stop));
      String root = "http://127.0.0.1:" + port + "/realms/";
      await(root + "elsewhere/.well-known/openid-configuration", work);
      await(root + "kornspur/.well-known/openid-configuration", work);
      return Map.of("kornspur.oidc.issuer", root + "kornspur");
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException(e);
    }
  }

  @Override
  public void stop() {
    if (process != null) {
      process.descendants().forEach(ProcessHandle::destroyForcibly);
      process.destroyForcibly();
    }
  }

  private static Path home() throws IOException {
    try (Stream<Path> unpacked = Files.list(HOME)) {
      return unpacked
          .filter(path -> path.getFileName().toString().startsWith("keycloak-"))
          .findFirst()
          .orElseThrow(() -> new IOException(HOME + " holds no Keycloak; Maven unpacks it there"))
          .toAbsolutePath();
    }
  }

  private static void copyRealms(Path home) throws IOException {
    Path folder = Files.createDirectories(home.resolve("data/import"));
    for (String realm : List.of("kornspur", "elsewhere")) {
      try (var in = TokenIssuer.class.getResourceAsStream("/keycloak/" + realm + "-realm.json")) {
        Files.write(folder.resolve(realm + "-realm.json"), in.readAllBytes());
      }
    }
  }

  private void await(String url, Path work) throws IOException, InterruptedException {
    HttpClient http = HttpClient.newHttpClient();
    long end = System.nanoTime() + LIMIT.toNanos();
    while (System.nanoTime() < end && process.isAlive()) {
      try {
        HttpRequest request = HttpRequest.newBuilder(URI.create(url)).build();
        if (http.send(request, HttpResponse.BodyHandlers.discarding()).statusCode() == 200) {
          return;
        }
      } catch (IOException notThere) {
        Thread.sleep(200);
      }
      Thread.sleep(100);
    }
    throw new IOException("The issuer is not up:\n" + Files.readString(work.resolve("log")));
  }
}
