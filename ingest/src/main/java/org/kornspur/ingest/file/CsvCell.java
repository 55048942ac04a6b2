package org.kornspur.ingest.file;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.math.BigDecimal;
import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;
import org.apache.avro.Schema;
import org.kornspur.ingest.intake.Problems;
import org.kornspur.ingest.problem.TableProblem;

/**
 * The text of a cell as JSON. What is no number where one is wanted stays text, so that it is
 * refused in the same words as in JSON.
 *
 * <p>A list in one cell has {@code ;} between its elements; the fields of an element stand in the
 * order of the contract with {@code =}, a space, or {@code /} between them, whichever of these
 * comes first in this order: {@code LOT-1=1200.5;LOT-2=300}, {@code 10.1 52.3;10.2 52.3}, {@code
 * 100/93;100/95}.
 */
final class CsvCell {

  private static final JsonNodeFactory NODES = JsonNodeFactory.instance;
  private static final Pattern WHOLE = Pattern.compile("[+-]?\\d{1,18}");
  private static final Pattern DECIMAL =
      Pattern.compile("[+-]?(?:\\d{1,40}(?:\\.\\d{0,40})?|\\.\\d{1,40})(?:[eE][+-]?\\d{1,3})?");

  private CsvCell() {}

  static JsonNode read(Schema schema, String cell, String path, Problems problems) {
    return switch (schema.getType()) {
      case ARRAY -> list(schema.getElementType(), cell, path, problems);
      case RECORD -> element(schema, cell, path, problems);
      default -> value(schema, cell);
    };
  }

  private static JsonNode list(Schema elements, String cell, String path, Problems problems) {
    ArrayNode list = NODES.arrayNode();
    for (String part : cell.split(";", 0)) {
      list.add(read(elements, part.strip(), path + "[" + list.size() + "]", problems));
    }
    return list;
  }

  private static JsonNode element(Schema schema, String text, String path, Problems problems) {
    List<Schema.Field> fields = schema.getFields();
    String[] parts = text.split(separatorIn(text), -1);
    if (parts.length != fields.size()) {
      problems.add(
          path,
          text,
          new TableProblem.ElementIncomplete(fields.stream().map(Schema.Field::name).toList()));
      return NODES.nullNode();
    }
    ObjectNode object = NODES.objectNode();
    for (Schema.Field field : fields) {
      object.set(field.name(), value(field.schema(), parts[field.pos()].strip()));
    }
    return object;
  }

  private static String separatorIn(String text) {
    if (text.indexOf('=') >= 0) {
      return "=";
    }
    return text.indexOf(' ') >= 0 ? " +" : "/";
  }

  private static JsonNode value(Schema schema, String text) {
    boolean number =
        schema.getLogicalType() == null
            && (schema.getType() == Schema.Type.INT || schema.getType() == Schema.Type.DOUBLE);
    if (number && WHOLE.matcher(text).matches()) {
      return NODES.numberNode(Long.parseLong(text));
    }
    if (number && DECIMAL.matcher(text).matches()) {
      return NODES.numberNode(new BigDecimal(text));
    }
    if (schema.getType() == Schema.Type.BOOLEAN) {
      String word = text.toLowerCase(Locale.ROOT);
      if (word.equals("true") || word.equals("false")) {
        return NODES.booleanNode(word.equals("true"));
      }
    }
    return NODES.textNode(text);
  }
}
