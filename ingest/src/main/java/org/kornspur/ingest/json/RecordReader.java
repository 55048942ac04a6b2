package org.kornspur.ingest.json;

import static org.kornspur.ingest.intake.FieldLimits.join;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Optional;
import org.apache.avro.Schema;
import org.apache.avro.specific.SpecificData;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.ingest.intake.FieldLimits;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.intake.Problems;

/**
 * Builds records from JSON as a schema says. It walks the schema, not the input, so that a deep or
 * foreign input cannot lead it anywhere.
 */
final class RecordReader {

  /** Looks at each single value that could be read. */
  interface ValueCheck {
    void check(Schema schema, Object value, String path, Problems problems);
  }

  private final Problems problems;
  private final ValueCheck check;

  RecordReader(Problems problems, ValueCheck check) {
    this.problems = problems;
    this.check = check;
  }

  /** The fact, or nothing where any problem was noted. */
  Optional<SpecificRecord> readFact(Schema schema, JsonNode json) {
    Object fact = readRecord(schema, json, "");
    return problems.none() ? Optional.of((SpecificRecord) fact) : Optional.empty();
  }

  /** The value in Avro's Java form; meaningless where a problem was noted. */
  private Object read(Schema schema, JsonNode json, String path) {
    return switch (schema.getType()) {
      case UNION -> isAbsent(json) ? null : read(FieldLimits.branchOf(schema), json, path);
      case RECORD -> readRecord(schema, json, path);
      case ARRAY -> readList(schema, json, path);
      default -> readValue(schema, json, path);
    };
  }

  private Object readRecord(Schema schema, JsonNode json, String path) {
    if (json == null || !json.isObject()) {
      problems.addDescribed(
          path,
          Json.kindOf(json),
          "an object with " + fieldNames(schema),
          "Give the fields by name");
      return null;
    }
    int before = problems.count();
    refuseUnknownFields(schema, json, path);
    Object[] values = new Object[schema.getFields().size()];
    for (Schema.Field field : schema.getFields()) {
      values[field.pos()] = readField(field, json.get(field.name()), join(path, field.name()));
    }
    return problems.count() == before ? build(schema, values) : null;
  }

  private Object readField(Schema.Field field, JsonNode json, String path) {
    if (json == null && field.hasDefaultValue()) {
      Object value = SpecificData.get().getDefaultValue(field);
      return value instanceof List<?> list ? new ArrayList<>(list) : value;
    }
    if (isAbsent(json) && field.schema().getType() != Schema.Type.UNION) {
      problems.addDescribed(
          path, Json.kindOf(json), expectation(field.schema()), "Fill it in; it is not optional");
      return null;
    }
    return read(field.schema(), json, path);
  }

  private void refuseUnknownFields(Schema schema, JsonNode json, String path) {
    Iterator<String> names = json.fieldNames();
    while (names.hasNext()) {
      String name = names.next();
      boolean isType = path.isEmpty() && name.equals(FactJson.TYPE_FIELD);
      if (!isType && schema.getField(name) == null) {
        problems.addDescribed(
            path,
            "the field '" + name + "'",
            "a field of " + schema.getName() + ": " + fieldNames(schema),
            "Mend the name of the field, or leave it out");
      }
    }
  }

  private Object readList(Schema schema, JsonNode json, String path) {
    if (json == null || !json.isArray()) {
      problems.addDescribed(path, Json.kindOf(json), "a list", "Give a list, even of one element");
      return null;
    }
    FieldLimits.checkSize(schema, json.size(), path, problems);
    if (json.size() > FieldLimits.most(schema)) {
      return null;
    }
    List<Object> elements = new ArrayList<>(json.size());
    for (int index = 0; index < json.size(); index++) {
      elements.add(read(schema.getElementType(), json.get(index), path + "[" + index + "]"));
    }
    return elements;
  }

  private Object readValue(Schema schema, JsonNode json, String path) {
    Optional<Object> value = Json.value(schema, json);
    if (value.isEmpty()) {
      problems.add(new Problem(path, Json.shown(json), expectation(schema), Json.remedy(schema)));
      return null;
    }
    check.check(schema, value.get(), path, problems);
    return value.get();
  }

  private static Object build(Schema schema, Object[] values) {
    SpecificRecord built = (SpecificRecord) SpecificData.get().newRecord(null, schema);
    for (int position = 0; position < values.length; position++) {
      built.put(position, values[position]);
    }
    return built;
  }

  private static boolean isAbsent(JsonNode json) {
    return json == null || json.isNull();
  }

  private static String expectation(Schema schema) {
    return switch (schema.getType()) {
      case RECORD -> "an object with " + fieldNames(schema);
      case ARRAY -> "a list";
      default -> Json.expectation(schema);
    };
  }

  private static String fieldNames(Schema schema) {
    return String.join(", ", schema.getFields().stream().map(Schema.Field::name).toList());
  }
}
