package org.kornspur.api.query.search;

import org.kornspur.api.readmodel.StandingIndexRow;

/**
 * A crop or lot that a search found.
 *
 * @param text what matched, as it was written
 */
public record SearchHit(StandingIndexRow row, By by, String text) {

  /** By what a crop or lot was found; the first is the nearest. */
  public enum By {
    ID,
    FIELD,
    SAMPLE,
    PLOT,
    LABEL,
    /** The hybrid or component that it is. */
    SEED,
    HOLDER,
    CUSTOMER,
    DOCUMENT,
    /** Who recorded a fact of it. */
    PERSON,
    /** The id of a fact that names it. */
    FACT
  }
}
