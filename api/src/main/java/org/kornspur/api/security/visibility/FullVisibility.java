package org.kornspur.api.security.visibility;

import org.apache.avro.specific.SpecificRecord;
import org.kornspur.ingest.contract.Subject;

/** Of quality and auditors: everything. */
record FullVisibility() implements Visibility {

  @Override
  public boolean isWhole() {
    return true;
  }

  @Override
  public boolean withholdsNames() {
    return false;
  }

  @Override
  public boolean sees(Subject subject) {
    return true;
  }

  @Override
  public boolean names(Subject subject) {
    return true;
  }

  @Override
  public boolean sees(SpecificRecord fact) {
    return true;
  }
}
