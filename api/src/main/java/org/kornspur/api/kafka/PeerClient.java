package org.kornspur.api.kafka;

import com.fasterxml.jackson.core.type.TypeReference;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.apache.kafka.streams.state.HostInfo;
import org.kornspur.api.problem.NotReadyDetail;
import org.kornspur.processors.stream.ChainPositions;
import org.kornspur.processors.stream.RegisterEntry;

/** Asks other instances for keys that they hold. */
public final class PeerClient {
  /** What all addresses begin with at which instances ask each other. */
  public static final String ROOT = "/internal";

  public static final String DOSSIER = "/dossier";
  public static final String REPORTS = "/reports";
  public static final String REGISTER = "/register";
  public static final String POSITIONS = "/positions";

  private static final Duration TIMEOUT = Duration.ofSeconds(5);

  private final HttpClient http = HttpClient.newBuilder().connectTimeout(TIMEOUT).build();
  private final ObjectMapper json;
  private final InternalSecret secret;

  /**
   * @param secret that instances of this cluster show each other
   */
  PeerClient(ObjectMapper json, InternalSecret secret) {
    this.json = json;
    this.secret = secret;
  }

  List<PeerEntry> entries(HostInfo owner, String subject) {
    return ask(owner, DOSSIER, subject, new TypeReference<>() {});
  }

  List<byte[]> reports(HostInfo owner, String subject) {
    return ask(owner, REPORTS, subject, new TypeReference<>() {});
  }

  Optional<RegisterEntry> registered(HostInfo owner, String factId) {
    return ask(owner, REGISTER, factId, new TypeReference<>() {});
  }

  List<ChainPositions.Position> positions(HostInfo owner, String factId) {
    return ask(owner, POSITIONS, factId, new TypeReference<>() {});
  }

  private <T> T ask(HostInfo owner, String path, String key, TypeReference<T> type) {
    URI uri =
        URI.create(
            "http://"
                + owner.host()
                + ":"
                + owner.port()
                + ROOT
                + path
                + "?key="
                + URLEncoder.encode(key, StandardCharsets.UTF_8));
    try {
      HttpResponse<byte[]> response =
          http.send(
              HttpRequest.newBuilder(uri)
                  .timeout(TIMEOUT)
                  .header(InternalSecret.HEADER, secret.value())
                  .build(),
              HttpResponse.BodyHandlers.ofByteArray());
      if (response.statusCode() != 200) {
        throw unanswered(owner, "it answered " + response.statusCode());
      }
      return json.readValue(response.body(), type);
    } catch (IOException failed) {
      throw unanswered(owner, failed.toString());
    } catch (InterruptedException interrupted) {
      Thread.currentThread().interrupt();
      throw unanswered(owner, "interrupted");
    }
  }

  private static NotReady unanswered(HostInfo owner, String why) {
    return new NotReady(
        new NotReadyDetail.InstanceSilent(owner.host() + ":" + owner.port(), why), 3);
  }
}
