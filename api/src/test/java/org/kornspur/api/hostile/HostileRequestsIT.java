package org.kornspur.api.hostile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import io.quarkus.test.common.http.TestHTTPResource;
import io.quarkus.test.junit.QuarkusTest;
import io.quarkus.test.junit.TestProfile;
import jakarta.inject.Inject;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.net.URI;
import java.net.URL;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.net.http.HttpTimeoutException;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.function.BooleanSupplier;
import java.util.function.Supplier;
import java.util.stream.Stream;
import org.apache.kafka.clients.producer.KafkaProducer;
import org.apache.kafka.clients.producer.ProducerConfig;
import org.apache.kafka.clients.producer.ProducerRecord;
import org.apache.kafka.common.serialization.ByteArraySerializer;
import org.awaitility.core.ConditionTimeoutException;
import org.junit.jupiter.api.Test;
import org.kornspur.api.InProcessProfile;
import org.kornspur.api.kafka.NotReady;
import org.kornspur.api.kafka.ProcessorsClient;
import org.kornspur.api.packaged.DemoFacts;
import org.kornspur.api.security.login.AsPerson;
import org.kornspur.api.security.people.TestPeople;
import org.kornspur.ingest.intake.QuarantineEntries;
import org.kornspur.ingest.json.FactParser;
import org.kornspur.ingest.json.ReadResult;
import org.kornspur.processors.stream.RegisterEntry;
import org.kornspur.processors.stream.Topics;

/**
 * Harmful requests and records against the running application, with its real broker: none is
 * answered with a fault of the server, none hangs, and every input is a fact or in the quarantine.
 *
 * <p>{@code -Dhostile.requests=100000} makes the long run; {@code -Dhostile.seed} repeats one.
 */
@QuarkusTest
@TestProfile(InProcessProfile.class)
class HostileRequestsIT {
  private static final int REQUESTS = Integer.getInteger("hostile.requests", 3_000);
  private static final long SEED = Long.getLong("hostile.seed", 20_261_125L);
  private static final int SENDERS = 6;
  private static final int MOST_CONNECTIONS = 10;
  private static final Duration LONGEST_ANSWER = Duration.ofMinutes(2);
  private static final Duration LONGEST_WAIT = Duration.ofMinutes(10);
  private static final ObjectMapper JSON = new ObjectMapper();

  private static final List<String> MEDIA_TYPES =
      List.of(
          "application/json",
          "application/x-ndjson",
          "text/csv",
          "application/xml",
          "application/json; charset=utf-16",
          "multipart/form-data; boundary=x",
          "application/x-www-form-urlencoded");

  @TestHTTPResource("/")
  URL root;

  @Inject ProcessorsClient processors;

  private final List<HttpClient> clients =
      Stream.of(HttpClient.Version.values())
          .map(
              version ->
                  HttpClient.newBuilder().version(version).connectTimeout(LONGEST_ANSWER).build())
          .toList();
  private final Map<Integer, Integer> answers = new ConcurrentHashMap<>();
  private final Map<String, byte[]> notTakenIn = new ConcurrentHashMap<>();
  private final Set<String> takenIn = ConcurrentHashMap.newKeySet();

  @Test
  void nothingHarmfulStopsItOrIsLost() throws Exception {
    waitUntilReady();
    List<String> demo = DemoFacts.lines();
    List<Address> addresses = addresses();
    ExecutorService senders = Executors.newFixedThreadPool(SENDERS);
    List<Future<?>> sent = new ArrayList<>();
    for (int sender = 0; sender < SENDERS; sender++) {
      int first = sender;
      sent.add(
          senders.submit(
              () -> {
                HostileInputs inputs = new HostileInputs(SEED + first, demo);
                for (int number = first; number < REQUESTS; number += SENDERS) {
                  send(inputs, number, addresses);
                }
                return null;
              }));
    }
    for (Future<?> sending : sent) {
      sending.get();
    }
    senders.shutdown();

    assertThat(answers.keySet()).as("answers %s, seed %d", answers, SEED).allMatch(s -> s < 500);
    assertThat(answers).containsKeys(202, 422, 400, 404);
    assertNothingIsLost();
  }

  @Test
  void harmfulRecordsOnTheTopicEndAsFactsOrInTheQuarantine() throws Exception {
    waitUntilReady();
    HostileInputs inputs = new HostileInputs(SEED, DemoFacts.lines());
    Map<String, byte[]> unreadable = new HashMap<>();
    Map<String, Object> settings = new HashMap<>(processors.consumerSettings());
    settings.put(ProducerConfig.ACKS_CONFIG, "all");
    try (var producer =
        new KafkaProducer<>(settings, new ByteArraySerializer(), new ByteArraySerializer())) {
      for (int number = 0; number < REQUESTS / 3; number++) {
        byte[] key = ("topic-" + number).getBytes(StandardCharsets.UTF_8);
        byte[] value = harmfulRecord(inputs, number);
        var unused =
            producer.send(new ProducerRecord<>(Topics.FACTS.topicName(), null, key, value));
        unreadable.put(QuarantineEntries.entryId(key, value), value);
      }
      producer.flush();
    }
    unreadable.forEach((entryId, value) -> waitFor("/api/v1/quarantine/" + entryId));
    assertThat(processors.isReady()).as("the stream still runs").isTrue();
  }

  /** No record here is a fact under its own key, so each must be found in the quarantine. */
  private byte[] harmfulRecord(HostileInputs inputs, int number) {
    byte[] text = inputs.fact(number);
    if (FactParser.accept(text) instanceof ReadResult.Fact read) {
      byte[] wire = processors.wire().encode(Topics.FACTS.topicName(), read.fact());
      return number % 2 == 0 ? wire : inputs.harmed(wire);
    }
    return text;
  }

  private void send(HostileInputs inputs, int number, List<Address> addresses) throws Exception {
    switch (number % 5) {
      case 0, 1 -> postOne(inputs.fact(number));
      case 2 -> postMany(inputs, number);
      case 3 -> ask(inputs, inputs.oneOf(addresses));
      default -> postAnywhere(inputs, inputs.fact(number), inputs.oneOf(addresses));
    }
  }

  private void postOne(byte[] body) throws Exception {
    HttpResponse<String> answer =
        answer(to("/api/v1/facts").header("Content-Type", "application/json").POST(of(body)));
    if (answer.statusCode() == 202) {
      takenIn.add(JSON.readTree(answer.body()).path("factId").asText());
    } else if (answer.statusCode() == 422) {
      notTakenIn.put(QuarantineEntries.entryId(null, body), body);
    }
  }

  private void postMany(HostileInputs inputs, int number) throws Exception {
    ByteArrayOutputStream lines = new ByteArrayOutputStream();
    for (int line = 0; line < 4; line++) {
      lines.writeBytes(inputs.fact(number * 10 + REQUESTS + line));
      lines.write('\n');
    }
    HttpResponse<String> answer =
        answer(
            to("/api/v1/facts")
                .header("Content-Type", "application/x-ndjson")
                .POST(of(lines.toByteArray())));
    if (answer.statusCode() != 200 && answer.statusCode() != 202 && answer.statusCode() != 207) {
      return;
    }
    for (JsonNode item : JSON.readTree(answer.body()).path("items")) {
      switch (item.path("outcome").asText()) {
        case "accepted", "already-known" -> takenIn.add(item.path("factId").asText());
        case "refused" -> {
          String href = item.path("quarantine").asText();
          assertThat(href).as(item.toString()).contains("/quarantine/");
          notTakenIn.put(href.substring(href.lastIndexOf('/') + 1), new byte[0]);
        }
        default -> throw new AssertionError(item.toString());
      }
    }
  }

  private void ask(HostileInputs inputs, Address address) throws Exception {
    StringBuilder path = new StringBuilder();
    for (String part : address.template().split("(?=\\{)|(?<=})")) {
      path.append(part.startsWith("{") ? encoded(inputs.text()) : part);
    }
    path.append('?').append(inputs.oneOf(List.of("id", "limit", "after", "state", "cropYear")));
    path.append('=').append(encoded(inputs.text()));
    answer(to(path.toString()).GET());
  }

  private void postAnywhere(HostileInputs inputs, byte[] body, Address address) throws Exception {
    if (!address.methods().contains("post")) {
      ask(inputs, address);
      return;
    }
    String path = address.template().replaceAll("\\{[^}]*}", encoded("L-1"));
    HttpRequest.Builder request =
        to(path).header("Content-Type", inputs.oneOf(MEDIA_TYPES)).POST(of(body));
    if (body.length % 7 == 0) {
      request.header("Content-Encoding", "gzip");
    }
    answer(request);
  }

  private void assertNothingIsLost() {
    assertThat(takenIn).isNotEmpty();
    assertThat(notTakenIn).isNotEmpty();
    notTakenIn.keySet().forEach(entryId -> waitFor("/api/v1/quarantine/" + entryId));
    takenIn.forEach(this::waitUntilRegistered);
  }

  private void waitUntilRegistered(String factId) {
    waitUntil(
        () -> processors.registered(factId).flatMap(RegisterEntry::fingerprint).isPresent(),
        () -> "Fact " + factId);
  }

  private void waitFor(String path) {
    waitUntil(() -> answer(to(path).GET()).statusCode() == 200, () -> path);
  }

  private void waitUntil(BooleanSupplier there, Supplier<String> what) {
    try {
      await().atMost(LONGEST_WAIT).pollDelay(Duration.ZERO).until(there::getAsBoolean);
    } catch (ConditionTimeoutException late) {
      throw new AssertionError(
          "%s is not there, behind %s, seed %d".formatted(what.get(), behind(), SEED), late);
    }
  }

  private String behind() {
    try {
      return processors.lag().toString();
    } catch (NotReady notTold) {
      return notTold.getMessage();
    }
  }

  private HttpResponse<String> answer(HttpRequest.Builder request) {
    HttpResponse<String> answer = sent(request.timeout(LONGEST_ANSWER).build(), MOST_CONNECTIONS);
    answers.merge(answer.statusCode(), 1, Integer::sum);
    assertThat(answer.statusCode()).as("%s: %s", answer.request(), answer.body()).isLessThan(500);
    return answer;
  }

  /**
   * Sends again where the connection ended before the first byte of an answer: the server ends one
   * after a request whose body it did not read, and a client that sends at that moment has to open
   * another (RFC 9112, section 9.3.1; RFC 9113, section 6.8).
   */
  private HttpResponse<String> sent(HttpRequest request, int connections) {
    try {
      return clients
          .get((int) (Thread.currentThread().getId() % clients.size()))
          .send(request, BodyHandlers.ofString(StandardCharsets.UTF_8));
    } catch (IOException unanswered) {
      if (connections > 1 && !(unanswered instanceof HttpTimeoutException)) {
        return sent(request, connections - 1);
      }
      throw new AssertionError(request + " was not answered, seed " + SEED, unanswered);
    } catch (InterruptedException unanswered) {
      throw new AssertionError(request + " was not answered, seed " + SEED, unanswered);
    }
  }

  private HttpRequest.Builder to(String path) {
    return HttpRequest.newBuilder(URI.create(root.toString().replaceAll("/$", "") + path))
        .header("Authorization", TestPeople.basic(AsPerson.EVERYTHING));
  }

  private static HttpRequest.BodyPublisher of(byte[] body) {
    return HttpRequest.BodyPublishers.ofByteArray(body);
  }

  private static String encoded(String text) {
    return URLEncoder.encode(text.isEmpty() ? "x" : text, StandardCharsets.UTF_8);
  }

  /** Every address that the interface describes, but for the streams, which never end. */
  private List<Address> addresses() throws IOException {
    JsonNode description = JSON.readTree(answer(to("/openapi?format=json").GET()).body());
    Map<String, Address> addresses = new TreeMap<>();
    description
        .path("paths")
        .properties()
        .forEach(
            path -> {
              List<String> methods = new ArrayList<>();
              path.getValue().fieldNames().forEachRemaining(methods::add);
              addresses.put(path.getKey(), new Address(path.getKey(), methods));
            });
    addresses.keySet().removeIf(path -> path.endsWith("/changes"));
    assertThat(addresses).hasSizeGreaterThan(20);
    return List.copyOf(addresses.values());
  }

  private record Address(String template, List<String> methods) {}

  private void waitUntilReady() {
    waitUntil(processors::isReady, () -> "The engine");
    waitFor("/health/ready");
  }
}
