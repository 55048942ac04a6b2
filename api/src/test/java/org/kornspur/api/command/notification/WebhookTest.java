package org.kornspur.api.command.notification;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.datatype.jsr310.JavaTimeModule;
import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import io.vertx.core.Vertx;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.time.Instant;
import java.util.HexFormat;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.CountDownLatch;
import javax.crypto.Mac;
import javax.crypto.spec.SecretKeySpec;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.kornspur.contract.NotificationFailure;

/** Posts to a real server on loopback. */
class WebhookTest {
  private static final String SECRET = "an invented secret";
  private static final ObjectMapper JSON = new ObjectMapper().registerModule(new JavaTimeModule());
  private static final Vertx VERTX = Vertx.vertx();

  private record Received(
      String path, String id, String timestamp, String signature, byte[] body) {}

  private final List<Received> received = new CopyOnWriteArrayList<>();
  private final CountDownLatch end = new CountDownLatch(1);
  private HttpServer server;

  @BeforeEach
  void startServer() throws IOException {
    server = HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
    server.createContext("/taken", exchange -> answer(exchange, 204));
    server.createContext("/broken", exchange -> answer(exchange, 503));
    server.createContext(
        "/moved",
        exchange -> {
          exchange.getResponseHeaders().add("Location", "/taken");
          answer(exchange, 302);
        });
    server.createContext(
        "/silent",
        exchange -> {
          try {
            end.await();
          } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
          }
        });
    server.start();
  }

  @AfterEach
  void stopServer() {
    end.countDown();
    server.stop(0);
  }

  @AfterAll
  static void stop() {
    var unused = VERTX.close();
  }

  private void answer(HttpExchange exchange, int status) throws IOException {
    received.add(
        new Received(
            exchange.getRequestURI().toString(),
            exchange.getRequestHeaders().getFirst("Kornspur-Message-Id"),
            exchange.getRequestHeaders().getFirst("Kornspur-Timestamp"),
            exchange.getRequestHeaders().getFirst("Kornspur-Signature"),
            exchange.getRequestBody().readAllBytes()));
    exchange.sendResponseHeaders(status, -1);
    exchange.close();
  }

  /** The receiver reckons the signature as the manual says, by Java's own HMAC. */
  @Test
  void aMessageIsSignedOverTimeAndBody() throws Exception {
    webhook(true).send(InventedMessage.german(), address("/taken?for=seed"), SECRET);

    Received one = received.get(0);
    assertThat(one.path()).isEqualTo("/taken?for=seed");
    assertThat(one.id()).isEqualTo(InventedMessage.ID);
    assertThat(Instant.ofEpochSecond(Long.parseLong(one.timestamp())))
        .isBetween(Instant.now().minusSeconds(60), Instant.now());
    Mac mac = Mac.getInstance("HmacSHA256");
    mac.init(new SecretKeySpec(SECRET.getBytes(StandardCharsets.UTF_8), "HmacSHA256"));
    mac.update((one.timestamp() + ".").getBytes(StandardCharsets.US_ASCII));
    assertThat(one.signature())
        .isEqualTo("v1=" + HexFormat.of().formatHex(mac.doFinal(one.body())));
    JsonNode body = JSON.readTree(one.body());
    assertThat(body.at("/messageId").asText()).isEqualTo(InventedMessage.ID);
    assertThat(body.at("/title").asText()).isEqualTo("Nicht tauglich: für Prüfer");
    assertThat(body.at("/lines/0/link").asText()).isEqualTo("https://seed.example/lots/L26-007");
    assertThat(body.at("/more").asInt()).isEqualTo(3);
  }

  @Test
  void aServerThatDoesNotTakeItIsAFailure() {
    DeliveryFailed failed = failure(webhook(true), address("/broken"));
    assertThat(failed.why()).isEqualTo(NotificationFailure.NOT_TAKEN);
    assertThat(failed.detail()).isEqualTo("HTTP 503");
  }

  @Test
  void aRedirectIsNotFollowed() {
    DeliveryFailed failed = failure(webhook(true), address("/moved"));
    assertThat(failed.detail()).isEqualTo("HTTP 302");
    assertThat(received).extracting(Received::path).containsExactly("/moved");
  }

  @Test
  void aSilentServerIsNotWaitedForLong() {
    DeliveryFailed failed = failure(webhook(true), address("/silent"));
    assertThat(failed.why()).isEqualTo(NotificationFailure.NOT_REACHED);
  }

  @Test
  void nobodyThereIsAFailure() {
    int port = server.getAddress().getPort();
    server.stop(0);
    DeliveryFailed failed = failure(webhook(true), "http://127.0.0.1:" + port + "/taken");
    assertThat(failed.why()).isEqualTo(NotificationFailure.NOT_REACHED);
  }

  @Test
  void withoutTheSettingNothingOfTheMachineIsAsked() {
    for (String host : List.of("127.0.0.1", "localhost")) {
      String address = "http://" + host + ":" + server.getAddress().getPort() + "/taken";
      assertThat(failure(webhook(false), address).why())
          .isEqualTo(NotificationFailure.ADDRESS_REFUSED);
    }
    assertThat(received).isEmpty();
  }

  private static DeliveryFailed failure(Webhook webhook, String address) {
    return catchThrowableOfType(
        DeliveryFailed.class, () -> webhook.send(InventedMessage.german(), address, SECRET));
  }

  private static Webhook webhook(boolean privateAddresses) {
    return new Webhook(
        InventedSettings.webhooks(privateAddresses, Duration.ofSeconds(2)), JSON, VERTX);
  }

  private String address(String path) {
    return "http://127.0.0.1:" + server.getAddress().getPort() + path;
  }
}
