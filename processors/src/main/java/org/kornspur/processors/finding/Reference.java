package org.kornspur.processors.finding;

import java.time.LocalDate;
import java.util.Optional;
import org.kornspur.processors.standards.CategorySubstitution;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.NothingAsked;
import org.kornspur.processors.standards.RulebookSource;
import org.kornspur.processors.statistics.Source;

/** Where a published number stands. */
public sealed interface Reference extends Finding {
  record InText(String text) implements Reference {}

  record FromMemory(String text) implements Reference {}

  record MasterData() implements Reference {}

  record StatedForMaterial() implements Reference {}

  record CommonPractice(String rulebook, String edition, String note, LocalDate from)
      implements Reference {}

  record OfRulebook(
      String rulebook,
      String edition,
      String text,
      String section,
      LocalDate from,
      Optional<LocalDate> to)
      implements Reference {}

  record NotVerified(
      String rulebook,
      String edition,
      String text,
      String section,
      LocalDate from,
      Optional<LocalDate> to)
      implements Reference {}

  /** Where a limit stands, and how sure that is. */
  static Reference of(Limit limit) {
    if (limit.rulebookId().equals(Limit.BREEDER)) {
      return new MasterData();
    } else if (limit.rulebookId().equals(Limit.STATED)) {
      return new StatedForMaterial();
    }
    return ofPracticeOrRulebook(limit);
  }

  /** Where it stands that nothing is asked for, and how sure that is. */
  static Reference of(NothingAsked nothing) {
    return ofPracticeOrRulebook(nothing);
  }

  /** Where it stands that a category is judged as another, and how sure that is. */
  static Reference of(CategorySubstitution.Source source) {
    return ofRulebook(source);
  }

  private static Reference ofPracticeOrRulebook(RulebookSource source) {
    return source.text().equals(Limit.NO_SOURCE)
        ? new CommonPractice(
            source.rulebookId(), source.edition(), source.section(), source.inForceFrom())
        : ofRulebook(source);
  }

  private static Reference ofRulebook(RulebookSource at) {
    return at.verified()
        ? new OfRulebook(
            at.rulebookId(),
            at.edition(),
            at.text(),
            at.section(),
            at.inForceFrom(),
            at.inForceTo())
        : new NotVerified(
            at.rulebookId(),
            at.edition(),
            at.text(),
            at.section(),
            at.inForceFrom(),
            at.inForceTo());
  }

  /** Where a number of a table stands. */
  static Reference of(Source source) {
    return source.verified() ? new InText(source.text()) : new FromMemory(source.text());
  }
}
