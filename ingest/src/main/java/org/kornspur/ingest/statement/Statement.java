package org.kornspur.ingest.statement;

/**
 * Something that the program says, as data. Each kind is a record; its components are what is said,
 * and their types are those that {@link Value#of} knows. Kinds that belong together are nested in a
 * sealed interface.
 */
public interface Statement {

  /** The form in which it is stored, sealed and sent. */
  default Coded coded() {
    return Coded.of(this);
  }
}
