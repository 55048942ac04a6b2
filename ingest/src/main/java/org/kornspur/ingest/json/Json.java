package org.kornspur.ingest.json;

import com.fasterxml.jackson.databind.JsonNode;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.temporal.ChronoUnit;
import java.util.Optional;
import org.apache.avro.LogicalType;
import org.apache.avro.LogicalTypes;
import org.apache.avro.Schema;
import org.apache.avro.specific.SpecificData;
import org.kornspur.ingest.intake.Counted;
import org.kornspur.ingest.intake.Problem;

/** Single JSON values: how they are read by schema, and how they are spoken of in messages. */
final class Json {

  private Json() {}

  /** The value in Avro's Java form, or nothing where the JSON is of another kind. */
  static Optional<Object> value(Schema schema, JsonNode json) {
    if (json == null) {
      return Optional.empty();
    }
    LogicalType logical = schema.getLogicalType();
    if (logical instanceof LogicalTypes.TimestampMillis) {
      return instant(json);
    }
    if (logical instanceof LogicalTypes.Date) {
      return day(json);
    }
    return switch (schema.getType()) {
      case INT -> wholeNumber(json);
      case DOUBLE -> decimalNumber(json);
      case BOOLEAN -> json.isBoolean() ? Optional.of(json.booleanValue()) : Optional.empty();
      case STRING -> json.isTextual() ? Optional.of(json.textValue()) : Optional.empty();
      case ENUM ->
          json.isTextual() && schema.hasEnumSymbol(json.textValue())
              ? Optional.of(SpecificData.get().createEnum(json.textValue(), schema))
              : Optional.empty();
      default ->
          throw new IllegalStateException(
              "The contract holds a " + schema.getType() + ", which facts in JSON do not know");
    };
  }

  /** What is wanted, in words. */
  static String expectation(Schema schema) {
    LogicalType logical = schema.getLogicalType();
    if (logical instanceof LogicalTypes.TimestampMillis) {
      return "an instant in ISO 8601 with zone, as 2024-06-11T09:30:00+02:00";
    }
    if (logical instanceof LogicalTypes.Date) {
      return "a date in ISO 8601, as 2024-06-11";
    }
    String unit = schema.getProp("unit");
    String of = unit == null ? "" : " (" + unit + ")";
    return switch (schema.getType()) {
      case INT -> "a whole number below 2147483648" + of;
      case DOUBLE -> "a number" + of;
      case BOOLEAN -> "true or false";
      case STRING ->
          schema.getProp("names") == null ? "text" : "the id of a " + schema.getProp("names");
      case ENUM -> "one of " + String.join(", ", schema.getEnumSymbols());
      default -> schema.getType().getName();
    };
  }

  static String remedy(Schema schema) {
    String remedy = schema.getProp("remedy");
    if (remedy != null) {
      return remedy + "; a number without quotes, with a decimal point where it has a fraction";
    }
    return switch (schema.getType()) {
      case INT, DOUBLE ->
          schema.getLogicalType() == null
              ? "Give a number without quotes, with a decimal point where it has a fraction"
              : "Give year, month and day in this order";
      case LONG -> "Give date, time and zone; a time without zone is ambiguous";
      case ENUM -> "Choose one of these, with its capitals";
      default -> "Mend the value";
    };
  }

  /** A value for a message: text in quotes, other single values as they are, the rest by kind. */
  static String shown(JsonNode json) {
    if (json != null && json.isTextual()) {
      return Problem.shown(json.textValue());
    }
    return Problem.described(json != null && json.isNumber() ? number(json) : kindOf(json));
  }

  /** What kind of JSON this is, in words that are short however large it is. */
  static String kindOf(JsonNode json) {
    if (json == null || json.isMissingNode()) {
      return "absent";
    }
    return switch (json.getNodeType()) {
      case OBJECT -> "an object of " + Counted.of(json.size(), "field(s)");
      case ARRAY -> "a list of " + Counted.of(json.size(), "element(s)");
      case STRING -> "text";
      case NUMBER -> "the number " + number(json);
      case BOOLEAN -> json.booleanValue() ? "true" : "false";
      case NULL -> "null";
      default -> "something that is no JSON";
    };
  }

  private static String number(JsonNode json) {
    return json.isBigInteger() || json.isBigDecimal()
        ? Double.toString(json.doubleValue())
        : json.asText();
  }

  private static Optional<Object> wholeNumber(JsonNode json) {
    if (!json.isNumber()) {
      return Optional.empty();
    }
    double number = json.doubleValue();
    boolean fits =
        Math.rint(number) == number && number >= Integer.MIN_VALUE && number <= Integer.MAX_VALUE;
    return fits ? Optional.of((int) number) : Optional.empty();
  }

  private static Optional<Object> decimalNumber(JsonNode json) {
    return json.isNumber() && Double.isFinite(json.doubleValue())
        ? Optional.of(json.doubleValue())
        : Optional.empty();
  }

  private static Optional<Object> instant(JsonNode json) {
    if (!json.isTextual()) {
      return Optional.empty();
    }
    try {
      Instant instant = OffsetDateTime.parse(json.textValue()).toInstant();
      return Optional.of(instant.truncatedTo(ChronoUnit.MILLIS));
    } catch (DateTimeException e) {
      return Optional.empty();
    }
  }

  private static Optional<Object> day(JsonNode json) {
    if (!json.isTextual()) {
      return Optional.empty();
    }
    try {
      return Optional.of(LocalDate.parse(json.textValue()));
    } catch (DateTimeException e) {
      return Optional.empty();
    }
  }
}
