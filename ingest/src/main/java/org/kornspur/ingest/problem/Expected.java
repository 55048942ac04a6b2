package org.kornspur.ingest.problem;

import java.util.List;
import org.apache.avro.LogicalType;
import org.apache.avro.LogicalTypes;
import org.apache.avro.Schema;
import org.kornspur.ingest.statement.Statement;

/** What a value of the contract looks like in JSON. */
public sealed interface Expected extends Statement {
  record Time() implements Expected {}

  record Day() implements Expected {}

  record WholeNumber() implements Expected {}

  record Decimal() implements Expected {}

  record TrueOrFalse() implements Expected {}

  record Text() implements Expected {}

  record Id(String names) implements Expected {}

  record OneOf(List<String> values) implements Expected {}

  record ObjectWith(List<String> fields) implements Expected {}

  record Elements() implements Expected {}

  /** What the contract asks for at a place of this schema. */
  static Expected of(Schema schema) {
    LogicalType logical = schema.getLogicalType();
    if (logical instanceof LogicalTypes.TimestampMillis) {
      return new Time();
    } else if (logical instanceof LogicalTypes.Date) {
      return new Day();
    }
    return switch (schema.getType()) {
      case RECORD -> new ObjectWith(schema.getFields().stream().map(Schema.Field::name).toList());
      case ARRAY -> new Elements();
      case INT -> new WholeNumber();
      case DOUBLE -> new Decimal();
      case BOOLEAN -> new TrueOrFalse();
      case STRING -> schema.getProp("names") == null ? new Text() : new Id(schema.getProp("names"));
      case ENUM -> new OneOf(schema.getEnumSymbols());
      default ->
          throw new IllegalArgumentException(
              "The contract holds a " + schema.getType() + ", which facts in JSON do not know");
    };
  }
}
