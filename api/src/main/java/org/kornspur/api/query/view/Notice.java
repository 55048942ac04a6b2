package org.kornspur.api.query.view;

import org.kornspur.ingest.statement.Statement;

/** What an answer says beside its data. */
public sealed interface Notice extends Statement {

  /** An address of the index. */
  enum Listed {
    LOTS,
    CROPS,
    OWED,
    QUARANTINE,
    CHANGES,
    HYBRIDS,
    RULEBOOKS,
    FACT_TYPES,
    CALIBRATION,
    PROBLEMS,
    OPENAPI,
    HEALTH,
    METRICS
  }

  record Place(Listed listed) implements Notice {}

  /** The rest of a fact is not shown. */
  record Cut() implements Notice {}

  record KeepCheckpoints() implements Notice {}
}
