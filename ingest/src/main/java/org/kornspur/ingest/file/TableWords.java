package org.kornspur.ingest.file;

import org.apache.avro.Schema;
import org.kornspur.ingest.contract.FactType;

/**
 * What people of one language call the kinds of facts, their fields and the choices in them. A
 * table may use the words of several languages.
 */
public interface TableWords {

  /** Name of a kind of fact, as a sheet or file is named. */
  String kind(FactType type);

  /** Name of a field, with its unit behind a comma where it has one, as in {@code Area, ha}. */
  String field(Schema record, String field);

  /**
   * Word for a constant of the contract.
   *
   * @param kind name of the enum; {@code Flag} for {@code true} and {@code false}
   */
  String choice(String kind, String constant);

  /** Name of a sheet that explains the others and holds no facts. */
  String helpSheet();

  /** Name of a column that says what is wrong with a row, and is not read. */
  String reasonColumn();

  /** What stands in the first cell of a row that only shows what a row looks like. */
  String exampleMark();
}
