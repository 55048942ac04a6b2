package org.kornspur.api.rest.asyncapi;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.net.URI;
import java.nio.file.Files;
import java.time.Instant;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.stream.Stream;
import org.apache.avro.Schema;
import org.apache.kafka.clients.admin.Admin;
import org.apache.kafka.clients.admin.Config;
import org.apache.kafka.common.config.ConfigResource;
import org.apache.kafka.common.config.SaslConfigs;
import org.apache.kafka.common.config.types.Password;
import org.apache.kafka.common.security.JaasContext;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.kornspur.api.EmptyMachine;
import org.kornspur.api.NeedsProgram;
import org.kornspur.api.NpmPackages;
import org.kornspur.api.NpmScript;
import org.kornspur.api.Program;
import org.kornspur.api.SharedMachine;
import org.kornspur.api.Waiting;
import org.kornspur.api.kafka.embedded.BrokerLogins;
import org.kornspur.api.rest.InventedFacts;
import org.kornspur.api.security.Role;
import org.kornspur.api.security.login.Asking;
import org.kornspur.api.security.people.TestPeople;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.publish.ClientFile;

/** What is said of the topics is true of the broker, and enough for a program of another make. */
@ExtendWith(EmptyMachine.class)
class AsyncApiIT {
  private static final ObjectMapper JSON = new ObjectMapper();

  private final Asking asking = new Asking(EmptyMachine.root());
  private JsonNode document;

  @BeforeEach
  void read() throws Exception {
    Waiting.until(() -> asking.ask("GET", "/health/ready", Map.of(), "").status() == 200);
    Asking.Answer answer = asking.ask("GET", "/asyncapi", Map.of(), "");
    assertThat(answer.status()).as("without a log-in").isEqualTo(200);
    document = JSON.readTree(answer.body());
  }

  /** Oracle: the parsers that the AsyncAPI Initiative keeps. */
  @Test
  @NeedsProgram(Program.NPM)
  void shouldBeADocumentOfAsyncApi() throws Exception {
    Files.writeString(NpmPackages.folder().resolve("asyncapi.json"), document.toString());
    JsonNode found = NpmScript.run("asyncapi.mjs", Map.of());
    assertThat(found.path("errors")).as("%s", found).isEmpty();
    assertThat(found.path("broken")).as("an error is seen").isNotEmpty();
    assertThat(found.path("channels"))
        .extracting(JsonNode::asText)
        .containsExactlyInAnyOrder(
            "kornspur.facts", "kornspur.quarantine", "kornspur.chain", "kornspur.checkpoints");
    assertThat(found.path("messages").asInt())
        .isEqualTo(
            3 + (int) Arrays.stream(FactType.values()).filter(type -> !type.isAct()).count());
  }

  @Test
  void shouldSayOfEachTopicWhatTheBrokerHas() throws Exception {
    List<ConfigResource> topics =
        document.path("channels").findValuesAsText("address").stream()
            .map(name -> new ConfigResource(ConfigResource.Type.TOPIC, name))
            .toList();
    try (Admin admin = Admin.create(SharedMachine.programSettings())) {
      Map<ConfigResource, Config> held = admin.describeConfigs(topics).all().get();
      for (JsonNode channel : document.path("channels")) {
        Config config =
            held.get(
                new ConfigResource(ConfigResource.Type.TOPIC, channel.path("address").asText()));
        JsonNode settings = channel.at("/bindings/kafka/topicConfiguration");
        assertThat(settings.path("cleanup.policy").get(0).asText())
            .isEqualTo(config.get("cleanup.policy").value());
        Stream.of(settings, channel.path("x-topic-settings"))
            .flatMap(said -> said.properties().stream())
            .filter(said -> said.getValue().isValueNode())
            .forEach(
                said ->
                    assertThat(said.getValue().asText())
                        .as("%s of %s", said.getKey(), channel.path("address"))
                        .isEqualTo(config.get(said.getKey()).value()));
      }
    }
  }

  @Test
  void shouldServeTheSchemaOfEachFact() throws Exception {
    for (FactType type : FactType.values()) {
      String path = "/asyncapi/schemas/" + type.contractName() + ".avsc";
      Asking.Answer answer = asking.ask("GET", path, Map.of(), "");
      if (type.isAct()) {
        assertThat(answer.status()).as(path).isEqualTo(404);
      } else {
        assertThat(new Schema.Parser().parse(answer.body())).as(path).isEqualTo(type.schema());
      }
    }
  }

  /** Of another make: kafkajs and its client of the registry. */
  @Test
  @NeedsProgram(Program.NPM)
  void shouldTakeTheFactOfAForeignProducer() throws Exception {
    Map<String, String> client =
        ClientFile.read(SharedMachine.dataFolder().resolve(BrokerLogins.CLIENT_FILE));
    Map<String, ?> login =
        JaasContext.loadClientContext(
                Map.of(SaslConfigs.SASL_JAAS_CONFIG, new Password(client.get("sasl.jaas.config"))))
            .configurationEntries()
            .get(0)
            .getOptions();
    String[] registryLogin = client.get("basic.auth.user.info").split(":", 2);
    String id = "FOREIGN-" + UUID.randomUUID().toString().substring(0, 8);
    Map<String, String> environment = new HashMap<>();
    environment.put("BROKER", client.get("bootstrap.servers"));
    environment.put("BROKER_USER", login.get("username").toString());
    environment.put("BROKER_PASSWORD", login.get("password").toString());
    environment.put("REGISTRY", client.get("schema.registry.url"));
    environment.put("REGISTRY_USER", registryLogin[0]);
    environment.put("REGISTRY_PASSWORD", registryLogin[1]);
    environment.put("SITE", URI.create(SharedMachine.root()).toString());

    JsonNode found = NpmScript.run("producer.mjs", environment, fact(id));

    assertThat(found.path("registered").asInt()).isPositive();
    assertThat(found.path("latest")).isEqualTo(found.path("registered"));
    assertThat(found.path("decoded").asText()).isEqualTo(id);
    assertThat(found.path("otherLevel").asText()).contains("FULL_TRANSITIVE");
    Waiting.until(
        () -> asking.get(TestPeople.of(Role.QUALITY), "/api/v1/lots/" + id).status() == 200);
  }

  /** As Avro has it and not as the interface: no type beside it, times in milliseconds. */
  private static String fact(String id) throws Exception {
    ObjectNode fact = (ObjectNode) JSON.readTree(InventedFacts.lot(id, id, "SX", 500));
    fact.remove("type");
    ObjectNode header = (ObjectNode) fact.path("header");
    for (String time : List.of("happenedAt", "recordedAt")) {
      header.put(time, Instant.parse(header.path(time).asText()).toEpochMilli());
    }
    return fact.toString();
  }
}
