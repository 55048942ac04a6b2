package org.kornspur.api.benchmark;

import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Base64;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.kornspur.api.rest.InventedFacts;

/**
 * Fills a running server with invented lots and measures how long its pages take, each from the
 * first byte asked to the last byte answered.
 *
 * <p>Start the packaged server with {@code -Dkornspur.requests-per-minute=1000000}, then, from the
 * root:
 *
 * <pre>{@code
 * mvn -q -pl api -am test-compile dependency:build-classpath -Dmdep.outputFile=target/benchmark.cp
 * java -cp "api/target/test-classes:api/target/classes:$(cat api/target/benchmark.cp)" \
 *     org.kornspur.api.benchmark.PageLoad http://127.0.0.1:8080 quality PASSWORD 100000
 * }</pre>
 *
 * <p>The last number is how many lots to make; 0 measures what is there. For each hundred lots
 * there is a crop on the field, and one hundred in ten is not true to its name in post-control,
 * with a part of it at a customer. Every target is asked by four clients at once, after a warming
 * round that does not count. {@code -Drounds=40} asks each forty times rather than four hundred.
 */
public final class PageLoad {
  private static final int CLIENTS = 4;
  private static final int ROUNDS = Integer.getInteger("rounds", 400);
  private static final int PARTS = 99;
  private static final int LOTS_OF_ONE_HYBRID = 50;
  private static final int ONE_NOT_TRUE_TO_NAME_IN = 10;
  private static final int NOT_TRUE_TO_NAME = 7;
  private static final int CROPS_IN_A_ROW = 40;
  private static final Duration LONGEST = Duration.ofMinutes(2);

  private final HttpClient client = HttpClient.newHttpClient();
  private final URI server;
  private final String authorization;
  private final int lots;

  private PageLoad(URI server, String personId, String password, int lots) {
    this.server = server;
    this.lots = lots;
    authorization =
        "Basic "
            + Base64.getEncoder()
                .encodeToString((personId + ":" + password).getBytes(StandardCharsets.UTF_8));
  }

  public static void main(String[] arguments) throws Exception {
    if (arguments.length < 4) {
      System.err.println("Give: server address, person, password, number of lots, [paths ...]");
      System.exit(2);
    }
    PageLoad load =
        new PageLoad(
            URI.create(arguments[0]), arguments[1], arguments[2], Integer.parseInt(arguments[3]));
    load.fill();
    List<String> paths =
        arguments.length > 4
            ? Arrays.asList(arguments).subList(4, arguments.length)
            : List.of(
                "/desk",
                "/lots",
                "/lots?page=400",
                "/lots?state=NOT_FIT",
                "/lots/LOAD-7",
                "/lots/LOAD-7%2F3",
                "/trace?q=LOAD-7%2F3",
                "/api/v1/lots/LOAD-7%2F3",
                "/api/v1/lots/LOAD-7/trace?direction=forward");
    System.out.printf(
        Locale.ROOT, "%-40s %8s %8s %8s %8s  (ms)%n", "page", "median", "p90", "p99", "most");
    for (String path : paths) {
      load.measure(path);
    }
  }

  /** A declared lot stands for each hundred; the other ninety-nine are split from it. */
  private void fill() throws IOException, InterruptedException {
    long began = System.nanoTime();
    for (int parent = 0; parent * (PARTS + 1) < lots; parent++) {
      StringBuilder lines = new StringBuilder();
      lines.append(declared(parent)).append('\n');
      lines.append(split(parent)).append('\n');
      lines.append(crop(parent)).append('\n');
      if (parent % ONE_NOT_TRUE_TO_NAME_IN == NOT_TRUE_TO_NAME) {
        lines.append(postControl(parent)).append('\n');
        lines.append(dispatch(parent)).append('\n');
      }
      int status = post(lines.toString());
      if (status != 200) {
        throw new IOException("Facts of lot LOAD-" + parent + " were answered with " + status);
      }
    }
    waitUntilAtRest();
    if (lots > 0) {
      System.out.printf(
          Locale.ROOT, "%d lots judged in %.0f s%n", lots, (System.nanoTime() - began) / 1e9);
    }
  }

  private static String declared(int parent) {
    return InventedFacts.fact(
        "LotDeclared",
        "load-" + parent,
        """
        "lotId": "LOAD-%d", "hybridId": "HYB-LOAD-%d", "componentId": "SX", "category": "BASIC", \
        "enterpriseId": "ENT-1", "rulebookId": "EU", "cropYear": %d, "massKg": 20000"""
            .formatted(parent, parent / LOTS_OF_ONE_HYBRID, 2016 + parent % 8));
  }

  private static String split(int parent) {
    List<String> parts = new ArrayList<>();
    for (int part = 0; part < PARTS; part++) {
      parts.add("{\"lotId\": \"LOAD-%d/%d\", \"massKg\": 200}".formatted(parent, part));
    }
    return InventedFacts.fact(
        "LotSplit",
        "load-split-" + parent,
        "\"fromLotId\": \"LOAD-%d\", \"parts\": [%s]".formatted(parent, String.join(",", parts)));
  }

  /** Far enough from every other that no pollen of one concerns another. */
  private static String crop(int parent) {
    double west = 5 + 0.1 * (parent % CROPS_IN_A_ROW);
    double south = 48 + 0.1 * (parent / CROPS_IN_A_ROW);
    return InventedFacts.fact(
        "FieldCropDeclared",
        "load-crop-" + parent,
        String.format(
            Locale.ROOT,
            """
            "cropId": "LOAD-CROP-%1$d", "fieldId": "invented", "enterpriseId": "ENT-1", \
            "hybridId": "HYB-LOAD-%2$d", "role": "STERILE_FEMALE", "seedComponentId": "SX", \
            "pollenComponentId": "RP", "cropYear": 2024, "category": "BASIC", \
            "rulebookId": "EU", "outline": [{"lon": %3$.3f, "lat": %4$.3f}, \
            {"lon": %5$.3f, "lat": %4$.3f}, {"lon": %5$.3f, "lat": %6$.3f}], \
            "floweringFrom": "2024-05-%7$02d", "floweringTo": "2024-06-%7$02d\"""",
            parent,
            parent / LOTS_OF_ONE_HYBRID,
            west,
            south,
            west + 0.003,
            south + 0.002,
            1 + parent % 28));
  }

  private static String postControl(int parent) {
    return InventedFacts.fact(
        "PostControlResult",
        "load-post-control-" + parent,
        """
        "lotId": "LOAD-%1$d", "method": "PLOT", "plotOrTestId": "plot %1$d", \
        "plantsExamined": 1000, "identityConfirmed": false, "offTypePlants": 900"""
            .formatted(parent));
  }

  private static String dispatch(int parent) {
    return InventedFacts.fact(
        "Dispatch",
        "load-dispatch-" + parent,
        """
        "lotId": "LOAD-%d/3", "customerId": "CUST-1", "massKg": %d, \
        "labelNumbers": ["LOAD-LABEL-%d"]"""
            .formatted(parent, 1 + parent % 199, parent));
  }

  private void waitUntilAtRest() throws IOException, InterruptedException {
    if (lots == 0) {
      return;
    }
    int last = (lots - 1) / (PARTS + 1);
    String path = "/api/v1/lots/LOAD-" + last + "%2F" + (PARTS - 1);
    while (!isComplete(path)) {
      Thread.sleep(500);
    }
  }

  private boolean isComplete(String path) throws IOException, InterruptedException {
    HttpResponse<String> answer =
        client.send(request(path).GET().build(), BodyHandlers.ofString(StandardCharsets.UTF_8));
    return answer.statusCode() == 200
        && new ObjectMapper().readTree(answer.body()).path("asOf").path("complete").asBoolean();
  }

  private void measure(String path) throws Exception {
    run(path, ROUNDS / 4);
    long[] nanos = run(path, ROUNDS);
    Arrays.sort(nanos);
    System.out.printf(
        Locale.ROOT,
        "%-40s %8.1f %8.1f %8.1f %8.1f%n",
        path,
        at(nanos, 0.5),
        at(nanos, 0.9),
        at(nanos, 0.99),
        at(nanos, 1));
  }

  private long[] run(String path, int rounds) throws Exception {
    ExecutorService clients = Executors.newFixedThreadPool(CLIENTS);
    try {
      List<Callable<Long>> calls = new ArrayList<>();
      for (int round = 0; round < rounds; round++) {
        calls.add(() -> timed(path));
      }
      List<Future<Long>> answers = clients.invokeAll(calls);
      long[] nanos = new long[answers.size()];
      for (int at = 0; at < nanos.length; at++) {
        nanos[at] = answers.get(at).get();
      }
      return nanos;
    } finally {
      clients.shutdown();
    }
  }

  private long timed(String path) throws IOException, InterruptedException {
    long began = System.nanoTime();
    HttpResponse<String> answer = get(path);
    long nanos = System.nanoTime() - began;
    if (answer.statusCode() != 200) {
      throw new IOException(path + " was answered with " + answer.statusCode());
    }
    return nanos;
  }

  private static double at(long[] sorted, double share) {
    int place = (int) Math.ceil(share * sorted.length) - 1;
    return sorted[Math.max(0, place)] / 1e6;
  }

  private HttpResponse<String> get(String path) throws IOException, InterruptedException {
    return client.send(
        request(path).header("Accept", "text/html, application/json;q=0.9").GET().build(),
        BodyHandlers.ofString(StandardCharsets.UTF_8));
  }

  private int post(String lines) throws IOException, InterruptedException {
    return client
        .send(
            request("/api/v1/facts")
                .header("Content-Type", "application/x-ndjson")
                .POST(HttpRequest.BodyPublishers.ofString(lines))
                .build(),
            BodyHandlers.discarding())
        .statusCode();
  }

  private HttpRequest.Builder request(String path) {
    return HttpRequest.newBuilder(server.resolve(path))
        .timeout(LONGEST)
        .header("Authorization", authorization);
  }
}
