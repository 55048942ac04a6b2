package org.kornspur.api.rest.openapi;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.networknt.schema.JsonSchema;
import com.networknt.schema.JsonSchemaFactory;
import com.networknt.schema.SchemaValidatorsConfig;
import com.networknt.schema.SpecVersion;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.kornspur.api.security.login.Asking;

/**
 * The OpenAPI document as it is served, and what of an answer is not as it says. An object may hold
 * nothing that its schema does not name, though clients must bear it.
 */
final class ServedDocument {
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final JsonSchemaFactory FACTORY =
      JsonSchemaFactory.getInstance(SpecVersion.VersionFlag.V202012);
  private static final SchemaValidatorsConfig CONFIG =
      SchemaValidatorsConfig.builder().formatAssertionsEnabled(true).build();

  private final JsonNode document;
  private final Map<String, JsonSchema> schemas = new HashMap<>();

  ServedDocument(JsonNode document) {
    this.document = document.deepCopy();
    close(this.document.at("/components/schemas"));
  }

  /** An operation of the document. */
  record Described(String method, String path, JsonNode said) {
    String id() {
      return said.path("operationId").asText();
    }
  }

  Stream<Described> operations() {
    List<Described> all = new ArrayList<>();
    document
        .path("paths")
        .properties()
        .forEach(
            path ->
                path.getValue()
                    .properties()
                    .forEach(
                        operation ->
                            all.add(
                                new Described(
                                    operation.getKey().toUpperCase(java.util.Locale.ROOT),
                                    path.getKey(),
                                    operation.getValue()))));
    return all.stream();
  }

  /** What is not as the document says; empty where all is. */
  List<String> faults(Described operation, Asking.Answer answer) throws JsonProcessingException {
    JsonNode response = resolved(operation.said().at("/responses/" + answer.status()));
    if (response.isMissingNode()) {
      return List.of("status %d: %s".formatted(answer.status(), answer.body()));
    }
    JsonNode content = response.path("content");
    if (content.isMissingNode()) {
      return answer.body().isEmpty() ? List.of() : List.of("a body where none is declared");
    }
    String type = answer.header("Content-Type").split(";")[0];
    JsonNode media = content.path(type);
    if (media.isMissingNode()) {
      media = content.path(answer.header("Content-Type"));
    }
    if (media.isMissingNode()) {
      return List.of("type " + answer.header("Content-Type"));
    }
    return type.endsWith("json") ? faults(media.path("schema"), answer.body()) : List.of();
  }

  private List<String> faults(JsonNode schema, String body) throws JsonProcessingException {
    if (schema.isEmpty()) {
      return List.of("no schema");
    }
    return schemas
        .computeIfAbsent(schema.toString(), text -> schema(schema))
        .validate(JSON.readTree(body))
        .stream()
        .map(Object::toString)
        .limit(5)
        .toList();
  }

  private JsonSchema schema(JsonNode schema) {
    ObjectNode whole = schema.deepCopy();
    whole.set("components", document.path("components"));
    return FACTORY.getSchema(whole, CONFIG);
  }

  private JsonNode resolved(JsonNode node) {
    return node.has("$ref") ? document.at(node.path("$ref").asText().substring(1)) : node;
  }

  private static void close(JsonNode node) {
    if (node instanceof ObjectNode object
        && object.path("type").asText().equals("object")
        && object.has("properties")
        && !object.has("additionalProperties")) {
      object.put("additionalProperties", false);
    }
    node.forEach(ServedDocument::close);
  }
}
