package org.kornspur.processors.finding;

import java.time.LocalDate;
import java.util.Optional;
import org.kornspur.processors.standards.CategorySubstitution;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.NothingAsked;
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
    } else if (limit.text().equals(Limit.NO_SOURCE)) {
      return new CommonPractice(
          limit.rulebookId(), limit.edition(), limit.section(), limit.inForceFrom());
    }
    return ofRulebook(
        limit.verified(),
        limit.rulebookId(),
        limit.edition(),
        limit.text(),
        limit.section(),
        limit.inForceFrom(),
        limit.inForceTo());
  }

  /** Where it stands that nothing is asked for, and how sure that is. */
  static Reference of(NothingAsked nothing) {
    if (nothing.text().equals(Limit.NO_SOURCE)) {
      return new CommonPractice(
          nothing.rulebookId(), nothing.edition(), nothing.section(), nothing.inForceFrom());
    }
    return ofRulebook(
        nothing.verified(),
        nothing.rulebookId(),
        nothing.edition(),
        nothing.text(),
        nothing.section(),
        nothing.inForceFrom(),
        nothing.inForceTo());
  }

  /** Where it stands that a category is judged as another, and how sure that is. */
  static Reference of(CategorySubstitution.Source source) {
    return ofRulebook(
        source.verified(),
        source.rulebookId(),
        source.edition(),
        source.text(),
        source.section(),
        source.inForceFrom(),
        Optional.empty());
  }

  private static Reference ofRulebook(
      boolean isVerified,
      String rulebook,
      String edition,
      String text,
      String section,
      LocalDate from,
      Optional<LocalDate> to) {
    return isVerified
        ? new OfRulebook(rulebook, edition, text, section, from, to)
        : new NotVerified(rulebook, edition, text, section, from, to);
  }

  /** Where a number of a table stands. */
  static Reference of(Source source) {
    return source.verified() ? new InText(source.text()) : new FromMemory(source.text());
  }
}
