package org.kornspur.api.web.fieldbook;

import org.kornspur.api.web.form.FactForm;
import org.kornspur.ingest.contract.FactType;

/** A form of the field book. */
public enum FieldBookForm implements FactForm {
  INSPECTION(FactType.FIELD_INSPECTION),
  STERILITY_CHECK(FactType.STERILITY_CHECK),
  POLLEN_SOURCE(FactType.POLLEN_SOURCE_SEEN),
  SOWING(FactType.SOWING),
  HARVEST(FactType.HARVEST);

  private final FactType type;

  FieldBookForm(FactType type) {
    this.type = type;
  }

  @Override
  public FactType type() {
    return type;
  }

  /** Whether plants are counted for it, so that a plan says when to stop. */
  public boolean isCounting() {
    return this == INSPECTION || this == STERILITY_CHECK;
  }
}
