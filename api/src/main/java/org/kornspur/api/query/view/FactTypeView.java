package org.kornspur.api.query.view;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.List;
import java.util.Optional;
import org.apache.avro.LogicalType;
import org.apache.avro.LogicalTypes;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.text.ReaderWords;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.intake.FieldLimits;
import org.kornspur.ingest.intake.ProblemWords;
import org.kornspur.ingest.json.FactJson;
import org.kornspur.ingest.problem.Remedy;

/** A type of fact as the contract has it, so that a form for it can be made. */
@Schema(description = "A type of fact as the contract has it, so that a form can be made of it")
public record FactTypeView(
    @Schema(description = "Value of the field type", examples = "GerminationTest") String type,
    String description,
    List<Field> fields) {

  /** What kind of value a field takes. */
  public enum Kind {
    TEXT,
    ID,
    WHOLE_NUMBER,
    NUMBER,
    FLAG,
    INSTANT,
    DATE,
    CHOICE,
    OBJECT,
    LIST
  }

  @Schema(description = "A field of a fact")
  @JsonInclude(JsonInclude.Include.NON_EMPTY)
  public record Field(
      @Schema(examples = "massKg") String name,
      Kind kind,
      String description,
      @Schema(description = "Whether it may be left out") boolean optional,
      @Schema(examples = "kg") String unit,
      @Schema(description = "Least value, included") Number min,
      @Schema(description = "Greatest value, included") Number max,
      @Schema(description = "Least value other than 0, where 0 is allowed") Number smallest,
      @Schema(description = "What to do when the value is refused") String remedy,
      @Schema(description = "What the id names", examples = "lot") String names,
      @Schema(description = "Least number of elements of a list") Number minItems,
      @Schema(description = "Values to choose from") List<String> choices,
      @Schema(description = "Fields of the object, or of each element of the list")
          List<Field> fields,
      @Schema(description = "Kind of the elements of a list that holds no objects")
          Kind elementKind) {}

  public static FactTypeView of(FactType type, ReaderWords words, ProblemWords remedies) {
    return new FactTypeView(
        type.contractName(),
        text(type.schema().getDoc(), words),
        fields(type.schema(), words, remedies));
  }

  /** What may be sent in; who brought a fact is written by the server alone. */
  private static List<Field> fields(
      org.apache.avro.Schema record, ReaderWords words, ProblemWords remedies) {
    return record.getFields().stream()
        .filter(field -> !field.name().equals(FactJson.SUBMISSION_FIELD))
        .map(field -> field(record, field, words, remedies))
        .toList();
  }

  private static Field field(
      org.apache.avro.Schema record,
      org.apache.avro.Schema.Field field,
      ReaderWords words,
      ProblemWords remedies) {
    boolean nullable = field.schema().getType() == org.apache.avro.Schema.Type.UNION;
    org.apache.avro.Schema schema = FieldLimits.branchOf(field.schema());
    Kind kind = kind(schema);
    Optional<org.apache.avro.Schema> element =
        kind == Kind.LIST ? Optional.of(schema.getElementType()) : Optional.empty();
    org.apache.avro.Schema inner = element.orElse(schema);
    return new Field(
        field.name(),
        kind,
        text(field.doc(), words),
        nullable || field.hasDefaultValue(),
        schema.getProp("unit"),
        number(schema, "min"),
        number(schema, "max"),
        number(schema, "smallest"),
        schema.getProp("remedy") == null
            ? null
            : remedies.plain(new Remedy(record.getName(), field.name())),
        inner.getProp("names"),
        number(schema, "minItems"),
        inner.getType() == org.apache.avro.Schema.Type.ENUM ? inner.getEnumSymbols() : List.of(),
        inner.getType() == org.apache.avro.Schema.Type.RECORD
            ? fields(inner, words, remedies)
            : List.of(),
        element.map(FactTypeView::kind).filter(of -> of != Kind.OBJECT).orElse(null));
  }

  private static Kind kind(org.apache.avro.Schema schema) {
    LogicalType logical = schema.getLogicalType();
    if (logical instanceof LogicalTypes.TimestampMillis) {
      return Kind.INSTANT;
    }
    if (logical instanceof LogicalTypes.Date) {
      return Kind.DATE;
    }
    return switch (schema.getType()) {
      case RECORD -> Kind.OBJECT;
      case ARRAY -> Kind.LIST;
      case ENUM -> Kind.CHOICE;
      case INT, LONG -> Kind.WHOLE_NUMBER;
      case DOUBLE, FLOAT -> Kind.NUMBER;
      case BOOLEAN -> Kind.FLAG;
      case STRING -> schema.getProp("names") == null ? Kind.TEXT : Kind.ID;
      case BYTES, FIXED, MAP, UNION, NULL ->
          throw new IllegalStateException(
              "The contract holds a " + schema.getType() + ", which no form can ask for");
    };
  }

  private static Number number(org.apache.avro.Schema schema, String property) {
    return schema.getObjectProp(property) instanceof Number number ? number : null;
  }

  private static String text(String doc, ReaderWords words) {
    return doc == null ? "" : words.bundled(doc);
  }
}
