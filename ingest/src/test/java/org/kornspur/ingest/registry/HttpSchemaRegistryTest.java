package org.kornspur.ingest.registry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.apache.avro.Schema;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/**
 * What the client makes of answers, good and bad. That real registries answer so is shown where the
 * client meets them, in the contract test of module api. Bodies and codes: Confluent, "Schema
 * Registry API Reference" (409 incompatible, 40401 no subject, 40403 no schema, 42201 no valid
 * schema, 500xx failure of the registry).
 */
class HttpSchemaRegistryTest {

  private static final Schema SCHEMA =
      new Schema.Parser()
          .parse(
              "{\"type\":\"record\",\"name\":\"W\",\"fields\":[{\"name\":\"n\",\"type\":\"int\"}]}");
  private static final String FOUND =
      "{\"schema\":\"{\\\"type\\\":\\\"record\\\",\\\"name\\\":\\\"W\\\",\\\"fields\\\":[{\\\"name\\\":\\\"n\\\",\\\"type\\\":\\\"int\\\"}]}\"}";

  private record Scripted(int status, String body, Duration delay) {}

  private final Deque<Scripted> answers = new ArrayDeque<>();
  private final List<String> asked = new ArrayList<>();
  private HttpServer server;

  @BeforeEach
  void startServer() throws IOException {
    server = HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
    server.createContext(
        "/",
        exchange -> {
          String credentials = exchange.getRequestHeaders().getFirst("Authorization");
          asked.add(
              exchange.getRequestMethod()
                  + " "
                  + exchange.getRequestURI().getRawPath()
                  + (credentials == null ? "" : " " + credentials));
          Scripted answer = answers.removeFirst();
          try {
            Thread.sleep(answer.delay().toMillis());
          } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
          }
          byte[] body = answer.body().getBytes(StandardCharsets.UTF_8);
          exchange.sendResponseHeaders(answer.status(), body.length);
          exchange.getResponseBody().write(body);
          exchange.close();
        });
    server.start();
  }

  @AfterEach
  void stopServer() {
    server.stop(0);
  }

  @Test
  void shouldAskUnderThePathOfTheBaseAddress() {
    answer(200, "{\"id\":12}");
    HttpSchemaRegistry registry = registry();
    assertThat(registry.register("kornspur.facts-a b", SCHEMA)).isEqualTo(12);
    assertThat(registry.byId(12)).isEqualTo(SCHEMA);
    assertThat(asked)
        .containsExactly("POST /apis/ccompat/v7/subjects/kornspur.facts-a%20b/versions");
  }

  @Test
  void shouldKeepASchemaThatItHasRead() {
    answer(200, FOUND);
    HttpSchemaRegistry registry = registry();
    assertThat(registry.byId(7)).isEqualTo(SCHEMA);
    assertThat(registry.byId(7)).isEqualTo(SCHEMA);
    assertThat(asked).containsExactly("GET /apis/ccompat/v7/schemas/ids/7");
  }

  @Test
  void shouldTryAgainAfterAFailureOfTheRegistry() {
    answer(503, "{\"error_code\":50003,\"message\":\"Error while forwarding\"}");
    answer(200, FOUND);
    assertThat(registry().byId(7)).isEqualTo(SCHEMA);
    assertThat(asked).hasSize(2);
  }

  @Test
  void shouldGiveUpAfterTheLastAttemptWithAnErrorThatMayBeRetried() {
    answer(500, "{}");
    answer(500, "{}");
    answer(500, "{\"error_code\":50001,\"message\":\"Error in the backend datastore\"}");
    HttpSchemaRegistry registry = registry();
    assertThatThrownBy(() -> registry.byId(7))
        .isInstanceOf(RegistryUnreachable.class)
        .hasMessageContaining("3 attempts")
        .hasMessageContaining("Error in the backend datastore");
    answer(200, FOUND);
    assertThat(registry.byId(7)).isEqualTo(SCHEMA);
  }

  @Test
  void shouldNotWaitLongerThanItsLimit() {
    answers.add(new Scripted(200, FOUND, Duration.ofSeconds(5)));
    HttpSchemaRegistry impatient =
        new HttpSchemaRegistry(
            new RegistryConfig(List.of(base()), Optional.empty(), true, Duration.ofMillis(200), 1));
    long begun = System.nanoTime();
    assertThatThrownBy(() -> impatient.byId(7)).isInstanceOf(RegistryUnreachable.class);
    assertThat(Duration.ofNanos(System.nanoTime() - begun)).isLessThan(Duration.ofSeconds(5));
  }

  @Test
  void shouldTakeTheNextAddressWhenOneDoesNotAnswer() {
    answer(200, FOUND);
    HttpSchemaRegistry registry =
        new HttpSchemaRegistry(RegistryConfig.at("http://127.0.0.1:1," + base()));
    assertThat(registry.byId(7)).isEqualTo(SCHEMA);
  }

  @Test
  void shouldTellWhatIsNotThere() {
    answer(404, "{\"error_code\":40403,\"message\":\"Schema not found\"}");
    answer(404, "{\"error_code\":40401,\"message\":\"Subject not found.\"}");
    HttpSchemaRegistry registry = registry();
    assertThatThrownBy(() -> registry.byId(7)).isInstanceOf(UnknownSchema.class);
    assertThatThrownBy(() -> registry.idOf("s", SCHEMA)).isInstanceOf(UnknownSchema.class);
  }

  /** Otherwise a mistyped address would send every good record into quarantine. */
  @Test
  void shouldNotTakeAWrongAddressForAnUnknownSchema() {
    answer(404, "<html>404 Not Found</html>");
    HttpSchemaRegistry registry = registry();
    assertThatThrownBy(() -> registry.byId(7))
        .isInstanceOf(RegistryRefused.class)
        .hasMessageContaining("404");
  }

  @Test
  void shouldCarryTheMessagesOfAnIncompatibleSchema() {
    answer(409, "{\"error_code\":409,\"message\":\"n: int against string\"}");
    HttpSchemaRegistry registry = registry();
    assertThatThrownBy(() -> registry.register("s", SCHEMA))
        .isInstanceOfSatisfying(
            IncompatibleSchema.class,
            refused -> assertThat(refused.messages()).containsExactly("n: int against string"))
        .hasMessageContaining("subject s");
  }

  @Test
  void shouldRefuseAnAnswerThatIsNoRegistrys() {
    HttpSchemaRegistry registry = registry();
    answer(200, "<html>Welcome</html>");
    assertThatThrownBy(() -> registry.byId(7)).isInstanceOf(RegistryRefused.class);
    answer(200, "{\"id\":\"twelve\"}");
    assertThatThrownBy(() -> registry.register("s", SCHEMA)).isInstanceOf(RegistryRefused.class);
    answer(422, "{\"error_code\":42201,\"message\":\"Invalid Avro schema\"}");
    assertThatThrownBy(() -> registry.register("s", SCHEMA))
        .isInstanceOf(RegistryRefused.class)
        .hasMessageContaining("Invalid Avro schema");
  }

  /** A record may name any schema of a registry that others use too, and must not stop a reader. */
  @Test
  void shouldNotKnowASchemaThatIsNoAvro() {
    HttpSchemaRegistry registry = registry();
    answer(200, "{\"schemaType\":\"PROTOBUF\",\"schema\":\"message A {}\"}");
    assertThatThrownBy(() -> registry.byId(8))
        .isInstanceOf(UnknownSchema.class)
        .hasMessageContaining("PROTOBUF");
    answer(200, "{\"schema\":\"message A {}\"}");
    assertThatThrownBy(() -> registry.byId(9)).isInstanceOf(UnknownSchema.class);
  }

  /** RFC 7617, section 2: user-id "Aladdin", password "open sesame". */
  @Test
  void shouldShowItsCredentials() {
    answer(200, FOUND);
    new HttpSchemaRegistry(
            RegistryConfig.of(
                Map.of(
                    RegistryConfig.URL,
                    base().toString(),
                    RegistryConfig.USER_INFO,
                    "Aladdin:open sesame")))
        .byId(7);
    assertThat(asked.get(0)).endsWith(" Basic QWxhZGRpbjpvcGVuIHNlc2FtZQ==");
  }

  @Test
  void shouldSayWhichAddressIsNone() {
    assertThatThrownBy(() -> RegistryConfig.of(Map.of()))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("schema.registry.url is not set");
    assertThatThrownBy(() -> RegistryConfig.at("localhost:8081"))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("'localhost:8081'");
  }

  private HttpSchemaRegistry registry() {
    return new HttpSchemaRegistry(RegistryConfig.at(base().toString()));
  }

  private URI base() {
    return URI.create("http://127.0.0.1:" + server.getAddress().getPort() + "/apis/ccompat/v7/");
  }

  private void answer(int status, String body) {
    answers.add(new Scripted(status, body, Duration.ZERO));
  }
}
