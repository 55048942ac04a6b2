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
import org.kornspur.ingest.contract.FieldPath;
import org.kornspur.ingest.problem.Expected;
import org.kornspur.ingest.problem.Given;
import org.kornspur.ingest.problem.Reason;
import org.kornspur.ingest.problem.Remedy;
import org.kornspur.ingest.problem.ValueProblem;
import org.kornspur.ingest.statement.Value.Amount;

/** Single JSON values: how they are read by schema, and how problems describe them. */
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

  /** Why JSON is refused that gives no value of the schema. */
  static Reason reason(Schema schema, FieldPath at) {
    Expected expected = Expected.of(schema);
    if (expected instanceof Expected.WholeNumber || expected instanceof Expected.Decimal) {
      return new ValueProblem.NoNumber(expected, new Remedy(at.type(), at.field()));
    } else if (expected instanceof Expected.Day) {
      return new ValueProblem.NoDay(expected);
    } else if (expected instanceof Expected.Time) {
      return new ValueProblem.NoTime(expected);
    }
    return expected instanceof Expected.OneOf
        ? new ValueProblem.OtherChoice(expected)
        : new ValueProblem.OtherValue(expected);
  }

  /** What JSON this is, in a form that is short however large it is. */
  static Given given(JsonNode json) {
    if (json == null || json.isMissingNode()) {
      return new Given.Absent();
    }
    return switch (json.getNodeType()) {
      case OBJECT -> new Given.ObjectOf(json.size());
      case ARRAY -> new Given.ListOf(json.size());
      case STRING -> Given.text(json.textValue(), false);
      case NUMBER -> new Given.Figure(new Amount(json.doubleValue(), ""));
      default -> new Given.Literal(json.asText());
    };
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
