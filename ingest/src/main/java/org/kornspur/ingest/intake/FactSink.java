package org.kornspur.ingest.intake;

import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.QuarantineEntry;

/** Where inputs go once they have been read and checked. */
public interface FactSink {

  /** Takes a fact that is in order. */
  void accept(SpecificRecord fact);

  /** Takes an input that was refused. */
  void refuse(QuarantineEntry entry);
}
