package org.kornspur.api.web.fieldbook;

import org.kornspur.ingest.contract.FactType;

/** A form of the field book. */
public enum BookForm implements FactForm {
  INSPECTION("inspection", FactType.FIELD_INSPECTION),
  STERILITY_CHECK("sterility-check", FactType.STERILITY_CHECK),
  POLLEN_SOURCE("pollen-source", FactType.POLLEN_SOURCE_SEEN),
  SOWING("sowing", FactType.SOWING),
  HARVEST("harvest", FactType.HARVEST);

  private final String path;
  private final FactType type;

  BookForm(String path, FactType type) {
    this.path = path;
    this.type = type;
  }

  @Override
  public String path() {
    return path;
  }

  @Override
  public FactType type() {
    return type;
  }
}
