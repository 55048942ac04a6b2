package org.kornspur.api.command.notification;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import io.vertx.core.Vertx;
import io.vertx.core.buffer.Buffer;
import io.vertx.core.http.HttpClient;
import io.vertx.core.http.HttpClientOptions;
import io.vertx.core.http.HttpClientResponse;
import io.vertx.core.http.HttpMethod;
import io.vertx.core.http.RequestOptions;
import io.vertx.core.net.SocketAddress;
import jakarta.annotation.PreDestroy;
import jakarta.enterprise.context.ApplicationScoped;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.util.HexFormat;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import org.kornspur.api.storage.SymmetricKey;
import org.kornspur.contract.NotificationFailure;

/**
 * Posts messages as JSON to the address that a person named, signed with the secret that they were
 * shown. No redirect is followed, and of the answer only the status is read.
 */
@ApplicationScoped
public class Webhook {
  static final String MESSAGE_ID = "Kornspur-Message-Id";
  static final String TIMESTAMP = "Kornspur-Timestamp";
  static final String SIGNATURE = "Kornspur-Signature";

  private final NotificationSettings.Notifications settings;
  private final ObjectMapper json;
  private final HttpClient client;
  private final Clock clock = Clock.systemUTC();

  public Webhook(NotificationSettings settings, ObjectMapper json, Vertx vertx) {
    this.settings = settings.notifications();
    this.json = json;
    this.client =
        vertx.createHttpClient(
            new HttpClientOptions()
                .setKeepAlive(false)
                .setConnectTimeout(Math.toIntExact(this.settings.timeout().toMillis())));
  }

  @PreDestroy
  void close() {
    var unused = client.close();
  }

  /**
   * HMAC-SHA256 (RFC 2104) over the time, a full stop and the body, as hexadecimal digits.
   *
   * @param secret as the person was shown it
   * @param timestamp seconds since 1970, as in the header
   */
  static String signature(String secret, String timestamp, byte[] body) {
    return HexFormat.of()
        .formatHex(
            new SymmetricKey(secret.getBytes(StandardCharsets.UTF_8))
                .mac((timestamp + ".").getBytes(StandardCharsets.US_ASCII), body));
  }

  void send(WrittenMessage message, String address, String secret) throws DeliveryFailed {
    WebhookTarget target =
        WebhookTarget.of(
            WebhookTarget.uri(address)
                .orElseThrow(() -> new DeliveryFailed(NotificationFailure.ADDRESS_REFUSED, null)),
            settings.privateAddresses());
    byte[] body = body(message);
    String timestamp = Long.toString(clock.instant().getEpochSecond());
    RequestOptions request =
        new RequestOptions()
            .setMethod(HttpMethod.POST)
            .setServer(
                SocketAddress.inetSocketAddress(target.port(), target.address().getHostAddress()))
            .setHost(target.uri().getHost())
            .setPort(target.port())
            .setSsl(target.isSecure())
            .setURI(target.path())
            .setTimeout(settings.timeout().toMillis())
            .putHeader("Content-Type", "application/json")
            .putHeader("User-Agent", "Kornspur")
            .putHeader(MESSAGE_ID, message.messageId())
            .putHeader(TIMESTAMP, timestamp)
            .putHeader(SIGNATURE, "v1=" + signature(secret, timestamp, body));
    int status = post(request, body);
    if (status / 100 != 2) {
      throw new DeliveryFailed(NotificationFailure.NOT_TAKEN, "HTTP " + status);
    }
  }

  private int post(RequestOptions request, byte[] body) throws DeliveryFailed {
    try {
      return client
          .request(request)
          .compose(open -> open.send(Buffer.buffer(body)))
          .map(Webhook::statusAlone)
          .toCompletionStage()
          .toCompletableFuture()
          .get(2 * settings.timeout().toMillis(), TimeUnit.MILLISECONDS);
    } catch (ExecutionException failed) {
      throw new DeliveryFailed(
          NotificationFailure.NOT_REACHED, failed.getCause().getClass().getSimpleName());
    } catch (TimeoutException late) {
      throw new DeliveryFailed(NotificationFailure.NOT_REACHED, "no answer in time");
    } catch (InterruptedException stopped) {
      Thread.currentThread().interrupt();
      throw new DeliveryFailed(NotificationFailure.NOT_REACHED, "the program ends");
    }
  }

  /** Whatever follows is not waited for. */
  private static int statusAlone(HttpClientResponse answer) {
    var unused = answer.request().connection().close();
    return answer.statusCode();
  }

  private byte[] body(WrittenMessage message) {
    try {
      return json.writeValueAsBytes(message);
    } catch (JsonProcessingException impossible) {
      throw new IllegalStateException("A message of texts is no JSON", impossible);
    }
  }
}
