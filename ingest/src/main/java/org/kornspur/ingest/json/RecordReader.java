package org.kornspur.ingest.json;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Optional;
import org.apache.avro.Schema;
import org.apache.avro.specific.SpecificData;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.ingest.contract.FieldPath;
import org.kornspur.ingest.intake.FieldLimits;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.intake.Problems;
import org.kornspur.ingest.problem.Expected;
import org.kornspur.ingest.problem.Given;
import org.kornspur.ingest.problem.ValueProblem;

/**
 * Builds records from JSON as a schema says. It walks the schema, not the input, so that a deep or
 * foreign input cannot lead it anywhere.
 */
record RecordReader(Problems problems, ValueCheck check) {
  /** Looks at each single value that could be read. */
  interface ValueCheck {
    void check(Schema schema, Object value, FieldPath at, Problems problems);
  }

  /** The fact, or nothing where any problem was noted. */
  Optional<SpecificRecord> readFact(Schema schema, JsonNode json) {
    Object fact = readRecord(schema, json, FieldPath.FACT);
    return problems.none() ? Optional.of((SpecificRecord) fact) : Optional.empty();
  }

  /** The value in Avro's Java form; meaningless where a problem was noted. */
  private Object read(Schema schema, JsonNode json, FieldPath at) {
    return switch (schema.getType()) {
      case UNION -> isAbsent(json) ? null : read(FieldLimits.branchOf(schema), json, at);
      case RECORD -> readRecord(schema, json, at);
      case ARRAY -> readList(schema, json, at);
      default -> readValue(schema, json, at);
    };
  }

  private Object readRecord(Schema schema, JsonNode json, FieldPath at) {
    if (json == null || !json.isObject()) {
      problems.add(at.path(), Json.given(json), new ValueProblem.NoObject(Expected.of(schema)));
      return null;
    }
    int before = problems.count();
    refuseUnknownFields(schema, json, at);
    Object[] values = new Object[schema.getFields().size()];
    for (Schema.Field field : schema.getFields()) {
      values[field.pos()] = readField(field, json.get(field.name()), at.to(schema, field.name()));
    }
    return problems.count() == before ? build(schema, values) : null;
  }

  private Object readField(Schema.Field field, JsonNode json, FieldPath at) {
    if (json == null && field.hasDefaultValue()) {
      Object value = SpecificData.get().getDefaultValue(field);
      return value instanceof List<?> list ? new ArrayList<>(list) : value;
    }
    if (isAbsent(json) && field.schema().getType() != Schema.Type.UNION) {
      problems.add(
          at.path(), Json.given(json), new ValueProblem.Missing(Expected.of(field.schema())));
      return null;
    }
    return read(field.schema(), json, at);
  }

  private void refuseUnknownFields(Schema schema, JsonNode json, FieldPath at) {
    Iterator<String> names = json.fieldNames();
    while (names.hasNext()) {
      String name = names.next();
      boolean isType = at.path().isEmpty() && name.equals(FactJson.TYPE_FIELD);
      if (!isType && schema.getField(name) == null) {
        List<String> known = schema.getFields().stream().map(Schema.Field::name).toList();
        problems.add(
            at.path(),
            new Given.Field(Problem.described(name)),
            new ValueProblem.UnknownField(schema.getName(), known));
      }
    }
  }

  private Object readList(Schema schema, JsonNode json, FieldPath at) {
    if (json == null || !json.isArray()) {
      problems.add(at.path(), Json.given(json), new ValueProblem.NoList(Expected.of(schema)));
      return null;
    }
    FieldLimits.checkSize(schema, json.size(), at, problems);
    if (json.size() > FieldLimits.most(schema)) {
      return null;
    }
    List<Object> elements = new ArrayList<>(json.size());
    for (int index = 0; index < json.size(); index++) {
      elements.add(read(schema.getElementType(), json.get(index), at.element(index)));
    }
    return elements;
  }

  private Object readValue(Schema schema, JsonNode json, FieldPath at) {
    Optional<Object> value = Json.value(schema, json);
    if (value.isEmpty()) {
      problems.add(at.path(), Json.given(json), Json.reason(schema, at));
      return null;
    }
    check.check(schema, value.get(), at, problems);
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
}
