package org.kornspur.ingest.registry;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.apache.avro.AvroRuntimeException;
import org.apache.avro.Schema;

/**
 * A registry over the Confluent REST interface: POST {@code /subjects/{subject}/versions}, POST
 * {@code /subjects/{subject}}, GET {@code /schemas/ids/{id}}, GET and PUT {@code /config}.
 *
 * <p>Schemas are kept for good, as one never changes its id. Safe for several threads.
 *
 * <p>Source: Confluent, "Schema Registry API Reference".
 */
public final class HttpSchemaRegistry implements SchemaRegistry {

  /** Media type of the interface, for questions and answers. */
  public static final String MEDIA_TYPE = "application/vnd.schemaregistry.v1+json";

  private static final Duration CONNECT_TIMEOUT = Duration.ofSeconds(2);
  private static final Duration FIRST_PAUSE = Duration.ofMillis(100);
  private static final ObjectMapper JSON = new ObjectMapper();

  /** One for all: a client keeps a thread of its own, and every serde has a registry. */
  private static final HttpClient HTTP =
      HttpClient.newBuilder()
          .version(HttpClient.Version.HTTP_1_1)
          .connectTimeout(CONNECT_TIMEOUT)
          .build();

  private final RegistryConfig config;
  private final Map<Integer, Schema> byId = new ConcurrentHashMap<>();

  private record Answer(int status, String body) {

    /**
     * Whether the registry itself says that it has no such subject, version or schema: codes 40401
     * to 40403. A 404 without one comes from a wrong path, and says nothing of the schema.
     */
    boolean saysNotFound() {
      return status == 404 && errorCode() >= 40401 && errorCode() <= 40403;
    }

    private int errorCode() {
      try {
        return JSON.readTree(body).path("error_code").asInt();
      } catch (JsonProcessingException e) {
        return 0;
      }
    }
  }

  public HttpSchemaRegistry(RegistryConfig config) {
    this.config = config;
  }

  @Override
  public int register(String subject, Schema schema) {
    return idFrom("/subjects/" + encoded(subject) + "/versions", subject, schema);
  }

  @Override
  public int idOf(String subject, Schema schema) {
    return idFrom("/subjects/" + encoded(subject), subject, schema);
  }

  @Override
  public Schema byId(int id) {
    Schema known = byId.get(id);
    if (known != null) {
      return known;
    }
    String path = "/schemas/ids/" + Integer.toUnsignedString(id);
    Answer answer = ask("GET", path, null);
    if (answer.saysNotFound()) {
      throw UnknownSchema.withId(id);
    }
    JsonNode body = bodyOf(answer, path);
    String type = body.path("schemaType").asText("AVRO");
    if (!type.equals("AVRO")) {
      throw UnknownSchema.notAvro(id, type);
    }
    Schema schema = parsed(id, text(body, "schema", path));
    byId.put(id, schema);
    return schema;
  }

  /** The compatibility level that holds where a subject has none of its own. */
  public String compatibility() {
    String path = "/config";
    return text(bodyOf(ask("GET", path, null), path), "compatibilityLevel", path);
  }

  /**
   * Sets the compatibility level that holds where a subject has none of its own.
   *
   * @param level as in {@code FULL_TRANSITIVE}
   */
  public void setCompatibility(String level) {
    String path = "/config";
    bodyOf(ask("PUT", path, JSON.createObjectNode().put("compatibility", level)), path);
  }

  private int idFrom(String path, String subject, Schema schema) {
    JsonNode question =
        JSON.createObjectNode().put("schema", schema.toString()).put("schemaType", "AVRO");
    Answer answer = ask("POST", path, question);
    if (answer.saysNotFound()) {
      throw UnknownSchema.inSubject(subject, schema.getFullName());
    }
    if (answer.status() == 409) {
      throw new IncompatibleSchema(subject, messagesIn(answer));
    }
    JsonNode id = bodyOf(answer, path).path("id");
    if (!id.isInt()) {
      throw notUnderstood(path, answer.body(), null);
    }
    byId.putIfAbsent(id.intValue(), schema);
    return id.intValue();
  }

  private Answer ask(String method, String path, JsonNode question) {
    Answer failed = null;
    IOException fault = null;
    for (int attempt = 0; attempt < config.attempts(); attempt++) {
      if (attempt > 0) {
        pause(FIRST_PAUSE.multipliedBy(1L << (2 * (attempt - 1))));
      }
      URI base = config.urls().get(attempt % config.urls().size());
      try {
        HttpResponse<String> response =
            HTTP.send(request(base, method, path, question), HttpResponse.BodyHandlers.ofString());
        Answer answer = new Answer(response.statusCode(), response.body());
        if (answer.status() < 500 && answer.status() != 429) {
          return answer;
        }
        failed = answer;
      } catch (IOException e) {
        fault = e;
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
        throw new RegistryUnreachable(
            "Interrupted while asking " + base + path + ". The call may be made again", e);
      }
    }
    throw unreachable(method, path, failed, fault);
  }

  private HttpRequest request(URI base, String method, String path, JsonNode question) {
    HttpRequest.Builder request =
        HttpRequest.newBuilder(URI.create(base + path))
            .timeout(config.timeout())
            .header("Accept", MEDIA_TYPE + ", application/json");
    config
        .userInfo()
        .map(info -> Base64.getEncoder().encodeToString(info.getBytes(StandardCharsets.UTF_8)))
        .ifPresent(credentials -> request.header("Authorization", "Basic " + credentials));
    if (question == null) {
      return request.method(method, HttpRequest.BodyPublishers.noBody()).build();
    }
    return request
        .header("Content-Type", MEDIA_TYPE)
        .method(method, HttpRequest.BodyPublishers.ofString(question.toString()))
        .build();
  }

  private static void pause(Duration pause) {
    try {
      Thread.sleep(pause.toMillis());
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new RegistryUnreachable(
          "Interrupted between two attempts to reach the registry. The call may be made again", e);
    }
  }

  private RegistryUnreachable unreachable(
      String method, String path, Answer failed, IOException fault) {
    String last =
        failed == null
            ? fault.getClass().getSimpleName() + " " + fault.getMessage()
            : "status " + failed.status() + " " + failed.body();
    return new RegistryUnreachable(
        ("The schema registry did not answer %s %s at %s in %s attempts of at most %s s each; "
                + "last: %s. Check that it runs and that %s is right; then try again")
            .formatted(
                method,
                path,
                config.urls(),
                config.attempts(),
                config.timeout().toSeconds(),
                last,
                RegistryConfig.URL),
        fault);
  }

  private JsonNode bodyOf(Answer answer, String path) {
    if (answer.status() != 200) {
      throw new RegistryRefused(
          ("The schema registry at %s answered %s with status %s: %s. Expected 200; check the "
                  + "address, its path and the credentials")
              .formatted(config.urls(), path, answer.status(), answer.body()));
    }
    try {
      return JSON.readTree(answer.body());
    } catch (JsonProcessingException e) {
      throw notUnderstood(path, answer.body(), e);
    }
  }

  private String text(JsonNode body, String field, String path) {
    JsonNode value = body.path(field);
    if (!value.isTextual()) {
      throw notUnderstood(path, body.toString(), null);
    }
    return value.textValue();
  }

  private static Schema parsed(int id, String text) {
    try {
      return new Schema.Parser().parse(text);
    } catch (AvroRuntimeException e) {
      throw UnknownSchema.notAvro(id, "AVRO in name only: " + e.getMessage());
    }
  }

  private RegistryRefused notUnderstood(String path, String body, Throwable cause) {
    return new RegistryRefused(
        ("The answer of %s to %s is not that of a Confluent schema registry: %s. Check that "
                + "%s carries the right path, as in /apis/ccompat/v7")
            .formatted(config.urls(), path, body, RegistryConfig.URL),
        cause);
  }

  private static List<String> messagesIn(Answer answer) {
    List<String> messages = new ArrayList<>();
    try {
      JsonNode body = JSON.readTree(answer.body());
      messages.add(body.path("message").asText(answer.body()));
      body.path("messages").forEach(message -> messages.add(message.asText()));
    } catch (JsonProcessingException e) {
      messages.add(answer.body());
    }
    return messages;
  }

  private static String encoded(String subject) {
    return URLEncoder.encode(subject, StandardCharsets.UTF_8).replace("+", "%20");
  }
}
