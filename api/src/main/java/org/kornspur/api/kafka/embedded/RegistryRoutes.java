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
import org.apache.avro.Schema;

/** Which request asks the registry for what. */
final class RegistryRoutes {

  private static final int BODY_LIMIT_BYTES = 1 << 20;
  private static final ObjectMapper JSON = new ObjectMapper();

  private RegistryRoutes() {}

  /** A request that says less or other than it must. */
  private static final class BadRequest extends Exception {

    private static final long serialVersionUID = 1L;

    private final transient RegistryAnswer answer;

    BadRequest(RegistryAnswer answer) {
      super(answer.body().toString());
      this.answer = answer;
    }
  }

  static RegistryAnswer answer(EmbeddedRegistry registry, HttpExchange exchange)
      throws IOException {
    String method = exchange.getRequestMethod();
    List<String> path = segments(exchange.getRequestURI().getRawPath());
    try {
      if (method.equals("POST") && path.size() == 3 && isVersions(path)) {
        return registry.register(path.get(1), schemaIn(exchange));
      }
      if (method.equals("POST") && path.size() == 2 && path.get(0).equals("subjects")) {
        return registry.find(path.get(1), schemaIn(exchange));
      }
      if (method.equals("GET")
          && path.size() == 3
          && path.subList(0, 2).equals(List.of("schemas", "ids"))) {
        return registry.byId(idIn(path.get(2)));
      }
      if (method.equals("GET") && path.equals(List.of("config"))) {
        return RegistryAnswer.config("compatibilityLevel");
      }
      if (method.equals("PUT") && path.equals(List.of("config"))) {
        String level = textIn(bodyOf(exchange), "compatibility");
        return level.equals("FULL_TRANSITIVE")
            ? RegistryAnswer.config("compatibility")
            : RegistryAnswer.invalidLevel(level);
      }
    } catch (BadRequest e) {
      return e.answer;
    }
    return RegistryAnswer.error(
        404,
        404,
        method + " " + exchange.getRequestURI() + " is no call that this registry answers");
  }

  private static boolean isVersions(List<String> path) {
    return path.get(0).equals("subjects") && path.get(2).equals("versions");
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
    String type = body.path("schemaType").asText("AVRO");
    if (!type.equals("AVRO")) {
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
