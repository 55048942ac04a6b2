package org.kornspur.processors.standards;

import java.time.LocalDate;
import java.util.Optional;
import org.kornspur.contract.Category;

/**
 * That what a book asks of one category holds for another too, as what holds for basic seed may
 * hold for pre-basic seed.
 *
 * @param category category that the book has no lines of its own for
 * @param as category whose lines hold for it
 * @param source where the book says so
 */
public record CategorySubstitution(Category category, Category as, Source source) {

  /**
   * Where it stands.
   *
   * @param verified false where it is from memory or could not be read in the text itself
   */
  public record Source(
      String rulebookId,
      String edition,
      String text,
      String section,
      LocalDate inForceFrom,
      boolean verified)
      implements RulebookSource {
    @Override
    public Optional<LocalDate> inForceTo() {
      return Optional.empty();
    }
  }

  boolean holds(Category asked, LocalDate on) {
    return category == asked && !on.isBefore(source.inForceFrom());
  }
}
