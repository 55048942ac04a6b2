package org.kornspur.ingest.json;

import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import org.apache.avro.LogicalTypes;
import org.apache.avro.Schema;
import org.apache.avro.specific.SpecificData;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.intake.FieldLimits;

/**
 * Makes facts of every type from their schemas: each value within its own limits, with no regard to
 * the ties between fields.
 */
public final class AnyFact {

  private AnyFact() {}

  /** Facts of all types. */
  public static Arbitrary<SpecificRecord> ofAnyType() {
    return Arbitraries.of(FactType.class).flatMap(AnyFact::of);
  }

  /** Facts of one type. */
  public static Arbitrary<SpecificRecord> of(FactType type) {
    return value(type.schema()).map(SpecificRecord.class::cast);
  }

  private static Arbitrary<Object> value(Schema schema) {
    return switch (schema.getType()) {
      case UNION -> value(FieldLimits.branchOf(schema)).injectNull(0.3);
      case RECORD -> branch(schema);
      case ARRAY ->
          value(schema.getElementType())
              .list()
              .ofMinSize(schema.getObjectProp("minItems") instanceof Number n ? n.intValue() : 0)
              .ofMaxSize(6)
              .map(Object.class::cast);
      case ENUM ->
          Arbitraries.of(schema.getEnumSymbols())
              .map(symbol -> SpecificData.get().createEnum(symbol, schema));
      case BOOLEAN -> Arbitraries.of(true, false).map(Object.class::cast);
      case STRING -> text(schema);
      case INT ->
          schema.getLogicalType() instanceof LogicalTypes.Date
              ? Arbitraries.integers()
                  .between(7305, 47846)
                  .map(day -> (Object) LocalDate.ofEpochDay(day))
              : Arbitraries.integers()
                  .between((int) limit(schema, "min", 0), (int) limit(schema, "max", 1000))
                  .map(Object.class::cast);
      case LONG ->
          Arbitraries.longs()
              .between(631_152_000_000L, 4_133_980_799_999L)
              .map(millis -> (Object) Instant.ofEpochMilli(millis));
      case DOUBLE ->
          Arbitraries.doubles()
              .between(limit(schema, "min", 0), limit(schema, "max", 1000))
              .ofScale(6)
              .filter(number -> number == 0 || number >= limit(schema, "smallest", -1e9))
              .map(Object.class::cast);
      default -> throw new IllegalStateException("No values of " + schema.getType());
    };
  }

  private static Arbitrary<Object> branch(Schema schema) {
    List<Arbitrary<Object>> fields = new ArrayList<>();
    schema
        .getFields()
        .forEach(
            field ->
                fields.add(
                    field.name().equals(FactJson.SUBMISSION_FIELD)
                        ? Arbitraries.just(null)
                        : value(field.schema())));
    return net.jqwik.api.Combinators.combine(fields)
        .as(
            values -> {
              SpecificRecord made = (SpecificRecord) SpecificData.get().newRecord(null, schema);
              for (int position = 0; position < values.size(); position++) {
                made.put(position, values.get(position));
              }
              return made;
            });
  }

  private static Arbitrary<Object> text(Schema schema) {
    return schema.getProp("names") != null
        ? Arbitraries.strings()
            .withChars("ABCxyz019")
            .ofMinLength(1)
            .ofMaxLength(12)
            .map(Object.class::cast)
        : Arbitraries.strings()
            .withChars("Weizen, \"äöü\"; Roggen=€/Жито")
            .ofMinLength(1)
            .ofMaxLength(40)
            .map(String::strip)
            .filter(text -> !text.isEmpty())
            .map(Object.class::cast);
  }

  private static double limit(Schema schema, String name, double otherwise) {
    return schema.getObjectProp(name) instanceof Number number ? number.doubleValue() : otherwise;
  }
}
