package org.kornspur.api.page.fieldbook;

import java.util.Arrays;
import java.util.Optional;
import org.kornspur.ingest.contract.FactType;

/** A form of the field book; each makes one type of fact. */
public enum BookForm {
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

  /** Last part of its address. */
  public String path() {
    return path;
  }

  /** Type of the fact that it makes. */
  public FactType type() {
    return type;
  }

  /** The form with this last part of the address. */
  static Optional<BookForm> of(String path) {
    return Arrays.stream(values()).filter(form -> form.path.equals(path)).findFirst();
  }
}
