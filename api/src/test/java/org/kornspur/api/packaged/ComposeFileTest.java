package org.kornspur.api.packaged;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.networknt.schema.JsonSchema;
import com.networknt.schema.JsonSchemaFactory;
import com.networknt.schema.SpecVersion;
import java.io.IOException;
import java.lang.reflect.Method;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.kornspur.api.NeedsProgram;
import org.kornspur.api.NpmPackages;
import org.kornspur.api.Program;
import org.kornspur.api.kafka.EngineSettings;
import org.kornspur.api.security.AccessSettings;

class ComposeFileTest {
  /** No digest of its version could be confirmed from two sides. */
  private static final Set<String> PINNED_WHERE_PULLED = Set.of("registry");

  private static ComposeFile compose;

  @BeforeAll
  static void read() throws Exception {
    compose = ComposeFile.read();
  }

  /** Oracle: the Compose Specification's own schema. */
  @Test
  @NeedsProgram(Program.NPM)
  void shouldFollowTheComposeSpecification() throws Exception {
    JsonSchema specification = specification();
    assertThat(specification.validate(compose.root())).isEmpty();
    ObjectNode mistyped = compose.root().deepCopy();
    ((ObjectNode) mistyped.path("services").path("registry")).put("healthchek", "none");
    assertThat(specification.validate(mistyped)).as("the schema sees a mistyped key").isNotEmpty();
  }

  @Test
  void shouldOpenNoPortToOtherMachines() {
    for (String service : compose.serviceNames()) {
      assertThat(compose.published(service))
          .as(service)
          .isNotEmpty()
          .allMatch(port -> port.address().equals("127.0.0.1"));
    }
    assertThat(
            compose.serviceNames().stream()
                .flatMap(service -> compose.published(service).stream())
                .map(ComposeFile.Published::port))
        .doesNotHaveDuplicates();
  }

  @Test
  void shouldSetOnlyWhatTheApplicationReads() {
    Set<String> known =
        Stream.of(EngineSettings.class, AccessSettings.class)
            .flatMap(settings -> Arrays.stream(settings.getMethods()))
            .map(Method::getName)
            .map(name -> "KORNSPUR_" + name.replaceAll("([A-Z])", "_$1").toUpperCase(Locale.ROOT))
            .collect(Collectors.toSet());
    for (String instance : List.of("kornspur-1", "kornspur-2")) {
      assertThat(compose.environment(instance).keySet())
          .filteredOn(name -> name.startsWith("KORNSPUR_"))
          .filteredOn(name -> !name.startsWith("KORNSPUR_KAFKA_")) // any setting of its clients
          .hasSizeGreaterThanOrEqualTo(3)
          .isSubsetOf(known);
    }
  }

  /** Every listener asks who a client is, and nobody but the program may do everything. */
  @Test
  void shouldServeNobodyWithoutAPassword() {
    for (String broker : LoopbackCluster.BROKERS) {
      Map<String, String> settings = compose.environment(broker);
      assertThat(settings.get("KAFKA_LISTENER_SECURITY_PROTOCOL_MAP").split(","))
          .as(broker)
          .hasSize(3)
          .allMatch(listener -> listener.endsWith(":SASL_PLAINTEXT"));
      assertThat(settings.get("KAFKA_AUTHORIZER_CLASS_NAME")).endsWith(".StandardAuthorizer");
      assertThat(settings.get("KAFKA_SUPER_USERS")).isEqualTo("User:kornspur");
      assertThat(settings).doesNotContainKey("KAFKA_ALLOW_EVERYONE_IF_NO_ACL_FOUND");
    }
  }

  @Test
  void shouldWaitForTheHealthOfWhatAServiceNeeds() {
    for (String service : compose.serviceNames()) {
      JsonNode needed = compose.service(service).path("depends_on");
      needed
          .properties()
          .forEach(
              need -> {
                assertThat(need.getValue().path("condition").asText())
                    .as("%s waits for %s", service, need.getKey())
                    .isEqualTo("service_healthy");
                assertThat(compose.service(need.getKey()).path("healthcheck").path("test"))
                    .as("health check of %s", need.getKey())
                    .isNotEmpty();
              });
    }
  }

  /** A tag may be moved to another image, a digest cannot. */
  @Test
  void shouldPinEveryImage() throws IOException {
    String version = "[a-z/-]+:\\d+\\.\\d+\\.\\d+";
    String digest = "@sha256:[0-9a-f]{64}";
    for (String service : compose.serviceNames()) {
      String image = compose.service(service).path("image").asText();
      if (compose.service(service).has("build")) {
        assertThat(image).as(service).matches(version + "(-SNAPSHOT)?");
      } else {
        assertThat(image)
            .as(service)
            .matches(PINNED_WHERE_PULLED.contains(service) ? version : version + digest);
      }
    }
    assertThat(Files.readAllLines(Path.of("src", "main", "docker", "Dockerfile")))
        .filteredOn(line -> line.startsWith("FROM"))
        .isNotEmpty()
        .allMatch(line -> line.matches("FROM [a-z-]+:[\\w.-]+" + digest));
  }

  /** Source: OWASP, Docker Security Cheat Sheet, rules 3, 4, 7 and 8. */
  @Test
  void shouldLetNoServiceDoMoreThanItMust() {
    for (String name : compose.serviceNames()) {
      JsonNode service = compose.service(name);
      assertThat(service.path("cap_drop")).as(name).extracting(JsonNode::asText).contains("ALL");
      assertThat(service.has("cap_add") || service.has("privileged")).as(name).isFalse();
      assertThat(service.path("security_opt"))
          .as(name)
          .extracting(JsonNode::asText)
          .contains("no-new-privileges:true");
      JsonNode limits = service.at("/deploy/resources/limits");
      assertThat(limits.path("cpus").asDouble()).as(name).isPositive();
      assertThat(limits.path("pids").asInt()).as(name).isPositive();
      assertThat(megabytes(limits.path("memory").asText()))
          .as("%s, beside its heap", name)
          .isGreaterThan(3 * heapMegabytes(name) / 2);
    }
    for (String instance : LoopbackCluster.INSTANCES) {
      assertThat(compose.service(instance).path("read_only").asBoolean()).isTrue();
      assertThat(compose.service(instance).path("tmpfs").toString()).contains("/tmp:exec");
    }
  }

  private static int heapMegabytes(String service) {
    Matcher heap = Pattern.compile("-Xmx(\\d+m)").matcher(compose.environment(service).toString());
    assertThat(heap.find()).as(service).isTrue();
    return megabytes(heap.group(1));
  }

  private static int megabytes(String size) {
    int number = Integer.parseInt(size.substring(0, size.length() - 1));
    return size.endsWith("g") ? 1024 * number : number;
  }

  @Test
  void shouldGiveAnInstanceTheTimeToLeave() {
    for (String instance : LoopbackCluster.INSTANCES) {
      Duration grace = seconds(compose.service(instance).path("stop_grace_period").asText());
      Duration delay = seconds(compose.environment(instance).get("QUARKUS_SHUTDOWN_DELAY"));
      // 20 s for requests (application.properties), 20 s for the processors (RunningProcessors)
      assertThat(grace).isGreaterThan(delay.plusSeconds(20 + 20));
    }
  }

  private static Duration seconds(String text) {
    return Duration.parse("PT" + text.toUpperCase(Locale.ROOT));
  }

  /** The schema as the npm package dclint, a checker of Compose files, ships it. */
  private static JsonSchema specification() throws Exception {
    Path file = NpmPackages.folder().resolve("node_modules/dclint/schemas/compose.schema.json");
    return JsonSchemaFactory.getInstance(SpecVersion.VersionFlag.V7)
        .getSchema(file.toUri(), new ObjectMapper().readTree(file.toFile()));
  }
}
