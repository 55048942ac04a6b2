package org.kornspur.api.rest.openapi;

import java.math.BigDecimal;
import java.util.Arrays;
import java.util.List;
import java.util.function.Predicate;
import org.apache.avro.LogicalTypes;
import org.eclipse.microprofile.openapi.OASFactory;
import org.eclipse.microprofile.openapi.models.Components;
import org.eclipse.microprofile.openapi.models.media.Schema;
import org.eclipse.microprofile.openapi.models.media.Schema.SchemaType;
import org.kornspur.contract.FactHeader;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.intake.FieldLimits;
import org.kornspur.ingest.json.FactJson;

/**
 * Each type of fact as a schema, read from the contract itself: what may be sent in, and the shape
 * in which it is shown.
 */
final class FactSchemas {

  /** A fact that may be sent in. */
  static final String FACT = "Fact";

  /** A fact as a dossier shows it, the acts of persons among them. */
  static final String RECORDED = "RecordedFact";

  private static final String FIELD = "fact";
  private static final int MOST = 10_000;
  private static final String HEADER = FactHeader.class.getSimpleName();

  private FactSchemas() {}

  static void addTo(Components components) {
    components.addSchema(HEADER, record(FactHeader.getClassSchema()));
    for (FactType type : FactType.values()) {
      components.addSchema(type.contractName(), fact(type));
    }
    components.addSchema(FACT, oneOf(type -> !type.isAct()).description("A fact, by its type"));
    components.addSchema(
        "Facts",
        OASFactory.createSchema()
            .addOneOf(References.schema(FACT))
            .addOneOf(of(SchemaType.ARRAY).items(References.schema(FACT)).maxItems(MOST))
            .description("One fact, or a list of facts"));
    components.addSchema(
        RECORDED,
        oneOf(type -> true)
            .addOneOf(cut())
            .description(
                "A fact, or the act of a person, with every field; cut where it reaches beyond what"
                    + " the caller may see"));
    refer(components);
  }

  /** The fields that hold a fact in the answers, whose class is any JSON. */
  private static void refer(Components components) {
    Schema shown = components.getSchemas().get("FactView");
    shown.addProperty(FIELD, recorded(shown));
    Schema other = components.getSchemas().get("SupersededView");
    other.addProperty(FIELD, Nulls.allow(recorded(other)));
  }

  private static Schema recorded(Schema holder) {
    return References.schema(RECORDED)
        .description(holder.getProperties().get(FIELD).getDescription());
  }

  private static Schema fact(FactType type) {
    Schema fact = record(type.schema());
    Schema name = OASFactory.createSchema().addType(SchemaType.STRING);
    name.setConstValue(type.contractName());
    return fact.addProperty(FactJson.TYPE_FIELD, name).addRequired(FactJson.TYPE_FIELD);
  }

  private static Schema oneOf(Predicate<FactType> which) {
    Schema any = OASFactory.createSchema();
    Arrays.stream(FactType.values())
        .filter(which)
        .forEach(type -> any.addOneOf(References.schema(type.contractName())));
    return any;
  }

  private static Schema cut() {
    Schema text = OASFactory.createSchema().addType(SchemaType.STRING);
    return OASFactory.createSchema()
        .addType(SchemaType.OBJECT)
        .title("CutFact")
        .addProperty(FactJson.TYPE_FIELD, text)
        .addProperty("happenedAt", instant())
        .addProperty("cut", text)
        .required(List.of(FactJson.TYPE_FIELD, "happenedAt", "cut"))
        .additionalPropertiesBoolean(false);
  }

  private static Schema record(org.apache.avro.Schema record) {
    Schema object =
        OASFactory.createSchema()
            .addType(SchemaType.OBJECT)
            .description(record.getDoc())
            .additionalPropertiesBoolean(false);
    for (org.apache.avro.Schema.Field field : record.getFields()) {
      if (field.name().equals(FactJson.SUBMISSION_FIELD)) {
        continue; // the server's word, and no part of what is sent or shown
      }
      object.addProperty(field.name(), field(field));
      if (!isUnion(field.schema()) && !field.hasDefaultValue()) {
        object.addRequired(field.name());
      }
    }
    return object;
  }

  private static Schema field(org.apache.avro.Schema.Field field) {
    org.apache.avro.Schema type = FieldLimits.branchOf(field.schema());
    Schema value = value(type);
    String unit = type.getProp("unit");
    String doc = field.doc() == null ? "" : field.doc();
    String description = unit == null ? doc : (doc + " In " + unit + ".").strip();
    if (!description.isEmpty()) {
      value.description(description);
    }
    return isUnion(field.schema()) ? Nulls.allow(value) : value;
  }

  private static boolean isUnion(org.apache.avro.Schema schema) {
    return schema.getType() == org.apache.avro.Schema.Type.UNION;
  }

  private static Schema value(org.apache.avro.Schema type) {
    if (type.getLogicalType() instanceof LogicalTypes.TimestampMillis) {
      return instant();
    }
    if (type.getLogicalType() instanceof LogicalTypes.Date) {
      return of(SchemaType.STRING).format("date");
    }
    return switch (type.getType()) {
      case RECORD -> type.getName().equals(HEADER) ? References.schema(HEADER) : record(type);
      case ARRAY -> list(type);
      case ENUM -> of(SchemaType.STRING).enumeration(List.copyOf(type.getEnumSymbols()));
      case INT, LONG -> number(type, SchemaType.INTEGER);
      case DOUBLE, FLOAT -> number(type, SchemaType.NUMBER);
      case BOOLEAN -> of(SchemaType.BOOLEAN);
      case STRING -> of(SchemaType.STRING);
      case BYTES -> bytes();
      case FIXED, MAP, UNION, NULL ->
          throw new IllegalStateException("The contract holds a " + type.getType());
    };
  }

  private static Schema list(org.apache.avro.Schema type) {
    Schema list = of(SchemaType.ARRAY).items(value(FieldLimits.branchOf(type.getElementType())));
    if (type.getObjectProp("minItems") instanceof Number least) {
      list.minItems(least.intValue());
    }
    return list.maxItems(FieldLimits.most(type));
  }

  private static Schema number(org.apache.avro.Schema type, SchemaType kind) {
    Schema number = of(kind);
    if (type.getObjectProp("min") instanceof Number least) {
      number.minimum(new BigDecimal(least.toString()));
    }
    if (type.getObjectProp("max") instanceof Number most) {
      number.maximum(new BigDecimal(most.toString()));
    }
    return number;
  }

  private static Schema bytes() {
    Schema text = of(SchemaType.STRING);
    text.setContentEncoding("base64");
    return text;
  }

  private static Schema instant() {
    return of(SchemaType.STRING).format("date-time");
  }

  private static Schema of(SchemaType type) {
    return OASFactory.createSchema().addType(type);
  }
}
