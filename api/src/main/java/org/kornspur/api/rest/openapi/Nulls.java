package org.kornspur.api.rest.openapi;

import java.util.ArrayList;
import java.util.List;
import org.eclipse.microprofile.openapi.OASFactory;
import org.eclipse.microprofile.openapi.models.media.Schema;
import org.eclipse.microprofile.openapi.models.media.Schema.SchemaType;

/**
 * What may be null. In JSON Schema 2020-12 a reference beside {@code "type": ["object", "null"]}
 * allows no null, nor does an enumeration without one; annotations make both.
 */
final class Nulls {
  private Nulls() {}

  /** The same, or null. */
  static Schema allow(Schema schema) {
    if (schema.getRef() == null) {
      schema.addType(SchemaType.NULL);
    }
    return schema.getRef() == null ? mend(schema) : orNull(schema);
  }

  /** With what its types say of null said where it counts, and of a reference nothing twice. */
  static Schema mend(Schema schema) {
    List<SchemaType> types = schema.getType() == null ? List.of() : schema.getType();
    boolean mayBeNull = types.contains(SchemaType.NULL);
    if (schema.getRef() != null || schema.getAnyOf() != null) {
      schema.setType(null);
      schema.setEnumeration(null);
      return mayBeNull && schema.getRef() != null ? orNull(schema) : schema;
    }
    if (mayBeNull && schema.getEnumeration() != null && !schema.getEnumeration().contains(null)) {
      List<Object> values = new ArrayList<>(schema.getEnumeration());
      values.add(null);
      schema.setEnumeration(values);
    }
    return schema;
  }

  private static Schema orNull(Schema reference) {
    Schema either = OASFactory.createSchema().description(reference.getDescription());
    return either
        .addAnyOf(OASFactory.createSchema().ref(reference.getRef()))
        .addAnyOf(OASFactory.createSchema().addType(SchemaType.NULL));
  }
}
