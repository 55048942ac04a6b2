package org.kornspur.api.web;

import java.nio.ByteBuffer;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Base64;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.apache.avro.Schema;
import org.apache.avro.generic.IndexedRecord;
import org.kornspur.api.query.RequestWords;
import org.kornspur.api.text.DomainTerms;
import org.kornspur.api.text.FieldLabels;
import org.kornspur.api.text.LocalFormat;
import org.kornspur.contract.GeoPoint;
import org.kornspur.ingest.intake.FieldLimits;

/** What a fact says, field by field, in the words of its reader. Numbers are not rounded. */
record FactValues(FieldLabels labels, DomainTerms terms, LocalFormat form) {
  private static final String HEADER = "header";

  /** More than a number of the contract has. */
  private static final int ALL_DECIMALS = 12;

  static FactValues of(RequestWords words) {
    return new FactValues(FieldLabels.in(words.language()), words.terms(), words.form());
  }

  /**
   * A field and its value.
   *
   * @param english whether the field has no name but that of the contract, as what the server wrote
   */
  record Shown(String field, boolean english, String value) {}

  /** All but the header and what is absent, by the path of each field. */
  Map<String, Shown> of(IndexedRecord fact) {
    Map<String, Shown> shown = new LinkedHashMap<>();
    fields(new Place("", "", false), fact, shown);
    return shown;
  }

  /**
   * Where a value stands in a fact.
   *
   * @param path in the contract's names
   * @param label the same in words
   */
  private record Place(String path, String label, boolean english) {
    Place within(String name, String named, boolean isEnglish) {
      return path.isEmpty()
          ? new Place(name, named, isEnglish)
          : new Place(path + "." + name, label + " · " + named, english || isEnglish);
    }

    Place element(int number) {
      return new Place(path + "[" + number + "]", label + " " + number, english);
    }
  }

  private void fields(Place at, IndexedRecord record, Map<String, Shown> shown) {
    for (Schema.Field field : record.getSchema().getFields()) {
      Object value = record.get(field.pos());
      if (value != null && !(at.path().isEmpty() && field.name().equals(HEADER))) {
        boolean isNamed = labels.has(record.getSchema(), field.name());
        String name = isNamed ? labels.of(record.getSchema(), field.name()) : field.name();
        value(at.within(field.name(), name, !isNamed), field.schema(), value, shown);
      }
    }
  }

  private void value(Place at, Schema schema, Object value, Map<String, Shown> shown) {
    Schema type = FieldLimits.branchOf(schema);
    if (value instanceof IndexedRecord record) {
      fields(at, record, shown);
    } else if (value instanceof Collection<?> elements && isParts(type)) {
      int number = 0;
      for (Object element : elements) {
        number++;
        value(at.element(number), type.getElementType(), element, shown);
      }
    } else {
      shown.put(at.path(), new Shown(at.label(), at.english(), written(type, value)));
    }
  }

  private static boolean isParts(Schema list) {
    Schema element = list.getElementType();
    return element.getType() == Schema.Type.RECORD
        && !element.getFullName().equals(GeoPoint.getClassSchema().getFullName());
  }

  private String written(Schema type, Object value) {
    if (value instanceof Collection<?> elements) {
      List<String> each =
          elements.stream().map(one -> written(type.getElementType(), one)).toList();
      return each.stream().collect(Collectors.joining(", "));
    }
    if (value instanceof GeoPoint corner) {
      return corner.getLon() + " " + corner.getLat();
    }
    if (value instanceof Double number) {
      return form.number(number, ALL_DECIMALS);
    }
    if (value instanceof Boolean flag) {
      return terms.choice("Flag", flag.toString());
    }
    if (value instanceof LocalDate day) {
      return form.day(day);
    }
    if (value instanceof Instant time) {
      return form.moment(time);
    }
    if (value instanceof ByteBuffer bytes) {
      return Base64.getEncoder().encodeToString(bytes(bytes.duplicate()));
    }
    return value instanceof Enum<?> constant
        ? terms.constant(type.getName(), constant.name())
        : value.toString();
  }

  private static byte[] bytes(ByteBuffer buffer) {
    byte[] bytes = new byte[buffer.remaining()];
    buffer.get(bytes);
    return bytes;
  }
}
