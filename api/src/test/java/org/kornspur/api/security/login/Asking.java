package org.kornspur.api.security.login;

import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.InputStream;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.HashMap;
import java.util.Map;
import org.kornspur.api.security.people.TestPeople;

/** Asks a server as a person, or as nobody, over a plain HTTP client. */
public final class Asking {
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final Duration LIMIT = Duration.ofSeconds(60);

  private final String root;
  private final HttpClient http =
      HttpClient.newBuilder()
          .version(HttpClient.Version.HTTP_1_1)
          .followRedirects(HttpClient.Redirect.NEVER)
          .build();

  public Asking(String root) {
    this.root = root.endsWith("/") ? root.substring(0, root.length() - 1) : root;
  }

  /** What was answered; the body of an endless answer is left unread. */
  public record Answer(int status, Map<String, java.util.List<String>> headers, String body) {

    public String header(String name) {
      return headers.entrySet().stream()
          .filter(header -> header.getKey().equalsIgnoreCase(name))
          .map(header -> String.join(", ", header.getValue()))
          .findFirst()
          .orElse("");
    }
  }

  /** A GET as a person. */
  public Answer get(String person, String path) throws IOException, InterruptedException {
    return ask("GET", path, Map.of("Authorization", TestPeople.basic(person)), "");
  }

  /** A POST of JSON as a person. */
  public Answer post(String person, String path, String json)
      throws IOException, InterruptedException {
    return ask(
        "POST",
        path,
        Map.of("Authorization", TestPeople.basic(person), "Content-Type", "application/json"),
        json);
  }

  /** Any request. */
  public Answer ask(String method, String path, Map<String, String> headers, String body)
      throws IOException, InterruptedException {
    HttpRequest.Builder request =
        HttpRequest.newBuilder(URI.create(root + path))
            .timeout(LIMIT)
            .method(
                method,
                body.isEmpty()
                    ? HttpRequest.BodyPublishers.noBody()
                    : HttpRequest.BodyPublishers.ofString(body));
    headers.forEach(request::header);
    HttpResponse<InputStream> response =
        http.send(request.build(), HttpResponse.BodyHandlers.ofInputStream());
    try (InputStream in = response.body()) {
      boolean isEndless =
          response.headers().firstValue("Content-Type").orElse("").startsWith("text/event-stream");
      return new Answer(
          response.statusCode(),
          response.headers().map(),
          isEndless ? "" : new String(in.readAllBytes(), StandardCharsets.UTF_8));
    }
  }

  /** Logs in with a password. */
  public Answer logIn(String person, String password, Map<String, String> more)
      throws IOException, InterruptedException {
    Map<String, String> headers = new HashMap<>(more);
    headers.put("Content-Type", "application/json");
    return ask(
        "POST",
        RoutePolicy.SESSION,
        headers,
        JSON.writeValueAsString(Map.of("personId", person, "password", password)));
  }

  /** Has a person change a password; the status of the answer. */
  public int setPassword(String person, String old, String own)
      throws IOException, InterruptedException {
    Map<String, String> headers =
        Map.of("Authorization", TestPeople.basic(person, old), "Content-Type", "application/json");
    String change = JSON.writeValueAsString(Map.of("password", old, "newPassword", own));
    return ask("POST", RoutePolicy.OWN_PASSWORD, headers, change).status();
  }

  /** The status of the answer to one who asks for the own account. */
  public int account(String person, String password) throws IOException, InterruptedException {
    return ask(
            "GET",
            "/api/v1/account",
            Map.of("Authorization", TestPeople.basic(person, password)),
            "")
        .status();
  }
}
