package org.kornspur.api.kafka.embedded;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.util.Base64;
import java.util.HashMap;
import java.util.Map;
import java.util.UUID;
import org.apache.avro.Schema;
import org.apache.avro.SchemaBuilder;
import org.apache.avro.specific.SpecificRecord;
import org.apache.kafka.common.serialization.Serde;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.kornspur.contract.Correction;
import org.kornspur.contract.LotMass;
import org.kornspur.ingest.registry.HttpSchemaRegistry;
import org.kornspur.ingest.registry.IncompatibleSchema;
import org.kornspur.ingest.registry.RegistryConfig;
import org.kornspur.ingest.registry.RegistryException;
import org.kornspur.ingest.registry.UnknownSchema;
import org.kornspur.ingest.wire.AvroSerdes;

/**
 * What a serializer may expect of a registry. The same cases run against the registry in this
 * process and against a real server that was built by others, so that neither the client nor the
 * registry here is measured by its own opinion of the interface.
 */
abstract class RegistryContractTest {

  private static final ObjectMapper JSON = new ObjectMapper();
  private static final HttpClient HTTP = HttpClient.newHttpClient();

  private final String subject = "contract-" + UUID.randomUUID() + "-org.example.Weighing";
  private HttpSchemaRegistry registry;

  /** Base address of the registry under test. */
  abstract String url();

  /** Settings with which a serializer logs in. */
  abstract Map<String, Object> logIn();

  @BeforeEach
  void requireFullTransitiveCompatibility() {
    registry = client();
    registry.setCompatibility("FULL_TRANSITIVE");
  }

  @Test
  void shouldRegisterASchemaAndGiveItBackById() {
    Schema schema = weighing("massKg");
    int id = registry.register(subject, schema);
    assertThat(id).isPositive();
    assertThat(client().byId(id)).isEqualTo(schema);
  }

  @Test
  void shouldGiveTheSameIdAgainAndUnderAnotherSubject() {
    Schema schema = weighing("massKg");
    int id = registry.register(subject, schema);
    assertThat(client().register(subject, schema)).isEqualTo(id);
    assertThat(client().register(subject + "Again", schema)).isEqualTo(id);
  }

  @Test
  void shouldFindWhatIsRegisteredAndRegisterNothingByLooking() {
    Schema schema = weighing("massKg");
    assertThatThrownBy(() -> client().idOf(subject, schema)).isInstanceOf(UnknownSchema.class);
    int id = registry.register(subject, schema);
    assertThat(client().idOf(subject, schema)).isEqualTo(id);
    assertThatThrownBy(() -> client().idOf(subject, weighing("massT")))
        .isInstanceOf(UnknownSchema.class);
  }

  @Test
  void shouldTakeAnOptionalFieldAsANewVersion() {
    int first = registry.register(subject, weighing("massKg"));
    int second = registry.register(subject, optionalNote());
    assertThat(second).isNotEqualTo(first);
    assertThat(client().byId(second)).isEqualTo(optionalNote());
  }

  @Test
  void shouldRefuseABreakingSchema() {
    registry.register(subject, weighing("massKg"));
    assertThatThrownBy(() -> client().register(subject, weighing("massT")))
        .isInstanceOfSatisfying(
            IncompatibleSchema.class, refused -> assertThat(refused.messages()).isNotEmpty())
        .hasMessageContaining(subject);
    assertThatThrownBy(() -> client().idOf(subject, weighing("massT")))
        .isInstanceOf(UnknownSchema.class);
  }

  /** The third fits the second and not the first. */
  @Test
  void shouldCompareWithEveryEarlierVersion() {
    registry.register(subject, optionalNote());
    registry.register(subject, weighing("massKg"));
    Schema otherNote =
        SchemaBuilder.record("org.example.Weighing")
            .fields()
            .requiredDouble("massKg")
            .name("note")
            .type()
            .intType()
            .intDefault(0)
            .endRecord();
    assertThatThrownBy(() -> client().register(subject, otherNote))
        .isInstanceOf(IncompatibleSchema.class);
  }

  @Test
  void shouldSayThatAnIdIsUnknown() {
    assertThatThrownBy(() -> registry.byId(987_654)).isInstanceOf(UnknownSchema.class);
  }

  @Test
  void shouldRefuseALevelThatIsNone() {
    assertThatThrownBy(() -> registry.setCompatibility("SOMETIMES"))
        .isInstanceOf(RegistryException.class);
    assertThat(registry.compatibility()).isEqualTo("FULL_TRANSITIVE");
  }

  /** Error bodies as published: Confluent, "Schema Registry API Reference", "Errors". */
  @Test
  void shouldAnswerErrorsWithTheirCode() throws Exception {
    assertThat(errorOf(asking("/schemas/ids/987654").GET(), 404)).isEqualTo(40403);
    assertThat(errorOf(posting("/subjects/" + subject, weighing("massKg")), 404)).isEqualTo(40401);
    registry.register(subject, weighing("massKg"));
    assertThat(errorOf(posting("/subjects/" + subject, weighing("massT")), 404)).isEqualTo(40403);
    assertThat(errorOf(posting("/subjects/" + subject + "/versions", weighing("massT")), 409))
        .isEqualTo(409);
    assertThat(errorOf(posting("/subjects/" + subject + "/versions", "{\"type\":\"recrd\"}"), 422))
        .isEqualTo(42201);
  }

  /** Shapes as published: Confluent, "Schema Registry API Reference", "Subjects". */
  @Test
  void shouldTellSubjectsVersionsAndTheLatest() throws Exception {
    int first = registry.register(subject, weighing("massKg"));
    int second = registry.register(subject, optionalNote());

    assertThat(told("/subjects")).extracting(JsonNode::asText).contains(subject);
    String versions = "/subjects/" + subject + "/versions";
    assertThat(told(versions)).extracting(JsonNode::asInt).containsExactly(1, 2);
    JsonNode latest = told(versions + "/latest");
    assertThat(latest).isEqualTo(told(versions + "/2"));
    assertThat(latest.path("subject").asText()).isEqualTo(subject);
    assertThat(latest.path("version").asInt()).isEqualTo(2);
    assertThat(latest.path("id").asInt()).isEqualTo(second);
    assertThat(new Schema.Parser().parse(latest.path("schema").asText())).isEqualTo(optionalNote());
    assertThat(told(versions + "/1").path("id").asInt()).isEqualTo(first);
    assertThat(new Schema.Parser().parse(told(versions + "/1/schema").toString()))
        .isEqualTo(weighing("massKg"));
    assertThat(errorOf(asking(versions + "/3").GET(), 404)).isEqualTo(40402);
    assertThat(errorOf(asking("/subjects/" + subject + "-none/versions").GET(), 404))
        .isEqualTo(40401);
    assertThat(told("/schemas/types")).extracting(JsonNode::asText).contains("AVRO");
  }

  @Test
  void shouldCompareWithoutRegistering() throws Exception {
    registry.register(subject, weighing("massKg"));
    String latest = "/compatibility/subjects/" + subject + "/versions/latest";
    assertThat(sent(posting(latest, optionalNote()), 200).path("is_compatible").asBoolean())
        .isTrue();
    assertThat(sent(posting(latest, weighing("massT")), 200).path("is_compatible").asBoolean())
        .isFalse();
    assertThat(told("/subjects/" + subject + "/versions")).hasSize(1);
  }

  @Test
  void shouldCarryRecordsOfSeveralTypesOnOneTopic() {
    String topic = "topic-" + UUID.randomUUID();
    Map<String, Object> config = config();
    byte[] correction;
    byte[] mass;
    try (Serde<SpecificRecord> writing = AvroSerdes.serde(config)) {
      correction = writing.serializer().serialize(topic, new Correction("F1", "net mass"));
      mass = writing.serializer().serialize(topic, new LotMass("L1", 12.5));
    }
    try (Serde<SpecificRecord> reading = AvroSerdes.serde(config)) {
      assertThat(reading.deserializer().deserialize(topic, correction))
          .isEqualTo(new Correction("F1", "net mass"));
      assertThat(reading.deserializer().deserialize(topic, mass))
          .isEqualTo(new LotMass("L1", 12.5));
    }
    assertThat(client().idOf(topic + "-org.kornspur.contract.LotMass", LotMass.getClassSchema()))
        .isEqualTo(mass[4] & 0xff);
  }

  /** A client that has seen nothing yet. */
  HttpSchemaRegistry client() {
    return new HttpSchemaRegistry(RegistryConfig.of(config()));
  }

  private Map<String, Object> config() {
    Map<String, Object> config = new HashMap<>(logIn());
    config.put(RegistryConfig.URL, url());
    return config;
  }

  /** Value of the header with which any other client logs in. */
  String authorization() {
    String userInfo = logIn().getOrDefault(RegistryConfig.USER_INFO, ":").toString();
    return "Basic " + Base64.getEncoder().encodeToString(userInfo.getBytes(StandardCharsets.UTF_8));
  }

  private static Schema weighing(String massField) {
    return SchemaBuilder.record("org.example.Weighing")
        .fields()
        .requiredDouble(massField)
        .endRecord();
  }

  private static Schema optionalNote() {
    return SchemaBuilder.record("org.example.Weighing")
        .fields()
        .requiredDouble("massKg")
        .optionalString("note")
        .endRecord();
  }

  private HttpRequest.Builder asking(String path) {
    return HttpRequest.newBuilder(URI.create(url() + path))
        .header("Authorization", authorization());
  }

  private HttpRequest.Builder posting(String path, Object schema) {
    return asking(path)
        .header("Content-Type", HttpSchemaRegistry.MEDIA_TYPE)
        .POST(
            HttpRequest.BodyPublishers.ofString(
                JSON.createObjectNode().put("schema", schema.toString()).toString()));
  }

  private JsonNode told(String path) throws IOException, InterruptedException {
    return sent(asking(path).GET(), 200);
  }

  private static int errorOf(HttpRequest.Builder request, int status)
      throws IOException, InterruptedException {
    JsonNode body = sent(request, status);
    assertThat(body.path("message").asText()).isNotEmpty();
    return body.path("error_code").asInt();
  }

  private static JsonNode sent(HttpRequest.Builder request, int status)
      throws IOException, InterruptedException {
    HttpResponse<String> response =
        HTTP.send(request.build(), HttpResponse.BodyHandlers.ofString());
    assertThat(response.statusCode()).as(response.body()).isEqualTo(status);
    assertThat(response.headers().firstValue("Content-Type").orElse("")).contains("json");
    return JSON.readTree(response.body());
  }
}
