package org.kornspur.ingest.demo;

import java.math.BigDecimal;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.stream.Collectors;
import org.apache.avro.Schema;
import org.apache.avro.generic.IndexedRecord;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.Accreditation;
import org.kornspur.contract.GeoPoint;
import org.kornspur.contract.GerminationReplicate;
import org.kornspur.contract.LotMass;
import org.kornspur.contract.WeighedKernels;

/** A fact as the columns of one CSV line. */
final class FactText {
  private static final String HEADER = "header.";

  private FactText() {}

  /** Column by dotted path, the header's own without {@code header.}; absent values are empty. */
  static Map<String, String> columns(SpecificRecord fact) {
    Map<String, String> columns = new LinkedHashMap<>();
    collect("", fact.getSchema(), fact, columns);
    return columns;
  }

  /** A number without exponent and without a needless fraction. */
  static String number(double value) {
    BigDecimal plain = BigDecimal.valueOf(value).stripTrailingZeros();
    return plain.toPlainString();
  }

  private static void collect(
      String path, Schema schema, Object value, Map<String, String> columns) {
    Schema present = withoutNull(schema);
    if (present.getType() == Schema.Type.RECORD) {
      IndexedRecord branch = (IndexedRecord) value;
      for (Schema.Field field : present.getFields()) {
        String below = path.isEmpty() ? field.name() : path + "." + field.name();
        collect(below, field.schema(), branch == null ? null : branch.get(field.pos()), columns);
      }
    } else {
      columns.put(path.startsWith(HEADER) ? path.substring(HEADER.length()) : path, cell(value));
    }
  }

  private static Schema withoutNull(Schema schema) {
    return schema.getType() == Schema.Type.UNION
        ? schema.getTypes().stream()
            .filter(type -> type.getType() != Schema.Type.NULL)
            .findFirst()
            .orElseThrow()
        : schema;
  }

  private static String cell(Object value) {
    if (value == null) {
      return "";
    }
    if (value instanceof Double number) {
      return number(number);
    }
    if (value instanceof LotMass part) {
      return part.getLotId() + "=" + number(part.getMassKg());
    }
    if (value instanceof GerminationReplicate replicate) {
      return replicate.getSeeds() + "/" + replicate.getNormalSeedlings();
    }
    if (value instanceof WeighedKernels weighed) {
      return weighed.getKernels() + "/" + number(weighed.getMassG());
    }
    if (value instanceof Accreditation held) {
      return String.join(
          "=", cell(held.getTest()), cell(held.getValidFrom()), cell(held.getValidTo()));
    }
    if (value instanceof GeoPoint corner) {
      return number(corner.getLon()) + " " + number(corner.getLat());
    }
    if (value instanceof Collection<?> list) {
      return list.stream().map(FactText::cell).collect(Collectors.joining(";"));
    }
    return value.toString();
  }
}
