package org.kornspur.api.operations;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.Reader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.kornspur.api.NeedsProgram;
import org.kornspur.api.NpmPackages;
import org.kornspur.api.NpmScript;
import org.kornspur.api.Program;
import org.yaml.snakeyaml.LoaderOptions;
import org.yaml.snakeyaml.Yaml;
import org.yaml.snakeyaml.constructor.SafeConstructor;

/** The manifests for Kubernetes. */
class ManifestsTest {
  private static final Path FILE = Path.of("..", ".operations", "kubernetes.yaml");
  private static final ObjectMapper JSON = new ObjectMapper();

  private static List<JsonNode> manifests;

  @BeforeAll
  static void read() throws Exception {
    manifests = new ArrayList<>();
    try (Reader reader = Files.newBufferedReader(FILE)) {
      new Yaml(new SafeConstructor(new LoaderOptions()))
          .loadAll(reader)
          .forEach(one -> manifests.add(JSON.valueToTree(one)));
    }
  }

  /** Oracle: Kubernetes' own OpenAPI schemas, as the npm package kubernetes-models has them. */
  @Test
  @NeedsProgram(Program.NPM)
  void shouldBeAsKubernetesSays() throws Exception {
    assertThat(manifests).hasSize(4);
    assertThat(faults(manifests)).isEmpty();
    ObjectNode mistyped = one("StatefulSet").deepCopy();
    ((ObjectNode) mistyped.path("spec")).put("servceName", "kornspur");
    ObjectNode wrong = one("StatefulSet").deepCopy();
    ((ObjectNode) wrong.path("spec")).put("replicas", "one");
    assertThat(faults(List.of(mistyped, wrong)))
        .anyMatch(fault -> fault.contains("servceName"))
        .anyMatch(fault -> fault.contains("replicas"));
  }

  /** Source: Kubernetes, Pod Security Standards, Restricted. */
  @Test
  void shouldLetThePodDoNoMoreThanItMust() {
    JsonNode pod = one("StatefulSet").at("/spec/template/spec");
    assertThat(pod.at("/securityContext/runAsNonRoot").asBoolean()).isTrue();
    assertThat(pod.at("/securityContext/seccompProfile/type").asText()).isEqualTo("RuntimeDefault");
    assertThat(pod.path("automountServiceAccountToken").asBoolean(true)).isFalse();
    JsonNode container = pod.at("/containers/0");
    assertThat(container.at("/securityContext/allowPrivilegeEscalation").asBoolean(true)).isFalse();
    assertThat(container.at("/securityContext/readOnlyRootFilesystem").asBoolean()).isTrue();
    assertThat(container.at("/securityContext/capabilities/drop/0").asText()).isEqualTo("ALL");
    assertThat(container.at("/resources/limits/memory").asText()).isEqualTo("2Gi");
    assertThat(one("StatefulSet").at("/spec/replicas").asInt()).as("one folder").isEqualTo(1);
    assertThat(pod.path("terminationGracePeriodSeconds").asInt())
        .as("10 s not ready, 20 s for requests, 20 s for the processors")
        .isGreaterThan(50);
  }

  private static JsonNode one(String kind) {
    return manifests.stream()
        .filter(manifest -> manifest.path("kind").asText().equals(kind))
        .findFirst()
        .orElseThrow();
  }

  private static List<String> faults(List<JsonNode> some) throws Exception {
    Files.writeString(
        NpmPackages.folder().resolve("manifests.jsonl"),
        some.stream().map(JsonNode::toString).collect(Collectors.joining("\n")));
    List<String> faults = new ArrayList<>();
    NpmScript.run("kubernetes.mjs", Map.of()).forEach(fault -> faults.add(fault.asText()));
    return faults;
  }
}
