package org.kornspur.api.kafka.embedded;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.apache.avro.Schema;
import org.kornspur.ingest.registry.HttpSchemaRegistry;
import org.kornspur.ingest.registry.SchemaLedger;

/**
 * What the registry says, in the shapes and with the error codes of the Confluent REST interface.
 *
 * <p>Source: Confluent, "Schema Registry API Reference".
 *
 * @param status of HTTP
 */
record RegistryAnswer(int status, JsonNode body) {

  static final String MEDIA_TYPE = HttpSchemaRegistry.MEDIA_TYPE;

  private static final ObjectMapper JSON = new ObjectMapper();

  byte[] bytes() {
    return body.toString().getBytes(StandardCharsets.UTF_8);
  }

  static RegistryAnswer id(int id) {
    return new RegistryAnswer(200, JSON.createObjectNode().put("id", id));
  }

  static RegistryAnswer schema(Schema schema) {
    return new RegistryAnswer(200, JSON.createObjectNode().put("schema", schema.toString()));
  }

  static RegistryAnswer entry(SchemaLedger.Entry entry) {
    return new RegistryAnswer(
        200,
        JSON.createObjectNode()
            .put("subject", entry.subject())
            .put("version", entry.version())
            .put("id", entry.id())
            .put("schema", entry.schema()));
  }

  /** A list of names, of numbers, or of objects made of maps. */
  static RegistryAnswer list(List<?> items) {
    return new RegistryAnswer(200, JSON.valueToTree(items));
  }

  /** The schema itself, as a file has it. */
  static RegistryAnswer text(SchemaLedger.Entry entry) {
    try {
      return new RegistryAnswer(200, JSON.readTree(entry.schema()));
    } catch (JsonProcessingException impossible) {
      throw new IllegalStateException(impossible);
    }
  }

  static RegistryAnswer compatible(List<String> differences) {
    ObjectNode answer = JSON.createObjectNode().put("is_compatible", differences.isEmpty());
    answer.set("messages", JSON.valueToTree(differences));
    return new RegistryAnswer(200, answer);
  }

  static RegistryAnswer mode() {
    return new RegistryAnswer(200, JSON.createObjectNode().put("mode", "READWRITE"));
  }

  static RegistryAnswer config(String field) {
    return new RegistryAnswer(200, JSON.createObjectNode().put(field, "FULL_TRANSITIVE"));
  }

  static RegistryAnswer incompatible(String subject, List<String> messages) {
    return error(
        409,
        409,
        "The schema is not compatible with an earlier version of subject "
            + subject
            + ": "
            + String.join("; ", messages));
  }

  static RegistryAnswer noSubject(String subject) {
    return error(404, 40401, "No subject " + subject);
  }

  static RegistryAnswer noVersion(String subject, String version) {
    return error(404, 40402, "Subject " + subject + " has no version " + version);
  }

  static RegistryAnswer invalidVersion(String version) {
    return error(422, 42202, "'" + version + "' is no version; give a number from 1 on, or latest");
  }

  static RegistryAnswer noSchema(String message) {
    return error(404, 40403, message);
  }

  static RegistryAnswer invalidSchema(String message) {
    return error(422, 42201, message);
  }

  static RegistryAnswer invalidLevel(String level) {
    return error(
        422,
        42203,
        "Compatibility level "
            + level
            + " is not offered: this registry holds every subject to FULL_TRANSITIVE");
  }

  static RegistryAnswer storeFailed(String message) {
    return error(500, 50001, message + ". Try again");
  }

  static RegistryAnswer error(int status, int code, String message) {
    return new RegistryAnswer(
        status, JSON.createObjectNode().put("error_code", code).put("message", message));
  }
}
