package org.kornspur.api.security.login;

import java.io.IOException;
import java.io.InputStream;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.Map;
import org.kornspur.api.security.people.TestPeople;

/** Asks a server as a person, or as nobody, over a plain HTTP client. */
public final class Asking {
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
}
