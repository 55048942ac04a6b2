package org.kornspur.processors.standards;

import java.time.LocalDate;
import java.util.Optional;

/**
 * Where a book says, or by all that is known of it leaves open, that it asks for nothing. It is
 * shown beside a standing and never counts as met.
 *
 * @param rulebookId rulebook that says so
 * @param edition edition of that rulebook
 * @param text title of the text
 * @param section section of the text; for common practice the note
 * @param inForceFrom first day on which it held
 * @param inForceTo last day on which it held; empty while it holds
 * @param verified false where it is from memory or could not be read in the text itself
 * @param note what a reader should know of it; empty where nothing
 */
public record NothingAsked(
    String rulebookId,
    String edition,
    String text,
    String section,
    LocalDate inForceFrom,
    Optional<LocalDate> inForceTo,
    boolean verified,
    String note)
    implements RulebookSource {

  /** The same, where it is not certain that the text speaks of it here. */
  NothingAsked unverified() {
    return new NothingAsked(
        rulebookId, edition, text, section, inForceFrom, inForceTo, false, note);
  }

  boolean holds(LocalDate on) {
    return !on.isBefore(inForceFrom) && inForceTo.map(last -> !on.isAfter(last)).orElse(true);
  }
}
