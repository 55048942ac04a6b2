package org.kornspur.ingest.json;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.ByteBuffer;
import java.util.Collection;
import org.apache.avro.Schema;
import org.apache.avro.generic.IndexedRecord;
import org.kornspur.contract.FactHeader;
import org.kornspur.ingest.contract.FactType;

/**
 * Writes records of the contract as plain JSON, the shape that {@link FactJson} reads: no wrapping
 * of unions, instants and dates in ISO 8601, bytes in Base64, fields without value as null. Who
 * brought a fact is left out: it is the server's word and no part of what may be sent in.
 */
public final class AvroJson {

  private static final JsonNodeFactory NODES = JsonNodeFactory.instance;

  private AvroJson() {}

  /** Writes a record; a fact begins with its {@code type}. */
  public static ObjectNode write(IndexedRecord branch) {
    ObjectNode object = NODES.objectNode();
    FactType.of(branch.getSchema()).ifPresent(type -> object.put("type", type.contractName()));
    for (Schema.Field field : branch.getSchema().getFields()) {
      if (!isSubmission(branch, field)) {
        object.set(field.name(), node(branch.get(field.pos())));
      }
    }
    return object;
  }

  private static boolean isSubmission(IndexedRecord branch, Schema.Field field) {
    return branch instanceof FactHeader && field.name().equals(FactJson.SUBMISSION_FIELD);
  }

  private static JsonNode node(Object value) {
    if (value == null) {
      return NODES.nullNode();
    }
    if (value instanceof IndexedRecord branch) {
      return write(branch);
    }
    if (value instanceof Collection<?> elements) {
      ArrayNode array = NODES.arrayNode(elements.size());
      elements.forEach(element -> array.add(node(element)));
      return array;
    }
    if (value instanceof Integer number) {
      return NODES.numberNode(number);
    }
    if (value instanceof Long number) {
      return NODES.numberNode(number);
    }
    if (value instanceof Double number) {
      return NODES.numberNode(number);
    }
    if (value instanceof Boolean flag) {
      return NODES.booleanNode(flag);
    }
    if (value instanceof ByteBuffer bytes) {
      byte[] copy = new byte[bytes.remaining()];
      bytes.duplicate().get(copy);
      return NODES.binaryNode(copy);
    }
    return NODES.textNode(value.toString());
  }
}
