package org.kornspur.processors.standards;

import java.time.LocalDate;

/**
 * One limit of a rulebook, with where it stands written.
 *
 * @param quantity what is limited
 * @param sense whether the value must be at least or at most the limit
 * @param value the limit, in {@code unit}
 * @param unit unit of the limit
 * @param rulebookId rulebook that it stands in
 * @param edition edition of that rulebook
 * @param section section of the text
 * @param inForceFrom first day on which it held
 * @param verified false where the value is from memory or could not be read in the text itself
 */
public record Limit(
    Quantity quantity,
    Sense sense,
    double value,
    String unit,
    String rulebookId,
    String edition,
    String section,
    LocalDate inForceFrom,
    boolean verified) {

  /** Which side of the limit is good. */
  public enum Sense {
    AT_LEAST,
    AT_MOST
  }

  /** Room left to the limit; negative where it is broken. */
  public double margin(double measured) {
    return switch (sense) {
      case AT_LEAST -> measured - value;
      case AT_MOST -> value - measured;
    };
  }

  /** Whether the value lies within the limit; the limit itself is within. */
  public boolean holds(double measured) {
    return margin(measured) >= 0;
  }
}
