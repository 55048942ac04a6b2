package org.kornspur.api.query.view;

import org.kornspur.api.text.Addresses;
import org.kornspur.ingest.statement.Statement;

/** What an answer says beside its data. */
public sealed interface Notice extends Statement {

  /** An address of the index. */
  enum Listed {
    LOTS(Addresses.ROOT + "/lots"),
    CROPS(Addresses.ROOT + "/crops"),
    OWED(Addresses.ROOT + "/owed"),
    QUARANTINE(Addresses.ROOT + "/quarantine"),
    CHANGES(Addresses.ROOT + "/changes"),
    HYBRIDS(Addresses.ROOT + "/hybrids"),
    RULEBOOKS(Addresses.ROOT + "/rulebooks"),
    FACT_TYPES(Addresses.ROOT + "/fact-types"),
    CALIBRATION(Addresses.ROOT + "/advice/calibration"),
    PROBLEMS("/problems"),
    OPENAPI("/openapi"),
    HEALTH("/health"),
    METRICS("/metrics");

    private final String href;

    Listed(String href) {
      this.href = href;
    }

    public String href() {
      return href;
    }
  }

  record Place(Listed listed) implements Notice {}

  /** The rest of a fact is not shown. */
  record Cut() implements Notice {}

  record KeepCheckpoints() implements Notice {}
}
