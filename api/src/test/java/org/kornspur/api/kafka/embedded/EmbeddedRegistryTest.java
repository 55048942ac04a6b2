package org.kornspur.api.kafka.embedded;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.apache.avro.Schema;
import org.apache.avro.SchemaBuilder;
import org.apache.kafka.clients.consumer.KafkaConsumer;
import org.apache.kafka.clients.producer.KafkaProducer;
import org.apache.kafka.clients.producer.ProducerRecord;
import org.apache.kafka.common.TopicPartition;
import org.apache.kafka.common.serialization.StringDeserializer;
import org.apache.kafka.common.serialization.StringSerializer;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kornspur.api.storage.CannotStart;
import org.kornspur.ingest.registry.HttpSchemaRegistry;
import org.kornspur.ingest.registry.RegistryConfig;
import org.kornspur.ingest.registry.RegistryRefused;
import org.kornspur.ingest.registry.UnknownSchema;

/** The contract against the registry in this process, on a real broker, and what is its own. */
@Tag("slow")
class EmbeddedRegistryTest extends RegistryContractTest {

  private static EmbeddedBroker broker;
  private static EmbeddedRegistry registry;
  private static BrokerLogins logins;

  @BeforeAll
  static void startRegistry(@TempDir Path folder) {
    logins = BrokerLogins.in(folder);
    broker = EmbeddedBroker.start(folder, 0, logins);
    registry = start(0);
  }

  @AfterAll
  static void stopRegistry() {
    registry.close();
    broker.close();
  }

  private static EmbeddedRegistry start(int port) {
    return EmbeddedRegistry.start(settings(), port, logins);
  }

  private static Map<String, Object> settings() {
    Map<String, Object> settings = new HashMap<>(logins.program().brokerSettings());
    settings.put("bootstrap.servers", broker.bootstrapServers());
    return settings;
  }

  @Override
  String url() {
    return registry.url();
  }

  @Override
  Map<String, Object> logIn() {
    return logins.client().registrySettings();
  }

  @Test
  void shouldAnswerNobodyWithoutThePassword() throws Exception {
    Schema schema =
        SchemaBuilder.record("org.example.Forged").fields().requiredInt("n").endRecord();
    RegistryConfig without = RegistryConfig.at(url());
    assertThatThrownBy(() -> new HttpSchemaRegistry(without).register("forged", schema))
        .isInstanceOf(RegistryRefused.class)
        .hasMessageContaining("401");
    RegistryConfig wrong =
        RegistryConfig.of(
            Map.of(RegistryConfig.URL, url(), RegistryConfig.USER_INFO, "kornspur:x"));
    assertThatThrownBy(() -> new HttpSchemaRegistry(wrong).register("forged", schema))
        .isInstanceOf(RegistryRefused.class)
        .hasMessageContaining("401");
    assertThatThrownBy(() -> new HttpSchemaRegistry(without).byId(1))
        .isInstanceOf(RegistryRefused.class);
    assertThatThrownBy(() -> client().idOf("forged", schema)).isInstanceOf(UnknownSchema.class);
  }

  /** HTTP sends it in clear to whoever listens there. */
  @Test
  void shouldTakeAnotherPasswordThanTheBroker() {
    assertThat(List.of(logins.program(), logins.client()))
        .allSatisfy(login -> assertThat(login.registryPassword()).isNotEqualTo(login.password()));
  }

  @Test
  void shouldKnowAfterARestartWhatItKnewBefore() {
    Schema schema = SchemaBuilder.record("org.example.Kept").fields().requiredInt("n").endRecord();
    int id = client().register("kept", schema);
    registry.close();
    registry = start(0);
    assertThat(client().byId(id)).isEqualTo(schema);
    assertThat(client().idOf("kept", schema)).isEqualTo(id);
    Schema next = SchemaBuilder.record("org.example.Next").fields().requiredInt("n").endRecord();
    assertThat(client().register("next", next)).isGreaterThan(id);
  }

  /** The second line stands under the key of the schema, which compaction would let go. */
  @Test
  void shouldPassOverLinesThatAreNoneAndKeepWhatTheyCover() throws Exception {
    Schema schema = SchemaBuilder.record("org.example.Held").fields().requiredInt("n").endRecord();
    int id = client().register("held", schema);
    List<String> lines = new ArrayList<>();
    lines.add(null);
    lines.add("no JSON");
    lines.add("{}");
    lines.add("null");
    lines.add("[".repeat(20_000));
    lines.add("{\"subject\":\"held\",\"version\":1,\"id\":2147483647,\"schema\":\"\\\"int\\\"\"}");
    lines.add("{\"subject\":\"held\",\"version\":7,\"id\":7,\"schema\":\"\\\"int\\\"\"}");
    try (var producer =
        new KafkaProducer<>(settings(), new StringSerializer(), new StringSerializer())) {
      for (String line : lines) {
        producer.send(new ProducerRecord<>(SchemaLog.TOPIC, 0, "", line)).get();
        producer.send(new ProducerRecord<>(SchemaLog.TOPIC, 0, "held/1", line)).get();
        producer.send(new ProducerRecord<>(SchemaLog.TOPIC, 0, "held/7", line)).get();
      }
    }
    registry.close();
    registry = start(0);

    assertThat(client().byId(id)).isEqualTo(schema);
    Schema next = SchemaBuilder.record("org.example.Later").fields().requiredInt("n").endRecord();
    assertThat(client().register("later", next)).isGreaterThan(id);
    assertThat(lastLine("held/1")).contains("Held");
  }

  private static String lastLine(String key) {
    try (var reader =
        new KafkaConsumer<>(settings(), new StringDeserializer(), new StringDeserializer())) {
      TopicPartition log = new TopicPartition(SchemaLog.TOPIC, 0);
      reader.assign(List.of(log));
      reader.seekToBeginning(List.of(log));
      long end = reader.endOffsets(List.of(log)).get(log);
      String last = "";
      while (reader.position(log) < end) {
        for (var line : reader.poll(Duration.ofSeconds(1))) {
          last = key.equals(line.key()) ? String.valueOf(line.value()) : last;
        }
      }
      return last;
    }
  }

  @Test
  void shouldNameThePortThatIsTaken() {
    int taken = URI.create(registry.url()).getPort();
    assertThatThrownBy(() -> start(taken))
        .isInstanceOf(CannotStart.class)
        .hasMessageContaining("Port " + taken)
        .hasMessageContaining("give another port");
  }

  /** A page in a browser may post plain text to any port, and must not register anything by it. */
  @Test
  void shouldTakeOnlyJson() throws Exception {
    HttpRequest request =
        HttpRequest.newBuilder(URI.create(url() + "/subjects/s/versions"))
            .header("Content-Type", "text/plain")
            .header("Authorization", authorization())
            .POST(HttpRequest.BodyPublishers.ofString("{\"schema\":\"\\\"int\\\"\"}"))
            .build();
    HttpResponse<String> response =
        HttpClient.newHttpClient().send(request, HttpResponse.BodyHandlers.ofString());
    assertThat(response.statusCode()).isEqualTo(415);
  }

  @Test
  void shouldOfferNoOtherLevel() {
    assertThatThrownBy(() -> client().setCompatibility("NONE"))
        .isInstanceOf(RegistryRefused.class)
        .hasMessageContaining("FULL_TRANSITIVE");
  }

  @Test
  void shouldSayThatTheBrokerDoesNotAnswer() {
    assertThatThrownBy(
            () -> EmbeddedRegistry.start(Map.of("bootstrap.servers", "127.0.0.1:1"), 0, logins))
        .isInstanceOf(CannotStart.class)
        .hasMessageContaining("127.0.0.1:1");
  }
}
