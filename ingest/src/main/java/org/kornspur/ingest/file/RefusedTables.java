package org.kornspur.ingest.file;

import java.io.IOException;
import java.util.List;

/** Where refused rows of tables go, so that people can mend them. */
@FunctionalInterface
public interface RefusedTables {
  /** Most refused rows of a table; one with more has one fault in all of them. */
  int MOST_ROWS = 20_000;

  /** Keeps none: the quarantine has them, and the report. */
  RefusedTables NOWHERE = (name, form, rows) -> {};

  /**
   * Takes the refused rows of a table.
   *
   * @param name of its file, within the folder
   * @param rows empty where none was refused
   */
  void take(String name, DetectedTable form, List<RefusedRow> rows) throws IOException;
}
