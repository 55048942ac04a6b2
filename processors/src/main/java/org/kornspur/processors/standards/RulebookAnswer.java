package org.kornspur.processors.standards;

import java.util.Optional;

/** What a rulebook answers when it is asked for a limit. Silence is an answer of its own. */
public sealed interface RulebookAnswer {

  /** There is a limit. */
  record Limited(Limit line) implements RulebookAnswer {}

  /** The book asks for nothing here, and says so. */
  record Nothing(NothingAsked line) implements RulebookAnswer {}

  /** The book has no line: nobody knows what it asks for. */
  record Silent() implements RulebookAnswer {}

  /** The limit, where there is one. */
  default Optional<Limit> limit() {
    return this instanceof Limited limited ? Optional.of(limited.line()) : Optional.empty();
  }

  /** Where the book asks for nothing. */
  default Optional<NothingAsked> nothing() {
    return this instanceof Nothing none ? Optional.of(none.line()) : Optional.empty();
  }

  default boolean isSilent() {
    return this instanceof Silent;
  }
}
