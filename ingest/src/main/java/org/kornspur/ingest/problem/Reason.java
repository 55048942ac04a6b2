package org.kornspur.ingest.problem;

import org.kornspur.ingest.statement.Statement;

/**
 * Why a value is refused. Each kind has two texts: {@code limit}, what is expected instead, and
 * {@code remedy}, what to do about it.
 */
public interface Reason extends Statement {
  /** Ends the key of the text that says what is expected. */
  String LIMIT = ".limit";

  /** Ends the key of the text that says what to do. */
  String REMEDY = ".remedy";
}
