package org.kornspur.api.packaged;

import static java.util.stream.Collectors.toMap;

import java.io.IOException;
import java.io.Writer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Properties;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import org.apache.kafka.common.security.plain.PlainLoginModule;
import org.kornspur.api.FreePorts;
import org.kornspur.api.security.people.TestPeople;
import org.kornspur.ingest.registry.RegistryConfig;
import org.kornspur.ingest.verify.VerifyCommand;

/**
 * The services of {@code docker-compose.yml} as processes on loopback, with the settings that stand
 * there. Only what a container would have of its own is put in place of it: host names and ports by
 * free ports of this machine, kept folders by temporary ones.
 */
final class LoopbackCluster implements AutoCloseable {

  static final List<String> BROKERS = List.of("kafka-1", "kafka-2", "kafka-3");
  static final String REGISTRY = "registry";
  static final List<String> INSTANCES = List.of("kornspur-1", "kornspur-2");

  private static final Duration GRACE = Duration.ofSeconds(70);
  private static final String LOOPBACK = "127.0.0.1";
  private static final int HTTP_PORT_WITHIN = 8080;

  /** In place of the secret that whoever starts the layout must give. */
  static final String INSTANCE_SECRET = ComposeFile.given("KORNSPUR_INTERNAL_SECRET");

  private static final Pattern ADDRESS =
      Pattern.compile("([a-z]+(?:-\\d)?|127\\.0\\.0\\.1):(\\d+)");

  /** What the Kafka image reads itself and does not hand to the broker. */
  private static final List<String> OF_THE_IMAGE = List.of("KAFKA_HEAP_OPTS");

  private final ComposeFile compose;
  private final Path folder;
  private final Map<String, Integer> ports = new HashMap<>();
  private final Map<String, ServerProcess> processes = new LinkedHashMap<>();
  private final List<String> instances;

  /**
   * @param folder where data and logs go
   */
  LoopbackCluster(ComposeFile compose, Path folder) {
    this.compose = compose;
    this.folder = folder;
    this.instances =
        compose.serviceNames().stream().filter(name -> name.startsWith("kornspur-")).toList();
  }

  /** Starts brokers, registry and instances, and waits for each kind as the file says. */
  void start() throws Exception {
    start(PackagedPrograms.application());
  }

  /** The same with another build of the program. */
  void start(Path jar) throws Exception {
    startBrokersAndRegistry();
    for (String instance : instances) {
      TestPeople.writeTo(Path.of(environmentHere(instance).get("KORNSPUR_PEOPLE_FILE")));
      startInstance(instance, jar);
    }
    for (String instance : instances) {
      awaitHealthy(instance, Duration.ofMinutes(5));
    }
  }

  /** Asks an instance to end, waits until it has, and until this build is healthy in its place. */
  void replace(String instance, Path jar) throws Exception {
    if (!processes.get(instance).stop(GRACE)) {
      throw new IllegalStateException(instance + " does not end");
    }
    startInstance(instance, jar);
    awaitHealthy(instance, Duration.ofMinutes(5));
  }

  private void startBrokersAndRegistry() throws Exception {
    for (String broker : BROKERS) {
      startBroker(broker);
    }
    for (String broker : BROKERS) {
      awaitHealthy(broker, Duration.ofMinutes(5));
    }
    startRegistry();
    awaitHealthy(REGISTRY, Duration.ofMinutes(5));
  }

  /** Address at which an instance or the registry answers. */
  String url(String service) {
    return "http://" + LOOPBACK + ":" + port(service, HTTP_PORT_WITHIN);
  }

  String bootstrapServers() {
    return here(compose.environment(INSTANCES.get(0)).get("KORNSPUR_BOOTSTRAP_SERVERS"));
  }

  /** Settings of a Kafka client that logs in as a user of the layout. */
  Map<String, Object> clientSettings(String user, String passwordName) {
    return Map.of(
        "bootstrap.servers",
        bootstrapServers(),
        "security.protocol",
        "SASL_PLAINTEXT",
        "sasl.mechanism",
        "PLAIN",
        "sasl.jaas.config",
        "%s required username=\"%s\" password=\"%s\";"
            .formatted(PlainLoginModule.class.getName(), user, ComposeFile.given(passwordName)));
  }

  String registryUrl() {
    return here(compose.environment(INSTANCES.get(0)).get("KORNSPUR_SCHEMA_REGISTRY_URL"));
  }

  /** How {@code verify} of a client judges the log, by the keys that the instances share. */
  int verify() throws IOException {
    Path file = folder.resolve("client.properties");
    Properties settings = new Properties();
    settings.putAll(clientSettings("client", "KORNSPUR_CLIENT_PASSWORD"));
    settings.setProperty(RegistryConfig.URL, registryUrl());
    try (Writer writer = Files.newBufferedWriter(file)) {
      settings.store(writer, null);
    }
    String keys = environmentHere(INSTANCES.get(0)).get("KORNSPUR_SIGNING_KEY");
    return VerifyCommand.run(
        System.out, System.out, List.of("--client", file.toString(), "--trust", keys));
  }

  Backlog backlog() {
    return new Backlog(clientSettings("kornspur", "KORNSPUR_KAFKA_PASSWORD"));
  }

  ServerProcess process(String service) {
    return processes.get(service);
  }

  private void startBroker(String service) throws IOException {
    Properties settings = new Properties();
    Map<String, String> environment = compose.environment(service);
    environment.forEach(
        (name, value) -> {
          if (name.startsWith("KAFKA_") && !OF_THE_IMAGE.contains(name)) {
            settings.setProperty(propertyOf(name), here(service, value));
          }
        });
    settings.setProperty(BrokerProcess.CLUSTER_ID, environment.get("CLUSTER_ID"));
    Path file = folderOf(service).resolve("broker.properties");
    try (Writer writer = Files.newBufferedWriter(file)) {
      settings.store(writer, null);
    }
    processes.put(
        service,
        ServerProcess.start(
            service,
            folderOf(service),
            Map.of(),
            List.of(
                environment.get("KAFKA_HEAP_OPTS"),
                "-cp",
                TestClassPath.absolute(),
                BrokerProcess.class.getName(),
                file.toString())));
  }

  private void startRegistry() throws IOException {
    Map<String, String> environment = environmentHere(REGISTRY);
    environment.put("QUARKUS_HTTP_HOST", LOOPBACK);
    processes.put(
        REGISTRY,
        ServerProcess.start(
            REGISTRY,
            folderOf(REGISTRY),
            environment,
            List.of("-jar", PackagedPrograms.registry().toString())));
  }

  private void startInstance(String service, Path jar) throws IOException {
    Map<String, String> environment = environmentHere(service);
    environment.put("KORNSPUR_REQUESTS_PER_MINUTE", "1000000");
    processes.put(
        service,
        ServerProcess.start(
            service, folderOf(service), environment, List.of("-jar", jar.toString())));
  }

  private Map<String, String> environmentHere(String service) {
    Map<String, String> environment =
        compose.environment(service).entrySet().stream()
            .collect(
                toMap(
                    Map.Entry::getKey,
                    entry -> here(service, entry.getValue()),
                    (first, second) -> second,
                    LinkedHashMap::new));
    environment.replace("QUARKUS_HTTP_HOST", LOOPBACK);
    environment.put("QUARKUS_HTTP_PORT", Integer.toString(port(service, HTTP_PORT_WITHIN)));
    return environment;
  }

  /** Runs the health check of the file until it is content, as Docker would. */
  private void awaitHealthy(String service, Duration limit) throws Exception {
    List<String> check = new ArrayList<>();
    compose
        .service(service)
        .path("healthcheck")
        .path("test")
        .forEach(part -> check.add(part.asText()));
    String script =
        check
            .get(check.size() - 1)
            .replaceAll(
                "/dev/tcp/[^/]+/(\\d+)",
                "/dev/tcp/" + LOOPBACK + "/" + portChecked(service, check));
    Deadline deadline = Deadline.in(limit, service + " is healthy");
    while (!deadline.passed()) {
      Process once =
          new ProcessBuilder("bash", "-c", script)
              .redirectErrorStream(true)
              .redirectOutput(ProcessBuilder.Redirect.DISCARD)
              .start();
      boolean ended = once.waitFor(5, java.util.concurrent.TimeUnit.SECONDS);
      once.destroyForcibly();
      if (ended && once.exitValue() == 0) {
        return;
      }
      if (!processes.get(service).isAlive()) {
        break;
      }
      Thread.sleep(200);
    }
    throw deadline.missed(processes.get(service).lastWords());
  }

  private int portChecked(String service, List<String> check) {
    MatchResult within =
        Pattern.compile("/dev/tcp/[^/]+/(\\d+)")
            .matcher(check.get(check.size() - 1))
            .results()
            .findFirst()
            .orElseThrow();
    return port(service, Integer.parseInt(within.group(1)));
  }

  private String here(String service, String text) {
    String local = here(text);
    for (Map.Entry<String, String> kept : compose.volumeFolders(service).entrySet()) {
      Path volume = folder.resolve("volumes").resolve(kept.getKey()).toAbsolutePath();
      local = local.replace(kept.getValue(), volume.toString());
    }
    return local;
  }

  /** The same text with every address of the layout replaced by the one that it has here. */
  private String here(String text) {
    return ADDRESS
        .matcher(text)
        .replaceAll(
            match -> {
              int port = Integer.parseInt(match.group(2));
              String service = match.group(1).equals(LOOPBACK) ? publisherOf(port) : match.group(1);
              return compose.serviceNames().contains(service)
                  ? LOOPBACK + ":" + port(service, port)
                  : match.group();
            });
  }

  private String publisherOf(int port) {
    return compose.serviceNames().stream()
        .filter(
            service ->
                compose.published(service).stream()
                    .anyMatch(published -> published.port() == port && published.within() == port))
        .findFirst()
        .orElseThrow(() -> new IllegalArgumentException("No service publishes port " + port));
  }

  private int port(String service, int within) {
    return ports.computeIfAbsent(service + ":" + within, key -> FreePorts.next());
  }

  private Path folderOf(String service) {
    try {
      return Files.createDirectories(folder.resolve(service)).toAbsolutePath();
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  /** As the Kafka image names its settings: one underscore is a dot. */
  private static String propertyOf(String variable) {
    return variable.substring("KAFKA_".length()).toLowerCase(Locale.ROOT).replace('_', '.');
  }

  /** Ends everything at once; nothing here is kept. */
  @Override
  public void close() throws Exception {
    for (ServerProcess process : processes.values()) {
      process.kill();
    }
  }
}
