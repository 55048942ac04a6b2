package org.kornspur.api.packaged;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.kornspur.api.kafka.InternalSecret;
import org.kornspur.api.security.login.AsPerson;
import org.kornspur.api.security.people.TestPeople;

/** A running instance, as a caller sees it: asks over HTTP and follows no redirect. */
final class Site {

  private static final Duration REQUEST_LIMIT = Duration.ofSeconds(10);
  private static final Duration FILE_LIMIT = Duration.ofMinutes(5);
  private static final Duration POST_LIMIT = Duration.ofSeconds(60);
  private static final Duration ANSWER_LIMIT = Duration.ofSeconds(60);
  private static final Duration PAUSE = Duration.ofMillis(250);
  private static final Duration STILL = Duration.ofSeconds(2);
  private static final int PAGE_SIZE = 500;
  private static final int ASKED_TOGETHER = 4;
  private static final ObjectMapper JSON = new ObjectMapper();

  /** Moments differ from run to run; everything else is what the facts say. */
  private static final List<String> MOMENTS = List.of("asOf", "changedAt");

  private static final String RECEIVED = "receivedAt";

  private final String url;
  private final HttpClient http =
      HttpClient.newBuilder()
          .version(HttpClient.Version.HTTP_1_1)
          .connectTimeout(Duration.ofSeconds(2))
          .followRedirects(HttpClient.Redirect.NEVER)
          .build();

  Site(String url) {
    this.url = url;
  }

  /**
   * What was answered.
   *
   * @param retryAfter seconds, 0 where nothing says so
   */
  record Answer(int status, JsonNode body, int retryAfter) {}

  Answer get(String path) throws IOException, InterruptedException {
    return send(request(path).GET());
  }

  /** Asks as another instance of the cluster does. */
  Answer getAsInstance(String path, String secret) throws IOException, InterruptedException {
    return send(request(path).header(InternalSecret.HEADER, secret).GET());
  }

  /**
   * A file that was answered, or why not.
   *
   * @param retryAfter seconds, 0 where nothing says so
   */
  record File(int status, int bytes, int retryAfter) {}

  /** Asks for a file and does not wait for it. */
  CompletableFuture<File> file(String path) {
    return http.sendAsync(
            request(path).timeout(FILE_LIMIT).setHeader("Accept", "*/*").GET().build(),
            HttpResponse.BodyHandlers.ofByteArray())
        .thenApply(
            answer -> new File(answer.statusCode(), answer.body().length, retryAfter(answer)));
  }

  private static int retryAfter(HttpResponse<?> answer) {
    return (int) answer.headers().firstValueAsLong("Retry-After").orElse(0);
  }

  /** Posts facts as NDJSON, one a line. */
  Answer postLines(String path, String lines) throws IOException, InterruptedException {
    return send(
        request(path)
            .timeout(POST_LIMIT)
            .header("Content-Type", "application/x-ndjson")
            .POST(HttpRequest.BodyPublishers.ofString(lines)));
  }

  /** Posts one document of JSON. */
  Answer post(String path, JsonNode body) throws IOException, InterruptedException {
    return send(
        request(path)
            .timeout(POST_LIMIT)
            .header("Content-Type", "application/json")
            .POST(HttpRequest.BodyPublishers.ofString(body.toString())));
  }

  /** Whether it says of itself that it can answer. */
  boolean isReady() throws InterruptedException {
    try {
      return get("/health/ready").status() == 200;
    } catch (IOException notThere) {
      return false;
    }
  }

  /**
   * The answer as soon as it is 200; until then, for a bounded time, a site may ask for patience.
   */
  JsonNode answer(String path) throws InterruptedException {
    Deadline deadline = Deadline.in(ANSWER_LIMIT, url + path + " answers");
    String last = "nothing";
    while (!deadline.passed()) {
      try {
        Answer answer = get(path);
        if (answer.status() == 200) {
          return answer.body();
        }
        last = answer.toString();
        if (answer.status() != 503) {
          break;
        }
      } catch (IOException notThere) {
        last = notThere.toString();
      }
      Thread.sleep(PAUSE.toMillis());
    }
    throw deadline.missed(last);
  }

  /** How many crops and lots have a standing. */
  int standings() throws InterruptedException {
    return answer("/api/v1/lots?size=1").path("total").asInt()
        + answer("/api/v1/crops?size=1").path("total").asInt();
  }

  /**
   * Every standing with its gates, and every fact of its dossier, by address, without the moments
   * at which they were judged and answered.
   */
  Map<String, JsonNode> everything() throws InterruptedException, ExecutionException {
    Map<String, Future<JsonNode>> asked = new TreeMap<>();
    ExecutorService together = Executors.newFixedThreadPool(ASKED_TOGETHER);
    try {
      for (String address : lines().keySet()) {
        for (String path : List.of(address, address + "/facts")) {
          asked.put(path, together.submit(() -> timeless(answer(path))));
        }
      }
      Map<String, JsonNode> all = new TreeMap<>();
      for (Map.Entry<String, Future<JsonNode>> one : asked.entrySet()) {
        all.put(one.getKey(), one.getValue().get());
      }
      return all;
    } finally {
      together.shutdownNow();
    }
  }

  /** The standing of every crop and lot in short, by address. */
  Map<String, JsonNode> lines() throws InterruptedException {
    Map<String, JsonNode> lines = new TreeMap<>();
    for (String list : List.of("/api/v1/lots", "/api/v1/crops")) {
      for (JsonNode line : list(list)) {
        lines.put(line.path("href").asText(), timeless(line));
      }
    }
    return lines;
  }

  /**
   * Waits until all is processed and the standings, which every instance reads for itself, move no
   * more.
   */
  void awaitRest(Backlog backlog, Duration limit) throws InterruptedException {
    Deadline deadline = Deadline.in(limit, "standings at " + url + " stand still");
    awaitNothingWaiting(backlog, deadline);
    Map<String, JsonNode> before;
    Map<String, JsonNode> now = lines();
    do {
      if (deadline.passed()) {
        throw deadline.missed("they move, though nothing waits");
      }
      Thread.sleep(STILL.toMillis());
      awaitNothingWaiting(backlog, deadline);
      before = now;
      now = lines();
    } while (!now.equals(before));
  }

  /** What is not processed will move the standings; asking for all of them would only slow it. */
  private static void awaitNothingWaiting(Backlog backlog, Deadline deadline)
      throws InterruptedException {
    long behind = backlog.records();
    while (behind != 0) {
      if (deadline.passed()) {
        throw deadline.missed(
            behind == Backlog.UNKNOWN
                ? "the brokers do not tell how many records are not processed"
                : behind + " records are not processed");
      }
      Thread.sleep(PAUSE.toMillis());
      behind = backlog.records();
    }
  }

  private List<JsonNode> list(String path) throws InterruptedException {
    List<JsonNode> items = new ArrayList<>();
    int pages = 1;
    for (int page = 1; page <= pages; page++) {
      JsonNode answer = answer("%s?sort=id&size=%d&page=%d".formatted(path, PAGE_SIZE, page));
      answer.path("items").forEach(items::add);
      pages = answer.path("pages").asInt();
    }
    return items;
  }

  private HttpRequest.Builder request(String path) {
    return HttpRequest.newBuilder(URI.create(url + path))
        .timeout(REQUEST_LIMIT)
        .header("Accept", "application/json")
        .header("Authorization", TestPeople.basic(AsPerson.EVERYTHING));
  }

  private Answer send(HttpRequest.Builder request) throws IOException, InterruptedException {
    HttpResponse<byte[]> response =
        http.send(request.build(), HttpResponse.BodyHandlers.ofByteArray());
    return new Answer(response.statusCode(), JSON.readTree(response.body()), retryAfter(response));
  }

  private static JsonNode timeless(JsonNode answer) {
    JsonNode copy = answer.deepCopy();
    ((ObjectNode) copy).remove(MOMENTS);
    copy.findParents(RECEIVED).forEach(fact -> ((ObjectNode) fact).remove(RECEIVED));
    return copy;
  }
}
