package org.kornspur.ingest.contract;

import org.apache.avro.Schema;

/**
 * Where a value stands in a fact.
 *
 * @param path as in {@code sown[1].massKg}; empty for the fact itself
 * @param type the record of the contract that has the field
 * @param field the name of the field; the list, for its elements
 */
public record FieldPath(String path, String type, String field) {

  /** The fact itself. */
  public static final FieldPath FACT = new FieldPath("", "", "");

  /** A field of the record that stands here. */
  public FieldPath to(Schema record, String name) {
    return new FieldPath(path.isEmpty() ? name : path + "." + name, record.getName(), name);
  }

  /** An element of the list that stands here. */
  public FieldPath element(int index) {
    return new FieldPath(path + "[" + index + "]", type, field);
  }
}
