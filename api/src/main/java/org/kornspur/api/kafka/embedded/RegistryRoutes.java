package org.kornspur.api.kafka.embedded;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.sun.net.httpserver.HttpExchange;
import java.io.IOException;
import java.net.URLDecoder;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.apache.avro.Schema;

/** Which request asks the registry for what. */
final class RegistryRoutes {

  private static final String AVRO = "AVRO";
  private static final int BODY_LIMIT_BYTES = 1 << 20;
  private static final ObjectMapper JSON = new ObjectMapper();

  private RegistryRoutes() {}

  /** A request that says less or other than it must. */
  private static final class BadRequest extends Exception {

    private final transient RegistryAnswer answer;

    BadRequest(RegistryAnswer answer) {
      super(answer.body().toString());
      this.answer = answer;
    }
  }

  static RegistryAnswer answer(EmbeddedRegistry registry, HttpExchange exchange)
      throws IOException {
    List<String> path = segments(exchange.getRequestURI().getRawPath());
    Optional<RegistryAnswer> answer;
    try {
      answer =
          switch (exchange.getRequestMethod()) {
            case "GET" -> asked(registry, path);
            case "POST" -> posted(registry, path, exchange);
            case "PUT" -> put(path, exchange);
            default -> Optional.empty();
          };
    } catch (BadRequest e) {
      return e.answer;
    }
    return answer.orElseGet(
        () ->
            RegistryAnswer.error(
                404,
                404,
                exchange.getRequestMethod()
                    + " "
                    + exchange.getRequestURI()
                    + " is no call that this registry answers"));
  }

  private static Optional<RegistryAnswer> asked(EmbeddedRegistry registry, List<String> path)
      throws BadRequest {
    if (path.equals(List.of("subjects"))) {
      return Optional.of(registry.asked(ledger -> RegistryAnswer.list(ledger.subjects())));
    }
    if (isVersions(path)) {
      return Optional.of(RegistryVersions.of(registry, path));
    }
    if (path.equals(List.of("schemas", "types"))) {
      return Optional.of(RegistryAnswer.list(List.of(AVRO)));
    }
    if (path.size() == 3 && isSchemaIds(path)) {
      return Optional.of(registry.byId(idIn(path.get(2))));
    }
    if (path.size() == 4 && isSchemaIds(path)) {
      return RegistryVersions.holding(registry, idIn(path.get(2)), path.get(3));
    }
    if (isConfig(path)) {
      return Optional.of(RegistryAnswer.config("compatibilityLevel"));
    }
    return path.equals(List.of("mode")) ? Optional.of(RegistryAnswer.mode()) : Optional.empty();
  }

  private static Optional<RegistryAnswer> posted(
      EmbeddedRegistry registry, List<String> path, HttpExchange exchange)
      throws IOException, BadRequest {
    if (path.size() == 3 && isVersions(path)) {
      return Optional.of(registry.register(path.get(1), schemaIn(exchange)));
    }
    if (path.size() == 2 && path.get(0).equals("subjects")) {
      return Optional.of(registry.find(path.get(1), schemaIn(exchange)));
    }
    if (path.size() >= 4
        && path.get(0).equals("compatibility")
        && isVersions(path.subList(1, path.size()))) {
      return Optional.of(registry.compare(path.get(2), schemaIn(exchange)));
    }
    return Optional.empty();
  }

  /** Each subject is held to the one level there is. */
  private static Optional<RegistryAnswer> put(List<String> path, HttpExchange exchange)
      throws IOException, BadRequest {
    if (!isConfig(path)) {
      return Optional.empty();
    }
    String level = textIn(bodyOf(exchange), "compatibility");
    return Optional.of(
        level.equals("FULL_TRANSITIVE")
            ? RegistryAnswer.config("compatibility")
            : RegistryAnswer.invalidLevel(level));
  }

  private static boolean isVersions(List<String> path) {
    return path.size() >= 3 && path.get(0).equals("subjects") && path.get(2).equals("versions");
  }

  private static boolean isSchemaIds(List<String> path) {
    return path.subList(0, 2).equals(List.of("schemas", "ids"));
  }

  /** Of all subjects, or of one. */
  private static boolean isConfig(List<String> path) {
    return (path.size() == 1 || path.size() == 2) && path.get(0).equals("config");
  }

  private static List<String> segments(String rawPath) {
    return Arrays.stream(rawPath.split("/"))
        .filter(segment -> !segment.isEmpty())
        .map(segment -> URLDecoder.decode(segment.replace("+", "%2B"), StandardCharsets.UTF_8))
        .toList();
  }

  private static int idIn(String segment) throws BadRequest {
    try {
      return Integer.parseUnsignedInt(segment);
    } catch (NumberFormatException e) {
      throw new BadRequest(RegistryAnswer.noSchema("'" + segment + "' is no schema id"));
    }
  }

  private static Schema schemaIn(HttpExchange exchange) throws IOException, BadRequest {
    JsonNode body = bodyOf(exchange);
    String type = body.path("schemaType").asText(AVRO);
    if (!type.equals(AVRO)) {
      throw new BadRequest(
          RegistryAnswer.invalidSchema("Schema type " + type + " is not offered, only AVRO"));
    }
    String text = textIn(body, "schema");
    try {
      return new Schema.Parser().parse(text);
    } catch (RuntimeException e) { // Avro's parser has several for several kinds of nonsense
      throw new BadRequest(
          RegistryAnswer.invalidSchema("Not an Avro schema: " + text + ": " + e.getMessage()));
    }
  }

  private static String textIn(JsonNode body, String field) throws BadRequest {
    if (!body.path(field).isTextual()) {
      throw new BadRequest(
          RegistryAnswer.error(422, 422, "The body has no text field '" + field + "': " + body));
    }
    return body.path(field).textValue();
  }

  /**
   * Only JSON by its media type: a page in a browser may send plain text to this port unasked, but
   * not JSON.
   */
  private static JsonNode bodyOf(HttpExchange exchange) throws IOException, BadRequest {
    String type = exchange.getRequestHeaders().getFirst("Content-Type");
    if (type == null || !type.contains("json")) {
      throw new BadRequest(
          RegistryAnswer.error(
              415, 415, "Content type " + type + "; expected " + RegistryAnswer.MEDIA_TYPE));
    }
    byte[] bytes = exchange.getRequestBody().readNBytes(BODY_LIMIT_BYTES + 1);
    if (bytes.length > BODY_LIMIT_BYTES) {
      throw new BadRequest(
          RegistryAnswer.error(413, 413, "The body has more than " + BODY_LIMIT_BYTES + " bytes"));
    }
    try {
      return JSON.readTree(bytes);
    } catch (JsonProcessingException e) {
      throw new BadRequest(
          RegistryAnswer.error(400, 400, "The body is no JSON: " + e.getMessage()));
    }
  }
}
